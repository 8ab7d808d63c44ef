import { convertBetween } from './convert.ts'
import { decimalText, withUnit } from './number-text.ts'
import { type ConvertedPair, type PairSlip, slipOf } from './pair-slips.ts'
import type { Bound, Limit, QuantityKind, Rational } from './quantity-types.ts'
import {
  absolute,
  compare,
  divide,
  exponentOfTen,
  isZero,
  larger,
  multiply,
  powerOfTen,
  rational,
  subtract,
  zero,
} from './rational.ts'
import { placesOf, roundingOf, type TypedValue } from './rounding-of-number.ts'
import type { Unit } from './unit-table.ts'
import { unitBySymbol } from './units.ts'

/**
 * Whether a limit and its second value in another unit say the same. Never by a percentage: two numbers go together where one
 * is the other, rounded to the places that are printed, and where the rounding leaves the band between the ends recognisable.
 *
 *     450 ± 25 psi (310 ± 172 kPa)    →  the nominal does not go together, the tolerance does
 */
export type PairFault =
  | { readonly is: 'kind'; readonly first: QuantityKind; readonly second: QuantityKind }
  /** One gives a minimum, the other a maximum; or one gives two ends and the other does not. */
  | { readonly is: 'form' }
  /** The minimum of one is the maximum of the other. */
  | { readonly is: 'ends-swapped' }
  /** One has its minimum above its maximum, though the other has not. */
  | { readonly is: 'crossed' }
  | PairPartFault

/** One number of the pair that does not go together with its other. */
export interface PairPartFault {
  readonly is: 'number'
  readonly part: PairPart
  /** As typed, each with its unit: `450 psi`, `310 kPa`. */
  readonly first: string
  readonly second: string
  /** What the first is in the second's unit, and the other way round: `3103 kPa`, `45.0 psi`. */
  readonly firstConverted: string
  readonly secondConverted: string
  /** What explains it exactly; null where nothing does. */
  readonly slip: PairSlip | null
  /** The digits would explain it, but the rounding takes more than half of the band. */
  readonly isTooCoarse: boolean
}

export type PairPart = 'value' | 'nominal' | 'tolerance' | 'lower tolerance' | 'upper tolerance' | 'minimum' | 'maximum'

/** Two numbers that stand for one another. */
interface Numbers extends Pick<ConvertedPair, 'first' | 'second' | 'isDifference'> {
  readonly part: PairPart
}

interface Sides {
  readonly from: Unit
  readonly to: Unit
  /** Width between the ends of the first, in its unit; null where it has not two. */
  readonly band: Rational | null
}

const HALF = rational(1, 2)
/** What inward printing may give away (`inward.ts`): a tenth of a band, half a percent of a single end. */
const GIVEN_AWAY_OF_BAND = rational(1, 10)
const GIVEN_AWAY_OF_END = rational(5, 1000)
const FEWEST_DIGITS = 3

/** Everything in which the second limit is not the first; empty where they go together. */
export function comparePair(first: Limit, second: Limit): readonly PairFault[] {
  const from = unitBySymbol(first.unit)
  const to = unitBySymbol(second.unit)
  if (!from || !to) return []
  if (from.kind !== to.kind) return [{ is: 'kind', first: from.kind, second: to.kind }]
  const band = first.lower && first.upper ? absolute(subtract(first.upper.value, first.lower.value)) : null
  const sides = { from, to, band }
  if (isCrossed(first) !== isCrossed(second))
    return areSwapped(first, second, sides) ? [{ is: 'ends-swapped' }] : [{ is: 'crossed' }]
  const pairs = numbersOf(first, second, sides)
  if (pairs === null) return [{ is: 'form' }]
  return pairs.flatMap((pair) => faultOf(pair, sides))
}

const isCrossed = ({ lower, upper }: Limit): boolean => !!lower && !!upper && compare(lower.value, upper.value) > 0

