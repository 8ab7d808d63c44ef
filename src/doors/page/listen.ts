import { answer, change, chooseVariant, tick, typedInto } from './do-steps.ts'
import { goTo, one } from './elements.ts'
import { exportRecord, exportRun } from './export.ts'
import { itemOf, tickOf, whyLocked } from './paint-fields.ts'
import { goNext, refuse } from './respond.ts'
import { decide, endPhase, settle, skip, submit, undecide, waive } from './settle.ts'
import type { Work } from './work.ts'

/** Turns what people do on the page into entries of the job. */
export function listen(work: Work): void {
  // One after the other: a tick must see the reading that was typed just before it.
  let last: Promise<void> = Promise.resolve()
  const inTurn = (task: () => Promise<void>): void => {
    // A mistake of ours must not keep the next press from working, nor go unseen.
    last = last.then(task).catch(reportError)
  }
  document.addEventListener('click', (event) => {
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>('button') : null
    if (button !== null) inTurn(() => press(work, button))
  })
  document.addEventListener('change', (event) => {
    const field = event.target
    // Read now: by its turn the page may have been painted anew, with what was kept before.
    const typed = field instanceof HTMLElement ? typedInto(field) : null
    if (typed !== null) inTurn(() => change(work, typed))
  })
  document.addEventListener('submit', (event) => {
    event.preventDefault()
    const form = event.target
    if (!(form instanceof HTMLFormElement)) return
    const fields = new FormData(form)
    inTurn(() => submit(work, form, fields))
  })
  document.addEventListener('keydown', (event) => {
    const field = event.target
    if (event.key === 'Enter' && field instanceof HTMLInputElement && field.form === null) field.blur()
  })
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') inTurn(() => work.refresh())
  })
}

async function press(work: Work, button: HTMLElement): Promise<void> {
  const { dataset } = button
  const locked = whyLocked(button, work, work.now())
  const isTick = button.matches('.tick, .done')
  const isAnswer = button.closest('.blank') !== null
  if ((isTick || isAnswer) && locked !== '') {
    refuse(work, locked)
    return
  }
  if (isTick) return tick(work, tickOf(button))
  if (isAnswer) return answer(work, button)
  if (dataset.value !== undefined) return chooseVariant(work, button)
  if (dataset.next !== undefined) return goNext(work)
  if (dataset.branch !== undefined) return decide(work, itemOf(button, work), Number(dataset.branch))
  if (dataset.undecide !== undefined) return undecide(work, itemOf(button, work))
  if (dataset.until !== undefined) return endPhase(work, button, dataset.until === 'yes')
  if (dataset.settle !== undefined) return settle(work, dataset.settle)
  if (dataset.skip !== undefined) return skip(work, dataset.skip)
  if (dataset.waive !== undefined) return waive(work, button)
  if (dataset.export !== undefined) return exportRecord(work)
  if (dataset.exportRun !== undefined) return exportRun(work, dataset.exportRun)
  if (dataset.newJob !== undefined && (await work.begin())) goTo(one('#start'))
}
