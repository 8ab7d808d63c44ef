import type { JobItem, SignItem, StepItem } from '../../outputs/page/job.ts'
import { all, byData, goTo, one, say } from './elements.ts'
import { exportRecord, exportRun } from './export.ts'
import { type JobHappening, noMove } from './job-log.ts'
import { moveAgain, moveTo, outletOf } from './outlet.ts'
import { elementOf, numbers } from './paint.ts'
import { conditionOf, itemOf, readingKeyOf, tickOf, whyLocked } from './paint-fields.ts'
import { peopleOf, whyNotCrew, whyNotSigner } from './people.ts'
import { lacksOf, openBefore } from './survey.ts'
import { judgeTyped } from './verdict.ts'
import type { Work } from './work.ts'
import { conditionHolds, whyNotBranch } from './worked-out.ts'

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

async function write(work: Work, happening: JobHappening, says = ''): Promise<boolean> {
  const kept = await work.write(happening)
  say(
    kept
      ? says
      : 'This could not be kept on this device, so it is not ticked. Save the record now, and go on with the paper.',
  )
  return kept
}

async function put(work: Work, happening: JobHappening): Promise<void> {
  await write(work, happening)
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

function refuse(work: Work, because: string): void {
  say(because)
  const { missingAtStart } = work.now()
  if (missingAtStart.length > 0) goNext(work)
}

async function tick(work: Work, id: string): Promise<void> {
  const state = work.state()
  if (state.ticks.has(id)) return put(work, { kind: 'untick', id })
  const item = work.job.items.find((candidate) => candidate.id === id)
  if (item?.kind !== 'step') return put(work, { kind: 'tick', id, by: [] })
  const lack = lacksOf(item, state)[0]
  if (lack !== undefined) return pointAt(item, lack.what, lack.id)
  await write(work, { kind: 'tick', id, by: peopleOf(item.by, state) })
}

function pointAt(item: StepItem, what: 'reading' | 'tick' | 'outlet', id: string): void {
  const words = { reading: 'a reading is missing', tick: 'something is not ticked', outlet: 'out of limit' }
  say(`${item.number} is not done yet: ${words[what]}.`)
  const blank = all('.blank', elementOf(item) ?? document).find((one) => readingKeyOf(one) === id)
  if (what === 'reading') goTo(one('input, .answer', blank ?? document))
  if (what === 'tick') goTo(byData('tick', id))
  if (what === 'outlet') goTo(one('.outlet-now button, .outlet-now input', elementOf(item) ?? document))
}

interface Typed {
  readonly input: HTMLInputElement
  readonly text: string
  /** Chosen or printed beside the blank. */
  readonly unit: string
}

function typedInto(field: HTMLElement): Typed | null {
  const blank = field.closest<HTMLElement>('.blank')
  const input = blank === null ? field : one('input', blank)
  if (!(input instanceof HTMLInputElement)) return null
  const unit =
    blank === null ? '' : (one<HTMLSelectElement>('select', blank)?.value ?? one('.unit', blank)?.textContent)
  return { input, text: input.value.trim(), unit: unit ?? '' }
}

async function change(work: Work, { input, text, unit }: Typed): Promise<void> {
  const { dataset } = input
  const blank = input.closest<HTMLElement>('.blank')
  // A unit typed with the figure wins over the one chosen beside it.
  const alone = /[\p{L}%°"'′″]/u.test(text) || text === '' || unit === ''
  if (blank !== null) return writeReading(work, blank, alone ? text : `${text} ${unit}`)
  if (dataset.equipment !== undefined) return put(work, { kind: 'equipment', text })
  if (dataset.note !== undefined) {
    const plain = { verdict: 'noted', judgedAs: '' } as const
    const position = dataset.part ?? ''
    return put(work, { kind: 'reading', reading: dataset.note, position, typed: text, ...plain })
  }
  if (dataset.crew === undefined) return
  const refused = text === '' ? null : whyNotCrew(work.job, work.state(), dataset.crew, text)
  if (refused === null) return put(work, { kind: 'crew', role: dataset.crew, name: text })
  input.value = work.state().crew.get(dataset.crew) ?? ''
  say(refused)
}

/** An answer pressed again is taken back; a value worked out is written down as it is. */
async function answer(work: Work, button: HTMLElement): Promise<void> {
  const blank = button.closest<HTMLElement>('.blank')
  if (blank === null) return
  const pressed = button.getAttribute('aria-pressed') === 'true'
  await writeReading(work, blank, button.dataset.workOut ?? (pressed ? '' : (button.textContent ?? '')))
}

/** Judges and keeps a reading. One that cannot be read is kept too, so that it is not lost, but counts as none. */
async function writeReading(work: Work, blank: HTMLElement, typed: string): Promise<void> {
  const item = itemOf(blank, work)
  const id = blank.closest<HTMLElement>('[data-reading]')?.dataset.reading
  const reading = item?.kind === 'step' ? item.readings.find((candidate) => candidate.id === id) : undefined
  if (reading === undefined) return
  const locked = whyLocked(blank, work, work.now())
  if (locked !== '') return refuse(work, locked)
  const { verdict, judgedAs, remark } = judgeTyped(reading, typed)
  const position = blank.dataset.position || null
  await write(
    work,
    { kind: 'reading', reading: reading.id, position, typed, verdict, judgedAs },
    typed === '' ? '' : remark,
  )
}

async function chooseVariant(work: Work, button: HTMLElement): Promise<void> {
  const name = button.closest<HTMLElement>('[data-variant]')?.dataset.variant ?? ''
  const value = button.dataset.value ?? ''
  const now = work.state().variants.get(name)
  if (now === value) return
  if (now !== undefined && work.now().done > 0)
    return say(`This copy is for ${now}, and steps are ticked. For ${value}, start a new job at the end of the page.`)
  await write(work, { kind: 'variant', name, value })
}

function goNext(work: Work): void {
  goTo(nextPlace(work))
}

function nextPlace(work: Work): HTMLElement | null {
  const now = work.now()
  const missing = now.missingAtStart[0]
  if (now.stop !== null) return elementOf(now.stop.item)
  if (missing?.field === 'crew') return byData('crew', missing.name)
  if (missing !== undefined) return one('button', byData('variant', missing.name) ?? document)
  if (now.next === null) return one('#finish')
  const element = elementOf(now.next.item)
  return now.next.item.kind === 'sign' ? one('input', element ?? document) : element
}

async function decide(work: Work, item: JobItem | null, index: number): Promise<void> {
  const branch = item?.kind === 'decide' ? item.branches[index] : undefined
  if (item?.kind !== 'decide' || branch === undefined) return
  if (notYet(work, item)) return
  if (work.state().decisions.has(item.step)) return say('Already decided. Take the decision back first.')
  const against = whyNotBranch(work.job, work.state(), item, index)
  if (against !== '') return say(against)
  const move = branch.action === 'go' ? moveTo(work.job, item, branch.target) : noMove
  await write(work, { kind: 'decide', step: item.step, branch: index, says: branch.says, move })
}

async function undecide(work: Work, item: JobItem | null): Promise<void> {
  if (item?.kind === 'decide' && !work.now().sealed.has(item.id)) await put(work, { kind: 'undecide', step: item.step })
}

/** Says what must come first, and says true, where an item cannot be settled yet. */
function notYet(work: Work, item: JobItem): boolean {
  const now = work.now()
  const open = openBefore(now, item)
  const standing = now.standings.get(item.id)
  if (open.length > 0) {
    say(`First: ${numbers(open)}.`)
    goTo(elementOf(open[0]?.item ?? item))
  } else if (standing?.status === 'blocked') {
    refuse(work, standing.why)
  }
  return open.length > 0 || standing?.status === 'blocked'
}

async function endPhase(work: Work, button: HTMLElement, met: boolean): Promise<void> {
  const item = itemOf(button, work)
  if (item?.kind !== 'until' || notYet(work, item) || work.state().ended.has(item.phase)) return
  const attempt = (work.state().attempts.get(item.phase) ?? 1) + 1
  if (met && conditionHolds(work.job, work.state(), item, item.condition) === false)
    return say(`By your readings it is not so: ${item.condition}.`)
  if (met) return put(work, { kind: 'until', phase: item.phase, met, attempt: attempt - 1, move: noMove })
  const another = item.atMost === null || attempt <= item.atMost
  const move = another ? moveAgain(work.job, item, [item.phase]) : noMove
  await write(work, { kind: 'until', phase: item.phase, met, attempt, move })
}

async function settle(work: Work, id: string): Promise<void> {
  const item = work.job.items.find((candidate) => candidate.id === id)
  if (item?.kind !== 'step' && item?.kind !== 'until') return
  const outlet = outletOf(item, work.state())
  if (!outlet?.consequence) return
  const { action, targets } = outlet.consequence
  const step = item.kind === 'step' ? item.step : item.phase
  const happening: JobHappening =
    action === 'go'
      ? { kind: 'go', step, move: moveTo(work.job, item, targets[0] ?? null) }
      : { kind: 'again', step, attempt: outlet.attempt + 1, move: moveAgain(work.job, item, targets) }
  if (await write(work, happening)) goNext(work)
}

async function skip(work: Work, id: string): Promise<void> {
  const skipped = work.state().skipped.has(id)
  const condition = conditionOf(id, work)
  if (!skipped && condition?.holds) return say(`By your readings it applies: ${condition.when}.`)
  await write(work, { kind: skipped ? 'unskip' : 'skip', id })
}

async function submit(work: Work, form: HTMLFormElement, fields: FormData): Promise<void> {
  const field = (name: string): string => String(fields.get(name) ?? '').trim()
  const { dataset } = form
  if (form.matches('.sign')) return sign(work, form, field('name'))
  if (dataset.stop !== undefined) {
    if (field('name') === '') return say('Write your name first.')
    const because = work.now().stop?.says ?? ''
    return put(work, { kind: 'stop', item: dataset.stop, because, name: field('name') })
  }
  if (dataset.handover !== undefined) {
    if (field('from') === '' || field('to') === '') return say('Write both names first.')
    const handover = { phase: dataset.handover, from: field('from'), to: field('to') }
    if (await write(work, { kind: 'handover', ...handover }, 'Written down. Change the names under “This job” too.'))
      form.reset()
    return
  }
  if (dataset.deviation === undefined) return
  if (field('text') === '' || field('name') === '') return say('Write what went differently, and your name.')
  if (await write(work, { kind: 'deviation', text: field('text'), name: field('name') }, 'Written down.')) form.reset()
}

function signItem(work: Work, element: Element): SignItem | null {
  const item = itemOf(element, work)
  return item?.kind === 'sign' ? item : null
}

async function sign(work: Work, form: HTMLFormElement, name: string): Promise<void> {
  const item = signItem(work, form)
  if (item === null || notYet(work, item)) return
  const refused =
    name === '' ? `Write the name of the ${item.role} first.` : whyNotSigner(work.job, work.state(), item, name)
  if (refused !== null) {
    say(refused)
    goTo(one('input', form))
    return
  }
  if (await write(work, { kind: 'sign', hold: item.hold, role: item.role, name }, `${item.number} signed.`))
    form.reset()
}

async function waive(work: Work, button: HTMLElement): Promise<void> {
  const item = signItem(work, button)
  const form = button.closest('form')
  if (item === null || form === null || notYet(work, item)) return
  const name = String(new FormData(form).get('name') ?? '').trim()
  if (name === '') return say('Write the name of the person who waives it first.')
  await write(work, { kind: 'waive', hold: item.hold, name }, `${item.number} waived: it proves nothing.`)
}
