import type { Correction, Person } from '../../record/entry.ts'
import type { JobItem, StepItem } from '../../record/job.ts'
import { identityKey, readingKey } from '../../record/job-state.ts'
import { judgeHere } from '../../record/judge-here.ts'
import { crewOf, initialsOf, peopleOf, whyNotCrew } from '../../record/people.ts'
import { everyReading, readingOf } from '../../record/readings-meant.ts'
import { type Lack, lacksOf } from '../../record/survey.ts'
import { askReason } from './ask-reason.ts'
import { all, byData, goTo, one, say } from './elements.ts'
import { elementOf } from './paint.ts'
import { itemOf, readingKeyOf, tickOf, whyLocked } from './paint-fields.ts'
import { put, refuse, write } from './respond.ts'
import type { Work } from './work.ts'

export async function tick(work: Work, button: HTMLElement): Promise<void> {
  const id = tickOf(button)
  const state = work.state()
  const item = work.job.items.find((candidate) => candidate.id === id)
  if (state.ticks.has(id)) {
    if (item?.kind !== 'step') return put(work, { kind: 'untick', item: id, because: 'Tapped again.' })
    const what = `${item.number} was ticked at ${state.ticks.get(id)?.at.slice(11, 16)}. Why is it taken back?`
    return askReason(button, what, ['Ticked by mistake', 'Must be done again'], (because) =>
      put(work, { kind: 'untick', item: id, because }, byOf(work, item)),
    )
  }
  if (item?.kind !== 'step') return put(work, { kind: 'tick', item: id }, byOf(work, itemOf(button, work)))
  const lack = lacksOf(item, state, Date.now())[0]
  if (lack !== undefined) return pointAt(work, item, lack)
  await write(work, { kind: 'tick', item: id }, '', byOf(work, item))
}

/** Who does what is done at an item: the people of its roles, else the crew. */
function byOf(work: Work, item: JobItem | null): readonly Person[] {
  const people = item?.kind === 'step' ? peopleOf(item.by, work.state()) : []
  return people.length > 0 ? people : crewOf(work.job, work.state())
}

function pointAt(work: Work, item: StepItem, { what, id }: Lack): void {
  say(`${item.number} is not done yet: ${lackInWords(work, item, { what, id })}.`)
  const blank = all('.blank', elementOf(item) ?? document).find((one) => readingKeyOf(one) === id)
  if (what === 'reading') goTo(one('input, .answer', blank ?? document))
  if (what === 'tick') goTo(byData('tick', id))
  if (what === 'wait') goTo(one('button', byData('wait', id) ?? document))
  if (what === 'outlet') goTo(one('.outlet-now button, .outlet-now input', elementOf(item) ?? document))
}

function lackInWords(work: Work, item: StepItem, { what, id }: Lack): string {
  if (what === 'outlet') return 'out of limit'
  if (what === 'tick') return `not ticked: ${item.ticks.find((tick) => tick.id === id)?.says ?? ''}`
  if (what === 'wait') return work.state().waits.has(id) ? 'the wait is not over' : 'the wait is not over, nor begun'
  const reading = item.readings.find((one) => one.positions.some((at) => readingKey(one.id, at) === id))
  return `a reading is missing: ${reading?.words ?? ''}`
}

export interface Typed {
  readonly input: HTMLInputElement
  readonly text: string
  /** Chosen or printed beside the blank. */
  readonly unit: string
}

export function typedInto(field: HTMLElement): Typed | null {
  const blank = field.closest<HTMLElement>('.blank')
  const input = blank === null ? field : one('input', blank)
  if (!(input instanceof HTMLInputElement)) return null
  const unit =
    blank === null ? '' : (one<HTMLSelectElement>('select', blank)?.value ?? one('.unit', blank)?.textContent)
  return { input, text: input.value.trim(), unit: unit ?? '' }
}

