import { applies } from '../../record/applies.ts'
import type { JobItem, JobReading, StepItem } from '../../record/job.ts'
import { identityKey, type JobState, type Reading, readingKey } from '../../record/job-state.ts'
import { readingOf } from '../../record/readings-meant.ts'
import type { Survey } from '../../record/survey.ts'
import { limitInWords } from '../../record/verdict.ts'
import { conditionHolds, limitNow, workedOut } from '../../record/worked-out.ts'
import { all, byData, make, one, setText, showIn } from './elements.ts'
import type { Work } from './work.ts'

/** Ticks, answers, blanks and notes: what stands in them, and whether they can be used now. */
export function paintFields(work: Work): void {
  const state = work.state()
  const now = work.now()
  for (const part of all('[data-only]')) {
    const { only = '', values = '' } = part.dataset
    part.hidden = !applies({ variant: only, values: values.split(',') }, state)
  }
  for (const button of all('.tick, .done')) {
    const tick = state.ticks.get(tickOf(button))
    button.setAttribute('aria-checked', String(tick !== undefined))
    if (button.matches('.done')) paintDoneBy(button, tick)
    lock(button, work, now)
  }
  for (const blank of all('.blank')) {
    const entered = state.readings.get(readingKeyOf(blank))
    paintReading(blank, entered, state.spoiled.has(readingKeyOf(blank)))
    showIn(blank, 'was', beforeSays(readingKeyOf(blank), state))
    for (const field of all('input, select, .answer', blank)) lock(field, work, now)
    paintWorkedOut(blank, work, entered)
  }
  for (const input of all<HTMLInputElement>('[data-note]')) {
    show(input, state.identities.get(identityKey(input.dataset.note ?? '', input.dataset.part ?? ''))?.text ?? '')
  }
  for (const input of all<HTMLInputElement>('[data-person]')) {
    const person = state.people.get(input.dataset.person ?? '')
    show(input, (input.dataset.part === 'name' ? person?.name : person?.initials) ?? '')
  }
  const equipment = one<HTMLInputElement>('[data-equipment]')
  if (equipment) show(equipment, state.equipment)
  for (const { name } of work.job.variants) {
    const group = byData('variant', name)
    if (group === null) continue
    for (const button of all('[data-value]', group))
      button.setAttribute('aria-pressed', String(state.variants.get(name) === button.dataset.value))
  }
  for (const button of all('[data-skip]')) paintCondition(button, work)
}

/** Old values stay readable: of tries before, and those that were corrected, with the reason. */
function beforeSays(key: string, state: JobState): string {
  const corrected = ({ before }: Pick<Reading, 'before'>): readonly string[] =>
    before.map(
      ({ typed, at, changedBy, because }) =>
        `${typed} (${at.slice(11, 16)}), changed by ${changedBy.map(({ initials }) => initials).join(', ')}: ${because}`,
    )
  const earlier = (state.earlierReadings.get(key) ?? []).flatMap((entered, index) => [
    ...corrected(entered),
    `${entered.typed} at try ${index + 1} (${entered.at.slice(11, 16)}): ${verdictSays(entered, false)}`,
  ])
  const now = state.readings.get(key) ?? { before: state.emptied.get(key) ?? [] }
  const all = [...earlier, ...corrected(now)]
  return all.length === 0 ? '' : `Before: ${all.join('; ')}`
}

/** What a box to tick stands for: a small tick by its own name, the big one for its step. */
export function tickOf(button: HTMLElement): string {
  return button.dataset.tick ?? button.closest<HTMLElement>('[data-item]')?.dataset.item ?? ''
}

/** The reading a blank stands for, by id and position. */
export function readingKeyOf(blank: HTMLElement): string {
  return readingKey(blank.closest<HTMLElement>('[data-reading]')?.dataset.reading ?? '', blank.dataset.position || null)
}

function paintDoneBy(button: HTMLElement, tick: { at: string; by: readonly { name: string }[] } | undefined): void {
  const who = tick?.by.map(({ name }) => name).join(', ') ?? ''
  const says = tick === undefined ? '' : `${who} ${tick.at.slice(11, 16)}`.trim()
  const found = one('.done-by', button)
  if (found !== null) setText(found, says)
  else if (says !== '') button.append(make('span', 'done-by', says))
}

function paintCondition(button: HTMLElement, work: Work): void {
  const id = button.dataset.skip ?? ''
  button.setAttribute('aria-pressed', String(work.state().skipped.has(id)))
  const holds = conditionOf(id, work)?.holds ?? null
  showIn(
    button.parentElement,
    'found',
    holds === null ? '' : `By your readings: ${holds ? 'applies' : 'does not apply'}.`,
    button,
  )
}

/** The condition of a step or phase, and what the readings say about it. */
export function conditionOf(id: string, work: Work): { readonly when: string; readonly holds: boolean | null } | null {
  for (const item of work.job.items) {
    const condition = item.conditions.find((candidate) => candidate.id === id)
    if (condition) return { when: condition.when, holds: conditionHolds(work.job, work.state(), item, condition.when) }
  }
  return null
}

