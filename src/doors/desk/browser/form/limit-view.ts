import { make } from '../elements.ts'
import type { Change, Named } from './field.ts'

type Kind = 'between' | 'most' | 'least' | 'about' | 'typed'

const kindWords: readonly (readonly [Kind, string])[] = [
  ['between', 'from … to …'],
  ['most', 'at most'],
  ['least', 'at least'],
  ['about', 'this, ± …'],
  ['typed', 'as typed'],
]

interface Parts {
  readonly kind: Kind
  readonly first: string
  readonly second: string
  readonly unit: string
  /** Of the second figure, where it has one of its own: `%`. */
  readonly otherUnit: string
}

const figure = String.raw`[-−]?\d[\d.,/-]*`
const forms: readonly (readonly [Kind, RegExp])[] = [
  ['between', new RegExp(`^(${figure}) to (${figure}) (\\S+)$`)],
  ['most', new RegExp(`^max (${figure})() (\\S+)$`)],
  ['least', new RegExp(`^min (${figure})() (\\S+)$`)],
  ['about', new RegExp(`^(${figure}) (\\S+) ± (${figure}) (\\S+)$`)],
]

/** A limit as its parts, where it has one of the four usual forms; anything else is typed. */
export function limitParts(text: string): Parts {
  for (const [kind, form] of forms) {
    const match = form.exec(text)
    if (match === null) continue
    const [, first = '', second = '', third = '', fourth = ''] = match
    return kind === 'about'
      ? { kind, first, second: third, unit: second, otherUnit: fourth }
      : { kind, first, second, unit: third, otherUnit: '' }
  }
  return { kind: text === '' ? 'between' : 'typed', first: '', second: '', unit: '', otherUnit: '' }
}

export function limitText({ kind, first, second, unit, otherUnit }: Parts): string {
  if (first === '') return ''
  if (kind === 'most') return `max ${first} ${unit}`.trim()
  if (kind === 'least') return `min ${first} ${unit}`.trim()
  if (kind === 'about') return `${first} ${unit} ± ${second} ${otherUnit || unit}`.trim()
  return `${first} to ${second} ${unit}`.trim()
}

/** A limit by its parts: how, figures and unit. */
export function limitView(
  units: readonly string[],
  value: string,
  { id, label, wants }: Named,
  change: Change,
): HTMLElement {
  let parts = limitParts(value)
  const how = make('select', { id, 'aria-label': `${label}: how` })
  how.append(...kindWords.map(([kind, words]) => make('option', { value: kind }, words)))
  const field = (words: string): HTMLInputElement =>
    make('input', { type: 'text', inputmode: 'decimal', 'aria-label': `${label}: ${words}`, autocomplete: 'off' })
  const first = field('figure')
  const second = field('second figure')
  const unit = unitSelect(units, parts.unit, `${label}: unit`)
  const otherUnit = unitSelect(['%', ...units], parts.otherUnit, `${label}: unit of the second figure`)
  const typed = make('input', {
    type: 'text',
    'aria-label': `${label}: as typed`,
    placeholder: wants,
    autocomplete: 'off',
  })
  typed.value = value
  const row = make('div', { class: 'form-row' }, how, first, second, unit, otherUnit, typed)
  const show = (): void => {
    const { kind } = parts
    first.hidden = kind === 'typed'
    second.hidden = kind !== 'between' && kind !== 'about'
    unit.hidden = kind === 'typed'
    otherUnit.hidden = kind !== 'about'
    typed.hidden = kind !== 'typed'
    row.dataset.kind = kind
  }
  how.value = parts.kind
  first.value = parts.first
  second.value = parts.second
  const tell = (): void => {
    parts = {
      kind: how.value as Kind,
      first: first.value.trim(),
      second: second.value.trim(),
      unit: unit.value,
      otherUnit: otherUnit.value,
    }
    show()
    if (parts.kind !== 'typed') typed.value = limitText(parts)
    change(parts.kind === 'typed' ? typed.value : limitText(parts))
  }
  for (const one of [first, second, typed]) one.addEventListener('input', tell)
  for (const one of [how, unit, otherUnit]) one.addEventListener('change', tell)
  show()
  return row
}

function unitSelect(units: readonly string[], value: string, label: string): HTMLSelectElement {
  const select = make('select', { 'aria-label': label })
  const all = value !== '' && !units.includes(value) ? [value, ...units] : units
  select.append(...[...new Set(all)].map((unit) => make('option', { value: unit }, unit)))
  if (value !== '') select.value = value
  return select
}
