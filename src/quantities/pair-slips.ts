import { decimalText } from './number-text.ts'
import { compare, exactPlaces, fromDecimalText, isZero, multiply, powerOfTen } from './rational.ts'
import { placesOf, type TypedValue } from './rounding-of-number.ts'
import type { Unit } from './unit-table.ts'
import { unitsOfKind } from './units.ts'

/** A slip that explains exactly, within the digits of both numbers, why a pair does not go together. */
export type PairSlip =
  | { readonly is: 'same-number' }
  /** The second times 10^exponent would be right. */
  | { readonly is: 'power-of-ten'; readonly exponent: number }
  /** Divided where it should have been multiplied, or the other way round. */
  | { readonly is: 'wrong-way' }
  /** A temperature converted as if it were a difference: the 32 of the Fahrenheit scale was left out. */
  | { readonly is: 'as-difference' }
  /** Two neighbouring digits changed places in one of the numbers; `written` is that number with them changed back. */
  | { readonly is: 'swapped-digits'; readonly side: Side; readonly written: string }
  /** One of the numbers is right in another unit of the kind. */
  | { readonly is: 'other-unit'; readonly side: Side; readonly unit: string }

type Side = 'first' | 'second'

/** Two numbers and the units they were typed with. */
export interface ConvertedPair {
  readonly first: TypedValue
  readonly second: TypedValue
  readonly from: Unit
  readonly to: Unit
  /** A tolerance or a rise: the offset of a temperature scale has no part in it. */
  readonly isDifference: boolean
}

/** More than a thousandfold would not look like the same quantity to anyone. */
const POWERS = [1, -1, 2, -2, 3, -3]

/** The first slip that makes the pair fit, or null. `fits` says whether two numbers go together within their digits. */
export function slipOf(pair: ConvertedPair, fits: (pair: ConvertedPair) => boolean): PairSlip | null {
  const { first, second, from, to } = pair
  if (isZero(first.value) || isZero(second.value)) return null
  if (compare(first.value, second.value) === 0) return { is: 'same-number' }
  const exponent = POWERS.find((power) => fits({ ...pair, second: scaled(second, power) }))
  if (exponent !== undefined) return { is: 'power-of-ten', exponent }
  if (from.kind === 'temperature' && !pair.isDifference && fits({ ...pair, isDifference: true }))
    return { is: 'as-difference' }
  if (from.kind !== 'temperature' && fits({ ...pair, from: to, to: from })) return { is: 'wrong-way' }
  return swappedDigits(pair, fits) ?? otherUnit(pair, fits)
}

function swappedDigits(pair: ConvertedPair, fits: (pair: ConvertedPair) => boolean): PairSlip | null {
  for (const side of ['second', 'first'] as const)
    for (const candidate of withSwappedDigits(pair[side]))
      if (fits({ ...pair, [side]: candidate })) return { is: 'swapped-digits', side, written: candidate.written ?? '' }
  return null
}

function withSwappedDigits({ written }: TypedValue): readonly TypedValue[] {
  const digits = written?.replaceAll('−', '-').replace(/\u00A0/g, '') ?? ''
  if (!/^-?\d*\.?\d+$/.test(digits)) return []
  const leading = /^[-0.]*/.exec(digits)?.[0].length ?? 0
  return [...digits].flatMap((digit, at): readonly TypedValue[] => {
    const next = digits[at + 1] === '.' ? at + 2 : at + 1
    const other = digits[next]
    // A zero in front would make another size of the number, not a swap that the eye passes over.
    if (at < leading || digit === '.' || other === undefined || other === digit) return []
    if (at === leading && other === '0') return []
    const swapped = digits.slice(0, at) + other + digits.slice(at + 1, next) + digit + digits.slice(next + 1)
    const value = fromDecimalText(swapped)
    return value === null ? [] : [{ value, written: decimalText(value, placesOf(swapped)) }]
  })
}

/** `220 lbf·in (24.9 kgf·cm)`, where 24.9 is in newton metres. */
function otherUnit(pair: ConvertedPair, fits: (pair: ConvertedPair) => boolean): PairSlip | null {
  const others = unitsOfKind(pair.from.kind).filter((unit) => unit !== pair.from && unit !== pair.to)
  const second = others.find((unit) => fits({ ...pair, to: unit }))
  if (second) return { is: 'other-unit', side: 'second', unit: second.symbol }
  const first = others.find((unit) => fits({ ...pair, from: unit }))
  return first ? { is: 'other-unit', side: 'first', unit: first.symbol } : null
}

function scaled({ value, written }: TypedValue, power: number): TypedValue {
  const moved = multiply(value, powerOfTen(power))
  if (written === undefined || written.includes('/')) return { value: moved, written }
  // Decimals move with the point: 0.028 as 0.28 to hundredths. A whole number may owe its last zero to the slip itself.
  const places = written.includes('.') ? Math.max(0, placesOf(written) - power) : (exactPlaces(moved) ?? 0)
  return { value: moved, written: decimalText(moved, places) }
}
