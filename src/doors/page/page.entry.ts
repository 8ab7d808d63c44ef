import type { Job } from '../../outputs/page/job.ts'
import { all, say } from './elements.ts'
import { listen } from './listen.ts'
import { openLogStore } from './log-store.ts'
import { paint } from './paint.ts'
import { openWork, type Work } from './work.ts'

/** Wakes the page: what stands in it to read becomes something to work with. */
async function wake(): Promise<void> {
  const job: Job = JSON.parse(document.getElementById('page-data')?.textContent ?? 'null')
  const store = await openLogStore(job.digest)
  let work: Work | null = null
  work = await openWork(job, store, () => {
    if (work !== null) paint(work)
  })
  for (const button of all('.tick, .done')) button.setAttribute('role', 'checkbox')
  // Names and figures of other jobs are no help in this one.
  for (const input of all('input, textarea')) input.setAttribute('autocomplete', 'off')
  paint(work)
  listen(work)
  document.documentElement.classList.add('is-live')
  if (!store.lasting) say('This browser keeps nothing when the page is closed. Save the record before you close it.')
}

void wake()
