import { toBase } from '../quantities/convert.ts'
import { parseQuantity } from '../quantities/parse-quantity.ts'
import type { Parsed, Quantity, QuantityKind, Rational } from '../quantities/quantity-types.ts'
import { compare, zero } from '../quantities/rational.ts'
import { unitBySymbol } from '../quantities/units.ts'
import { nearestName } from '../text/nearest-name.ts'
import type { CalculatorProblem } from './calculator.ts'

/** Texts into values of a calculator's inputs. */

export type System = 'metric' | 'inch'

/** A quantity of a kind that the calculator leaves open. */
export interface Amount {
  /** In the base unit of its kind. */
  readonly value: Rational
  readonly kind: QuantityKind
  readonly unit: string
  /** In that unit. */
  readonly typed: Rational
  /** Decimals typed. */
  readonly places: number
}

type Item = Rational | Amount | string

export interface ReadInput {
  readonly value: Item | readonly Item[] | null
  /** The family of the unit typed; null where it tells nothing. */
  readonly system: System | null
  /** Kind and symbol of the unit typed; null for words and plain numbers. */
  readonly typed: { readonly kind: QuantityKind; readonly unit: string } | null
}

type Reading<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: CalculatorProblem }

interface Asked {
  readonly what: string
  readonly kind: QuantityKind | 'word' | 'size' | 'text' | 'any' | 'any-difference'
  readonly optional?: true
  readonly list?: true
  readonly choices?: readonly string[]
  readonly sign?: 'positive' | 'not-negative' | 'any'
}

const MOST_ITEMS = 1000

/** Reads one input; `typed` undefined or blank is "not given". */
export function readInput(name: string, asked: Asked, typed: string | undefined): Reading<ReadInput> {
  const text = (typed ?? '').trim()
  if (text === '') {
    if (asked.optional) return { ok: true, value: { value: null, system: null, typed: null } }
    return refused(name, `"${name}" is missing.`, `Give ${name}: ${asked.what}.`)
  }
  if (!asked.list) return readItem(name, asked, text)
  const pieces = text.split(/;|,\s+/).map((piece) => piece.trim())
  if (pieces.length > MOST_ITEMS)
    return refused(name, `"${name}" has ${pieces.length} values.`, `Give at most ${MOST_ITEMS}.`)
  const items: Item[] = []
  let last: Omit<ReadInput, 'value'> = { system: null, typed: null }
  for (const piece of pieces) {
    if (piece === '')
      return refused(name, `A value is missing in "${text}".`, 'Type the values with `;` between them, none empty.')
    const item = readItem(name, asked, piece)
    if (!item.ok) return item
    items.push(item.value.value as Item)
    const { system, typed: unit } = item.value
    last = { system: system ?? last.system, typed: unit ?? last.typed }
  }
  return { ok: true, value: { value: items, ...last } }
}

function readItem(name: string, asked: Asked, text: string): Reading<ReadInput> {
  if (asked.kind === 'word') return readWord(name, asked.choices ?? [], text)
  if (asked.kind === 'text') return { ok: true, value: { value: text, system: null, typed: null } }
  if (asked.kind === 'size')
    return { ok: true, value: { value: text, system: /^M\s?\d/i.test(text) ? 'metric' : 'inch', typed: null } }
  const quantity = quantityOf(text, asked.kind)
  if (!quantity.ok) return refused(name, `${name}: ${quantity.problem.message}`, quantity.problem.advice)
  const { value, unit: symbol, kind, written } = quantity.value
  const unit = unitBySymbol(symbol)
  if (!unit) return refused(name, `${name}: "${text}" does not fit here.`, `Give ${asked.what}.`)
  const sign = asked.sign ?? (kind.startsWith('temperature') ? 'any' : 'positive')
  const side = compare(value, zero)
  if (sign === 'positive' && side <= 0) return refused(name, `${name} is ${text}.`, `Give ${asked.what} above 0.`)
  if (sign === 'not-negative' && side < 0)
    return refused(name, `${name} is ${text}, below 0.`, `Give ${asked.what}, 0 or more.`)
  const base = toBase(value, unit)
  const isOpen = asked.kind === 'any' || asked.kind === 'any-difference'
  return {
    ok: true,
    value: {
      value: isOpen
        ? { value: base, kind, unit: symbol, typed: value, places: written?.split('.')[1]?.length ?? 0 }
        : base,
      system: unit.system === 'both' ? null : unit.system,
      typed: symbol === '' ? null : { kind, unit: symbol },
    },
  }
}

/** A plain number may be typed as a part, `75 %`; a difference of temperatures is no temperature. */
function quantityOf(text: string, kind: string): Parsed<Quantity> {
  if (kind === 'number') {
    const part = parseQuantity(text, 'ratio')
    return part.ok ? part : parseQuantity(text, 'number')
  }
  if (kind !== 'any' && kind !== 'any-difference') return parseQuantity(text, kind)
  const open = parseQuantity(text)
  return kind === 'any-difference' && open.ok && open.value.kind === 'temperature'
    ? parseQuantity(text, 'temperature-difference')
    : open
}

function readWord(name: string, choices: readonly string[], text: string): Reading<ReadInput> {
  const wanted = plain(text)
  const chosen = choices.find((choice) => plain(choice) === wanted)
  if (chosen !== undefined) return { ok: true, value: { value: chosen, system: null, typed: null } }
  const near = nearestName(text, choices)
  return refused(
    name,
    `"${text}" is not a choice for ${name}.`,
    near === null
      ? `Choose one of: ${choices.join(', ')}.`
      : `Did you mean "${near}"? The choices are: ${choices.join(', ')}.`,
  )
}

function plain(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
}

function refused(input: string, message: string, advice: string): { ok: false; problem: CalculatorProblem } {
  return { ok: false, problem: { input, message, advice } }
}