/** The numbers that stand for one another, or null where the two limits have not the same shape. */
function numbersOf(first: Limit, second: Limit, sides: Sides): readonly Numbers[] | null {
  const isTolerance = (limit: Limit) => limit.form.startsWith('plus-minus') && limit.aim !== null
  if (isTolerance(first) && isTolerance(second)) return [...nominals(first, second), ...tolerances(first, second)]
  if (first.form === 'nominal' || second.form === 'nominal') return singles(first, second, sides)
  const [ones, others] = [ends(first), ends(second)]
  if (ones.length !== others.length || ones.some(({ part }, index) => others[index]?.part !== part)) return null
  const pairs = ones.flatMap(({ part, bound }, index) => {
    const other = others[index]
    return other ? [numbers(part, typed(bound), typed(other.bound))] : []
  })
  // An aim behind the limit is a number of its own; the middle of a ± beside a range is not.
  return !isTolerance(first) && first.aim && second.aim ? [...pairs, ...nominals(first, second)] : pairs
}

/** `max 0.5 MPa (72.5 psi)`: a second value without a word of its own is the same end. A value beside two ends is one of them. */
function singles(first: Limit, second: Limit, sides: Sides): readonly Numbers[] | null {
  const [one, other] = [onlyNumber(first), onlyNumber(second)]
  if (one && other) return [numbers(one.part === 'value' ? other.part : one.part, one.number, other.number)]
  if (other) return isWithin(first, converted(other.number.value, sides.to, sides.from, false)) ? [] : null
  if (one) return isWithin(second, converted(one.number.value, sides.from, sides.to, false)) ? [] : null
  return null
}

function onlyNumber(limit: Limit): { readonly part: PairPart; readonly number: TypedValue } | null {
  if (limit.aim !== null) return { part: 'value', number: nominalOf(limit) }
  const [only, another] = ends(limit)
  return only && !another ? { part: only.part, number: typed(only.bound) } : null
}

function isWithin({ lower, upper }: Limit, value: Rational): boolean {
  return (!lower || compare(lower.value, value) <= 0) && (!upper || compare(value, upper.value) <= 0)
}

function nominals(first: Limit, second: Limit): readonly Numbers[] {
  return [numbers('nominal', nominalOf(first), nominalOf(second))]
}

function tolerances(first: Limit, second: Limit): readonly Numbers[] {
  // A share of the nominal is the same in every unit.
  if (first.form === 'plus-minus-percent' && second.form === 'plus-minus-percent') return []
  const upper = numbers('upper tolerance', deviation(first, first.upper), deviation(second, second.upper), true)
  if (first.form !== 'plus-minus-uneven' && second.form !== 'plus-minus-uneven')
    return [{ ...upper, part: 'tolerance' }]
  return [numbers('lower tolerance', deviation(first, first.lower), deviation(second, second.lower), true), upper]
}

function deviation(limit: Limit, bound: Bound | null): TypedValue {
  const value = bound && limit.aim ? subtract(bound.value, limit.aim) : zero
  // Only the decimals of the end count: those of the tolerance are the same or fewer.
  if (bound?.written === undefined) return { value, written: undefined }
  const isFraction = bound.written.includes('/') || value.denominator !== 1n
  const places = placesOf(bound.written)
  return { value, written: isFraction && places === 0 ? bound.written : decimalText(value, places) }
}

function ends(limit: Limit): readonly { readonly part: PairPart; readonly bound: Bound }[] {
  return [
    ...(limit.lower ? [{ part: 'minimum' as const, bound: limit.lower }] : []),
    ...(limit.upper ? [{ part: 'maximum' as const, bound: limit.upper }] : []),
  ]
}

const nominalOf = (limit: Limit): TypedValue => ({ value: limit.aim ?? zero, written: limit.aimWritten })
const typed = (bound: Bound): TypedValue => ({ value: bound.value, written: bound.written })
const numbers = (part: PairPart, first: TypedValue, second: TypedValue, isDifference = false): Numbers => ({
  part,
  first,
  second,
  isDifference,
})

