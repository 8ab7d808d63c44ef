import type { JobReading, StepItem } from '../../outputs/page/job.ts'
import { all, byData, goTo, one, say } from './elements.ts'
import { readingKey } from './job-log.ts'
import { elementOf } from './paint.ts'
import { itemOf, readingKeyOf, whyLocked } from './paint-fields.ts'
import { peopleOf, whyNotCrew } from './people.ts'
import { everyReading, readingOf } from './readings-meant.ts'
import { put, refuse, write } from './respond.ts'
import { lacksOf } from './survey.ts'
import { type Judgement, judgeTyped } from './verdict.ts'
import type { Work } from './work.ts'
import { limitNow } from './worked-out.ts'

export async function tick(work: Work, id: string): Promise<void> {
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
export async function answer(work: Work, button: HTMLElement): Promise<void> {
  const blank = button.closest<HTMLElement>('.blank')
  if (blank === null) return
  const pressed = button.getAttribute('aria-pressed') === 'true'
  await writeReading(work, blank, button.dataset.workOut ?? (pressed ? '' : (button.textContent ?? '')))
}

/** Judges and keeps a reading. One that cannot be read is kept too, so that it is not lost, but counts as none. */
async function writeReading(work: Work, blank: HTMLElement, typed: string): Promise<void> {
  const item = itemOf(blank, work)
  const id = blank.closest<HTMLElement>('[data-reading]')?.dataset.reading
  const reading = readingOf(item, id, work.state())
  if (item?.kind !== 'step' || reading === undefined) return
  const locked = whyLocked(blank, work, work.now())
  if (locked !== '') return refuse(work, locked)
  const position = blank.dataset.position || null
  const { verdict, judgedAs, remark } = judgeHere(work, item, reading, position, typed)
  const kept = await write(
    work,
    { kind: 'reading', reading: reading.id, position, typed, verdict, judgedAs },
    typed === '' ? '' : remark,
  )
  if (kept) await judgeAgain(work)
}

/** By the limit that stands once this is written down: a limit may rest on the first reading of its own name. */
function judgeHere(work: Work, item: StepItem, reading: JobReading, position: string | null, typed: string): Judgement {
  const state = work.state()
  const entered = { at: '', typed, verdict: 'noted', judgedAs: '' } as const
  const readings = new Map(state.readings).set(readingKey(reading.id, position), entered)
  return judgeTyped(reading, typed, limitNow(work.job, { ...state, readings }, item, reading))
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
      const { verdict, judgedAs } = judgeHere(work, item, reading, position, typed)
      if (verdict === entered.verdict) continue
      await write(work, { kind: 'reading', reading: reading.id, position, typed, verdict, judgedAs })
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
