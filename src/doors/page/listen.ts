import { askReason, giveReason, leaveIt } from './ask-reason.ts'
import { closeRun } from './close-run.ts'
import { answer, change, chooseVariant, tick, typedInto } from './do-steps.ts'
import { goTo, one, say } from './elements.ts'
import { exportRecord, exportRun } from './export.ts'
import { handOver, openHandOver, proveAgain, takeOn } from './hand-over.ts'
import { itemOf, whyLocked } from './paint-fields.ts'
import { addPhoto, openRemarks, remark } from './remarks.ts'
import { goNext, put, refuse } from './respond.ts'
import { decide, endPhase, settle, skip, undecide } from './settle.ts'
import { personOf, sign, stop, waive } from './sign.ts'
import { takeIn } from './take-in.ts'
import type { Work } from './work.ts'

/** Turns what people do on the page into entries of the job. */
export function listen(work: Work): void {
  // One after the other: a tick must see the reading that was typed just before it.
  let last: Promise<void> = Promise.resolve()
  const inTurn = (task: () => Promise<void> | void): void => {
    // A mistake of ours must not keep the next press from working, nor go unseen.
    last = last.then(task).catch(reportError)
  }
  document.addEventListener('click', (event) => {
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>('button') : null
    if (button !== null) inTurn(() => press(work, button))
  })
  document.addEventListener('change', (event) => {
    const field = event.target
    if (field instanceof HTMLInputElement && field.type === 'file') {
      const file = field.files?.[0]
      inTurn(() => (field.dataset.photo === undefined ? takeIn(work, field, file) : addPhoto(work, field, file)))
      return
    }
    // Read now: by its turn the page may have been painted anew, with what was kept before.
    const typed = field instanceof HTMLElement ? typedInto(field) : null
    if (typed !== null) inTurn(() => change(work, typed))
  })
  document.addEventListener('submit', (event) => {
    event.preventDefault()
    const form = event.target
    if (!(form instanceof HTMLFormElement)) return
    const fields = new FormData(form)
    const isStop = event.submitter?.dataset.closeStopped !== undefined
    inTurn(() => submit(work, form, (name) => String(fields.get(name) ?? '').trim(), isStop))
  })
  document.addEventListener('keydown', (event) => {
    const field = event.target
    if (event.key !== 'Enter' || !(field instanceof HTMLInputElement) || field.form !== null) return
    // The same key must not press the button that the focus may go to.
    event.preventDefault()
    field.blur()
  })
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') inTurn(() => work.refresh())
  })
  document.addEventListener(
    'toggle',
    ({ target }) => {
      if (target instanceof HTMLDetailsElement && target.open && target.matches('[data-remarks]')) openRemarks(target)
    },
    true,
  )
}

async function press(work: Work, button: HTMLElement): Promise<void> {
  const { dataset } = button
  const panel = button.closest('.why')
  if (panel !== null && dataset.reason !== undefined) return giveReason(panel, dataset.reason)
  if (panel !== null && dataset.leave !== undefined) return leaveIt(panel)
  if (dataset.export !== undefined) return exportRecord(work)
  if (dataset.exportRun !== undefined) return exportRun(work, dataset.exportRun)
  if (dataset.print !== undefined) return window.print()
  if (dataset.next !== undefined) return goNext(work)
  if (dataset.newJob !== undefined) {
    if ((await work.begin()) === 'kept') goTo(one('#start'))
    return
  }
  if (work.now().isClosed && isDeed(button))
    return say('This job is closed: nothing can be changed. Start a new job for more.')
  const locked = whyLocked(button, work, work.now())
  const isTick = button.matches('.tick, .done')
  const isAnswer = button.closest('.blank') !== null
  if ((isTick || isAnswer) && locked !== '') return refuse(work, locked)
  if (isTick) return tick(work, button)
  if (isAnswer) return answer(work, button)
  return pressOther(work, button, locked)
}

/** A button that would write something. */
function isDeed(button: HTMLElement): boolean {
  return button.getAttribute('type') !== 'submit' && !button.matches('[data-to-handover]')
}

async function pressOther(work: Work, button: HTMLElement, locked: string): Promise<void> {
  const { dataset } = button
  if (dataset.value !== undefined) return chooseVariant(work, button)
  if (dataset.branch !== undefined) return decide(work, itemOf(button, work), Number(dataset.branch))
  if (dataset.undecide !== undefined) return undecide(work, itemOf(button, work), button)
  if (dataset.until !== undefined) return endPhase(work, button, dataset.until === 'yes')
  if (dataset.settle !== undefined) return settle(work, dataset.settle)
  if (dataset.skip !== undefined) return skip(work, dataset.skip)
  if (dataset.waive !== undefined) return waive(work, button)
  if (dataset.startWait !== undefined)
    return locked === '' ? put(work, { kind: 'wait', wait: dataset.startWait }) : refuse(work, locked)
  if (dataset.endEarly !== undefined) return endEarly(work, button, dataset.endEarly)
  if (dataset.takeOn !== undefined) return takeOn(work, button)
  const sheet = button.closest('details')
  if (sheet?.matches('.bar-open')) sheet.open = false
  if (dataset.proveAgain !== undefined) return proveAgain(work)
  if (dataset.toHandover !== undefined) openHandOver()
}

/** A wait is ended early, or taken on late, only as a deviation: with a reason, by somebody named. */
function endEarly(work: Work, button: HTMLElement, wait: string): void {
  const item = itemOf(button, work)
  if (item?.kind !== 'step') return
  const text = `${item.number}: ${item.waits.find(({ id }) => id === wait)?.says ?? ''}, ended otherwise.`
  askReason(button, `${text} This stands in the record as a deviation. Why?`, [], (because) =>
    put(work, { kind: 'deviation', step: item.step, wait, text, because }),
  )
}

async function submit(
  work: Work,
  form: HTMLFormElement,
  field: (name: string) => string,
  isStop: boolean,
): Promise<void> {
  const { dataset } = form
  if (dataset.why !== undefined) return giveReason(form, field('because'))
  if (work.now().isClosed) return say('This job is closed: nothing can be changed.')
  if (form.matches('.sign')) return sign(work, form, field('name'))
  if (dataset.stop !== undefined) return stop(work, dataset.stop, field('name'))
  if (dataset.handover !== undefined) return handOver(work, form, field)
  if (dataset.remark !== undefined) return remark(work, form, field)
  if (dataset.close !== undefined) return closeRun(work, form, field('name'), field('text'), isStop)
  if (dataset.deviation === undefined) return
  if (field('text') === '' || field('name') === '') return say('Write what went differently, and your name.')
  const deviation = {
    kind: 'deviation',
    step: null,
    wait: null,
    text: field('text'),
    because: field('because'),
  } as const
  await put(work, deviation, [personOf(work, field('name'))])
  say('Written down.')
  form.reset()
}