function faultOf(pair: Numbers, sides: Sides): readonly PairPartFault[] {
  const expected = converted(pair.first.value, sides.from, sides.to, pair.isDifference)
  const error = absolute(subtract(expected, pair.second.value))
  const isRounded =
    compare(error, allowance(pair.first, pair.second, sides.from, sides.to, 'habit')) <= 0 ||
    isInward(pair, expected, sides)
  const isTooCoarse = isRounded && takesHalfTheBand(pair, error, sides)
  if (isRounded && !isTooCoarse) return []
  const back = converted(pair.second.value, sides.to, sides.from, pair.isDifference)
  return [
    {
      is: 'number',
      part: pair.part,
      first: shown(pair.first, sides.from),
      second: shown(pair.second, sides.to),
      firstConverted: withUnit(sensible(expected, pair.second), sides.to),
      secondConverted: withUnit(sensible(back, pair.first), sides.from),
      slip: isTooCoarse ? null : slipOf({ ...pair, ...sides }, goTogether),
      isTooCoarse,
    },
  ]
}

/** In the second's unit: the wider of the two roundings, since either number may have been made from the other. */
function allowance(first: TypedValue, second: TypedValue, from: Unit, to: Unit, by: 'digits' | 'habit'): Rational {
  const factor = divide(from.factor, to.factor)
  return larger(multiply(roundingOf(first, from.kind)[by], factor), roundingOf(second, to.kind)[by])
}

/**
 * An end that was rounded inward, to a step of 1, 2 or 5 × 10^k, is not wrong: a lower one up, an upper one down, by no more
 * than the printing rule gives away.
 */
function isInward({ part, second }: Numbers, expected: Rational, { from, to, band }: Sides): boolean {
  if ((part !== 'minimum' && part !== 'maximum') || second.written === undefined) return false
  const inward = part === 'minimum' ? subtract(second.value, expected) : subtract(expected, second.value)
  if (inward.numerator < 0n || compare(inward, stepOf(second.value, second.written)) >= 0) return false
  if (band) return compare(inward, multiply(multiply(band, GIVEN_AWAY_OF_BAND), divide(from.factor, to.factor))) <= 0
  const share = multiply(absolute(expected), GIVEN_AWAY_OF_END)
  return compare(inward, from.kind === 'temperature' ? larger(share, rational(1, 5)) : share) <= 0
}

/** The largest 1, 2 or 5 × 10^k of which the number is a multiple, no finer than its last place. */
function stepOf(value: Rational, written: string): Rational {
  const last = -placesOf(written)
  for (let power = isZero(value) ? last : exponentOfTen(value); power >= last; power--)
    for (const digit of [5, 2, 1]) {
      const step = multiply(rational(digit), powerOfTen(power))
      if (divide(value, step).denominator === 1n) return step
    }
  return powerOfTen(last)
}

function takesHalfTheBand({ isDifference }: Numbers, error: Rational, { from, to, band }: Sides): boolean {
  if (isDifference || band === null || band.numerator <= 0n) return false
  return compare(error, multiply(multiply(band, HALF), divide(from.factor, to.factor))) > 0
}

function areSwapped(first: Limit, second: Limit, sides: Sides): boolean {
  const [low, high] = ends(first)
  const [otherLow, otherHigh] = ends(second)
  if (!low || !high || !otherLow || !otherHigh) return false
  const fits = (one: Bound, other: Bound) => goTogether({ ...numbers('value', typed(one), typed(other)), ...sides })
  return fits(low.bound, otherHigh.bound) && fits(high.bound, otherLow.bound)
}

function goTogether({ first, second, from, to, isDifference }: ConvertedPair): boolean {
  const error = absolute(subtract(converted(first.value, from, to, isDifference), second.value))
  return compare(error, allowance(first, second, from, to, 'digits')) <= 0
}

function converted(value: Rational, from: Unit, to: Unit, isDifference: boolean): Rational {
  return isDifference ? divide(multiply(value, from.factor), to.factor) : convertBetween(value, from, to)
}

function shown({ value, written }: TypedValue, unit: Unit): string {
  return withUnit(written ?? sensible(value, { value, written }), unit)
}

/** With the places of the other number beside it, but at least three digits. */
function sensible(value: Rational, beside: TypedValue): string {
  const asBeside = beside.written === undefined || beside.written.includes('/') ? 0 : placesOf(beside.written)
  const places = Math.max(asBeside, isZero(value) ? 0 : FEWEST_DIGITS - 1 - exponentOfTen(value), 0)
  return decimalText(value, places)
}