export async function change(work: Work, { input, text, unit }: Typed): Promise<void> {
  const { dataset } = input
  const blank = input.closest<HTMLElement>('.blank')
  // A unit typed with the figure wins over the one chosen beside it.
  const alone = /[\p{L}%°"'′″]/u.test(text) || text === '' || unit === ''
  if (blank !== null) return writeReading(work, blank, alone ? text : `${text} ${unit}`)
  if (dataset.equipment !== undefined) return put(work, { kind: 'equipment', text })
  if (dataset.note !== undefined) return identify(work, input, text)
  if (dataset.person !== undefined) return signIn(work, input, dataset.person, text)
}

/** The number of an instrument, the lot of a material. */
async function identify(work: Work, input: HTMLInputElement, text: string): Promise<void> {
  const { note = '', part = '' } = input.dataset
  const was = work.state().identities.get(identityKey(note, part))?.text ?? ''
  if (was === text) return
  const keep = (because: string | null): Promise<void> =>
    put(work, { kind: 'identity', for: note, part, text, correction: because === null ? null : { was, because } })
  if (was === '') return keep(null)
  askReason(input, `Was “${was}”, now “${text}”. Why?`, mistakes, keep, () => {
    input.value = was
  })
}

async function signIn(work: Work, input: HTMLInputElement, role: string, text: string): Promise<void> {
  const now = work.state().people.get(role)
  const isName = input.dataset.part === 'name'
  const refused = text === '' || !isName ? null : whyNotCrew(work.job, work.state(), role, text)
  if (refused !== null) {
    input.value = now?.name ?? ''
    return say(refused)
  }
  const name = isName ? text : (now?.name ?? '')
  const initials = isName ? initialsOf(text) : text
  await put(work, { kind: 'person', person: { role, name, initials } })
}

/** An answer pressed again is taken back; a value worked out is written down as it is. */
export async function answer(work: Work, button: HTMLElement): Promise<void> {
  const blank = button.closest<HTMLElement>('.blank')
  if (blank === null) return
  const pressed = button.getAttribute('aria-pressed') === 'true'
  await writeReading(work, blank, button.dataset.workOut ?? (pressed ? '' : (button.textContent ?? '')))
}

/**
 * Judges and keeps a reading. One that cannot be read is kept too, so that it is not lost, but counts as none. What is
 * written over another stands beside it with the reason.
 */
async function writeReading(work: Work, blank: HTMLElement, typed: string): Promise<void> {
  const item = itemOf(blank, work)
  const id = blank.closest<HTMLElement>('[data-reading]')?.dataset.reading
  const reading = readingOf(item, id, work.state())
  if (item?.kind !== 'step' || reading === undefined) return
  const locked = whyLocked(blank, work, work.now())
  if (locked !== '') return refuse(work, locked)
  const position = blank.dataset.position || null
  const key = readingKey(reading.id, position)
  const old = work.state().spoiled.has(key) ? undefined : work.state().readings.get(key)
  if (old === undefined ? typed === '' : sameFigure(old.typed, typed)) return
  const { verdict, judgedAs, remark, limit } = judgeHere(work.job, work.state(), item, reading, position, typed)
  const keep = async (correction: Correction | null): Promise<void> => {
    const entry = {
      kind: 'reading',
      reading: reading.id,
      position,
      typed,
      verdict,
      judgedAs,
      limit,
      correction,
    } as const
    if (await write(work, entry, typed === '' ? '' : remark, byOf(work, item))) await judgeAgain(work)
  }
  if (old === undefined) return keep(null)
  if (old.verdict === 'unreadable') return keep({ was: old.typed, because: 'It could not be read as a figure.' })
  const now = typed === '' ? 'taken out' : `now ${typed}`
  askReason(
    blank,
    `Was ${old.typed}, ${now}. Why?`,
    mistakes,
    (because) => keep({ was: old.typed, because }),
    () => work.look(),
  )
}

const mistakes = ['Mistyped', 'Read again', 'Wrong unit']

function sameFigure(a: string, b: string): boolean {
  return a.replace(/\s+/g, ' ').trim() === b.replace(/\s+/g, ' ').trim()
}

/** A limit that rests on what was just written may judge other readings differently: that is written down too. */
async function judgeAgain(work: Work): Promise<void> {
  const { sealed } = work.now()
  for (const { item, reading } of everyReading(work.job, work.state())) {
    if (reading.workedLimit === null || sealed.has(item.id)) continue
    for (const position of reading.positions) {
      const entered = work.state().readings.get(readingKey(reading.id, position))
      if (entered === undefined) continue
      const { typed } = entered
      const { verdict, judgedAs, limit } = judgeHere(work.job, work.state(), item, reading, position, typed)
      if (verdict === entered.verdict) continue
      const correction = { was: typed, because: `Judged again: its limit is now ${limit}.` }
      await write(work, { kind: 'reading', reading: reading.id, position, typed, verdict, judgedAs, limit, correction })
    }
  }
}

export async function chooseVariant(work: Work, button: HTMLElement): Promise<void> {
  const name = button.closest<HTMLElement>('[data-variant]')?.dataset.variant ?? ''
  const value = button.dataset.value ?? ''
  const now = work.state().variants.get(name)
  if (now === value) return
  if (now !== undefined && work.now().done > 0)
    return say(`This copy is for ${now}, and steps are ticked. For ${value}, start a new job at the end of the page.`)
  await write(work, { kind: 'variant', name, value })
}
