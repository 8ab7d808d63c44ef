import { unpackJob } from '../../record/packed-job.ts'
import { lapsedProofs } from '../../record/standing.ts'
import { timersOf } from '../../record/timers.ts'
import { all, say } from './elements.ts'
import { listen } from './listen.ts'
import { openLogStore } from './log-store.ts'
import { paint, paintClock } from './paint.ts'
import { offerRemarks } from './remarks.ts'
import { openWork, type Work } from './work.ts'

/** Wakes the page: what stands in it to read becomes something to work with. */
async function wake(): Promise<void> {
  const job = unpackJob(JSON.parse(document.getElementById('page-data')?.textContent ?? 'null'))
  const store = await openLogStore(job.digest)
  let work: Work | null = null
  work = await openWork(job, store, () => {
    if (work !== null) paint(work)
  })
  for (const button of all('.tick, .done')) button.setAttribute('role', 'checkbox')
  offerRemarks()
  // Names and figures of other jobs are no help in this one.
  for (const input of all('input, textarea')) input.setAttribute('autocomplete', 'off')
  paint(work)
  listen(work)
  tickAlong(work)
  document.documentElement.classList.add('is-live')
  if (!store.lasting) say('This browser keeps nothing when the page is closed. Save the record before you close it.')
}

/** Once a second: times that run, and all else again when one of them has come to its end. */
function tickAlong(work: Work): void {
  const overNow = (): string =>
    JSON.stringify([
      work.job.items.flatMap((item) =>
        item.kind === 'step' && item.waits.length > 0
          ? timersOf(item, work.state(), Date.now()).map(({ isOver, isLate }) => [isOver, isLate])
          : [],
      ),
      lapsedProofs(work.job, work.state(), Date.now()).length,
    ])
  let before = overNow()
  setInterval(() => {
    const after = overNow()
    if (after === before) return paintClock(work)
    before = after
    work.look()
  }, 1000)
}

void wake()