/** Offers what the readings give for a derived value, for as long as something else stands in the blank. */
function paintWorkedOut(blank: HTMLElement, work: Work, entered: Reading | undefined): void {
  const item = itemOf(blank, work)
  const id = blank.closest<HTMLElement>('[data-reading]')?.dataset.reading
  const reading = readingOf(item, id, work.state())
  if (item?.kind === 'step' && reading !== undefined) paintLimitNow(blank, work, item, reading)
  if (item === null || reading?.kind !== 'derive') return
  const value = workedOut(work.job, work.state(), item, reading)
  const button = one('[data-work-out]', blank) ?? make('button', 'plain', '')
  button.hidden = value === null || entered?.typed === value
  button.dataset.workOut = value ?? ''
  setText(button, value === null ? '' : `Worked out: ${value}. Write it down`)
  if (button.parentElement === null) blank.append(button)
}

/** Leaves alone what is being typed. */
function show(input: HTMLInputElement, text: string): void {
  if (document.activeElement !== input && input.value !== text) input.value = text
}

function paintReading(blank: HTMLElement, entered: Reading | undefined, isSpoiled: boolean): void {
  const isCheck = one('.answer', blank) !== null
  for (const button of all('.answer', blank)) {
    const chosen = entered?.typed === button.textContent
    button.setAttribute('aria-pressed', String(chosen))
    button.classList.toggle('is-bad', chosen && isBad(entered))
  }
  const input = one<HTMLInputElement>('input', blank)
  if (input !== null) {
    input.setAttribute('aria-invalid', String(isBad(entered)))
    if (document.activeElement !== input) showTyped(input, entered?.typed ?? '')
  }
  blank.classList.toggle('is-in', entered?.verdict === 'in' && !isSpoiled)
  blank.classList.toggle('is-bad', isBad(entered))
  const says = entered === undefined ? '' : verdictSays(entered, isCheck)
  showIn(blank, 'verdict', isSpoiled ? `${says}. No longer counts: read it again` : says)
}

/** The limit as the readings set it, beside the blank that it judges. */
function paintLimitNow(blank: HTMLElement, work: Work, item: StepItem, reading: JobReading): void {
  if (reading.workedLimit === null) return
  const limit = limitNow(work.job, work.state(), item, reading)
  showIn(blank, 'found', limit?.ok ? `Limit here: ${limitInWords(limit.value)}` : 'The limit is not known yet')
}

function isBad(entered: Reading | undefined): boolean {
  return entered !== undefined && entered.verdict !== 'in' && entered.verdict !== 'noted'
}

function verdictSays({ verdict, judgedAs }: Reading, isCheck: boolean): string {
  const worked = judgedAs === '' ? '' : ` (= ${judgedAs})`
  switch (verdict) {
    case 'in':
      return isCheck ? 'Passed' : `In limit${worked}`
    case 'low':
      return `LOW, out of limit${worked}`
    case 'high':
      return `HIGH, out of limit${worked}`
    case 'out':
      return isCheck ? 'Not passed' : `Out of limit${worked}`
    case 'in-doubt':
      return `In doubt, too near the limit${worked}`
    case 'noted':
      return 'Written down'
    case 'waiting':
      return 'Not judged yet: its limit rests on another reading'
    case 'unreadable':
      return 'Cannot be read as a figure'
  }
}

/** What was typed ends with the unit that was chosen beside it: shown apart again. */
function showTyped(input: HTMLInputElement, typed: string): void {
  const choice = one<HTMLSelectElement>('select', input.parentElement ?? document)
  const only = one('.unit', input.parentElement ?? document)?.textContent ?? ''
  const units = choice === null ? [only] : [...choice.options].map(({ value }) => value)
  const unit = units.find((value) => value !== '' && typed.endsWith(` ${value}`))
  if (choice && unit !== undefined) choice.value = unit
  const shown = unit === undefined ? typed : typed.slice(0, -unit.length - 1)
  if (input.value !== shown) input.value = shown
}

/** The job item that a field belongs to, or null for those that belong to none. */
export function itemOf(element: Element, work: Work): JobItem | null {
  const id = element.closest<HTMLElement>('[data-item]')?.dataset.item
  return work.job.items.find((item) => item.id === id) ?? null
}

function lock(field: HTMLElement, work: Work, now: Survey): void {
  const because = whyLocked(field, work, now) !== ''
  field.setAttribute('aria-disabled', String(because))
  if (field instanceof HTMLInputElement) field.readOnly = because
  if (field instanceof HTMLSelectElement) field.disabled = because
}

/** Why a field cannot be used now; empty where it can. */
export function whyLocked(field: Element, work: Work, now: Survey): string {
  const item = itemOf(field, work)
  if (item === null) return ''
  const standing = now.standings.get(item.id)
  if (standing?.status === 'off') return `${item.number}: ${standing.why}.`
  if (now.sealed.has(item.id) && standing?.status === 'done')
    return `${item.number} is signed for. Write what went differently at the end of the page.`
  return standing?.status === 'blocked' ? standing.why : ''
}
