import type { JobItem } from '../../outputs/page/job.ts'
import { all, byData, one, setText } from './elements.ts'
import { type Reading, readingKey } from './job-log.ts'
import { applies, type Survey } from './survey.ts'
import type { Work } from './work.ts'
import { conditionHolds, workedOut } from './worked-out.ts'

/** Ticks, answers, blanks and notes: what stands in them, and whether they can be used now. */
export function paintFields(work: Work): void {
  const state = work.state()
  const now = work.now()
  for (const part of all('[data-only-variant]')) {
    const { onlyVariant = '', onlyValues = '' } = part.dataset
    part.hidden = onlyVariant !== '' && !applies({ variant: onlyVariant, values: onlyValues.split('|') }, state)
  }
  for (const button of all('[data-tick]')) {
    const tick = state.ticks.get(button.dataset.tick ?? '')
    button.setAttribute('aria-checked', String(tick !== undefined))
    const who = tick?.by.map(({ name }) => name).join(', ') ?? ''
    setText(one('[data-done-by]', button), tick === undefined ? '' : `${who} ${tick.at.slice(11, 16)}`.trim())
    lock(button, work, now)
  }
  for (const field of all<HTMLInputElement>('[data-reading]')) {
    const key = readingKey(field.dataset.reading ?? '', field.dataset.position || null)
    paintReading(field, state.readings.get(key))
    lock(field, work, now)
  }
  for (const input of all<HTMLInputElement>('[data-note]')) {
    show(input, state.readings.get(readingKey(input.dataset.note ?? '', input.dataset.part ?? ''))?.typed ?? '')
  }
  for (const input of all<HTMLInputElement>('[data-crew]')) show(input, state.crew.get(input.dataset.crew ?? '') ?? '')
  const equipment = one<HTMLInputElement>('[data-equipment]')
  if (equipment) show(equipment, state.equipment)
  for (const { name } of work.job.variants) {
    const group = byData('variant', name)
    if (group === null) continue
    for (const button of all('[data-variant-value]', group))
      button.setAttribute('aria-pressed', String(state.variants.get(name) === button.dataset.variantValue))
  }
  for (const button of all('[data-skip]')) paintCondition(button, work)
  for (const button of all('[data-work-out]')) paintWorkedOut(button, work)
}

function paintCondition(button: HTMLElement, work: Work): void {
  const id = button.dataset.skip ?? ''
  button.setAttribute('aria-pressed', String(work.state().skipped.has(id)))
  const holds = conditionOf(id, work)?.holds ?? null
  const says = holds === null ? '' : `By your readings: ${holds ? 'applies' : 'does not apply'}.`
  setText(one('[data-found]', button.parentElement ?? document), says)
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
function paintWorkedOut(button: HTMLElement, work: Work): void {
  const item = itemOf(button, work)
  const reading = item?.kind === 'step' ? item.readings.find(({ id }) => id === button.dataset.workOut) : undefined
  const value = item && reading ? workedOut(work.job, work.state(), item, reading) : null
  const entered = work.state().readings.get(button.dataset.workOut ?? '')
  button.hidden = value === null || entered?.typed === value
  button.dataset.value = value ?? ''
  setText(button, value === null ? '' : `Worked out: ${value}. Write it down`)
}

/** Leaves alone what is being typed. */
function show(input: HTMLInputElement, text: string): void {
  if (document.activeElement !== input && input.value !== text) input.value = text
}

function paintReading(field: HTMLInputElement, entered: Reading | undefined): void {
  const blank = field.closest<HTMLElement>('[data-field]')
  if (field.dataset.answer !== undefined) {
    const chosen = entered?.typed === field.dataset.answer
    field.setAttribute('aria-pressed', String(chosen))
    field.classList.toggle('is-bad', chosen && isBad(entered))
  } else if (document.activeElement !== field) {
    showTyped(field, entered?.typed ?? '')
  }
  if (blank === null) return
  blank.classList.toggle('is-in', entered?.verdict === 'in')
  blank.classList.toggle('is-bad', isBad(entered))
  const verdict = one('[data-verdict]', blank)
  verdict?.classList.toggle('is-in', entered?.verdict === 'in')
  verdict?.classList.toggle('is-bad', isBad(entered))
  if (entered?.verdict !== 'unreadable') setText(verdict, entered === undefined ? '' : verdictSays(entered, field))
  field.setAttribute('aria-invalid', String(isBad(entered) && field.dataset.answer === undefined))
  if (field.dataset.answer !== undefined) field.removeAttribute('aria-invalid')
}

function isBad(entered: Reading | undefined): boolean {
  return entered !== undefined && entered.verdict !== 'in' && entered.verdict !== 'noted'
}

function verdictSays({ verdict, judgedAs }: Reading, field: HTMLElement): string {
  const worked = judgedAs === '' ? '' : ` (= ${judgedAs})`
  const isCheck = field.dataset.answer !== undefined
  switch (verdict) {
    case 'in':
      return isCheck ? 'Passed' : `In limit${worked}`
    case 'low':
      return `LOW, out of limit${worked}`
    case 'high':
      return `HIGH, out of limit${worked}`
    case 'out':
      return isCheck ? 'Not passed' : `Out of limit${worked}`
    case 'noted':
      return 'Written down'
    case 'unreadable':
      return 'Cannot be read as a figure'
  }
}

/** What was typed ends with the unit that was chosen beside it: shown apart again. */
function showTyped(input: HTMLInputElement, typed: string): void {
  const choice = one<HTMLSelectElement>('[data-unit]', input.parentElement ?? document)
  const unit = [...(choice?.options ?? [])].map(({ value }) => value).find((value) => typed.endsWith(` ${value}`))
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
