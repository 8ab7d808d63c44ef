import { convertBetween } from './convert.ts'
import { readNumberWithUnit } from './parse-quantity.ts'
import { limitTextIn } from './print-limit.ts'
import type { Bound, Limit, PrintedBound, PrintedLimit, QuantityProblem, Rational } from './quantity-types.ts'
import { absolute, add, compare, divide, fromExactText, multiply, negate, toExactText } from './rational.ts'
import type { Unit } from './unit-table.ts'
import { unitBySymbol } from './units.ts'

/** `in-doubt`: the uncertainty reaches over an end of the limit, or the limit judges nothing. */
type Verdict = 'in' | 'low' | 'high' | 'in-doubt' | 'unreadable'

export interface JudgeOptions {
  /** Expanded uncertainty of the instrument, in a unit of the limit's kind. Left out: simple acceptance. */
  readonly uncertainty?: { readonly value: Rational; readonly unit: string }
}

/** Where readings are accepted once the uncertainty is taken off, in the limit's unit. */
interface GuardBand {
  readonly lower: PrintedBound | null
  readonly upper: PrintedBound | null
  /** The uncertainty is as wide as the limit: this instrument cannot show that anything is in limit. */
  readonly acceptsNothing: boolean
}

export interface Judgement {
  readonly verdict: Verdict
  /** The reading in the limit's unit, exact: `p/q` or an integer; null when unreadable. */
  readonly value: string | null
  /** The limit in the unit that was read: `max 9.5 mm`. */
  readonly expected: string
  readonly guard: GuardBand | null
  /** In doubt on which side of the end: ILAC-G8:09/2019, 4.2.3, calls them conditional pass and conditional fail. */
  readonly leans: 'in' | 'out' | null
  /** Why it is unreadable, or why nothing can be judged. */
  readonly problem: QuantityProblem | null
  /** A likely slip: the reading would be in limit in the other unit. */
  readonly hint: string | null
}

/** The verdict on a value, without the words around it. */
export interface ValueVerdict {
  readonly verdict: Exclude<Verdict, 'unreadable'>
  readonly leans: 'in' | 'out' | null
  readonly guard: GuardBand | null
}

/**
 * Judges what a technician typed. A number without a unit is in the limit's unit; every unit of its kind may be typed.
 * The typed limit is judged, exactly, whatever was printed.
 *
 * Without an uncertainty the decision is simple acceptance. With one, an end is moved inward by it to accept and outward to
 * reject, and what lies between is in doubt (ISO 14253-1; ILAC-G8:09/2019, 4.2).
 */
export function judge(limit: Limit, typedReading: string, options: JudgeOptions = {}): Judgement {
  const unit = unitBySymbol(limit.unit)
  const nothing = { value: null, guard: null, leans: null, hint: null }
  const expectedIn = (wanted: Unit | null) =>
    (wanted && limitTextIn(limit, wanted)) ?? (unit && limitTextIn(limit, unit)) ?? limit.typed
  const reading = readNumberWithUnit(typedReading, 0, typedReading.length, limit.kind)
  if (!reading.ok || !unit) {
    const problem = reading.ok ? unknownUnit(limit) : emptyOr(typedReading, reading.problem)
    return { ...nothing, verdict: 'unreadable', expected: expectedIn(null), problem }
  }
  const { number, unit: readIn } = reading.value
  const value = convertBetween(number.value, readIn ?? unit, unit)
  const result = judgeValue(limit, value, options)
  const isOut = result.verdict === 'low' || result.verdict === 'high'
  return {
    verdict: result.verdict,
    value: toExactText(value),
    expected: expectedIn(readIn),
    guard: result.guard,
    leans: result.leans,
    problem: judgesNothing(limit),
    hint: isOut && !readIn ? otherUnitHint(limit, number.value, unit) : null,
  }
}

/** Judges an exact value in the limit's unit. */
export function judgeValue(limit: Limit, value: Rational, options: JudgeOptions = {}): ValueVerdict {
  const uncertainty = uncertaintyIn(limit, options)
  const guard = uncertainty && guardBand(limit, uncertainty)
  if (judgesNothing(limit)) return { verdict: 'in-doubt', leans: null, guard }
  const isIn = reaches(value, limit.lower, 'lower') && reaches(value, limit.upper, 'upper')
  if (!uncertainty) {
    if (isIn) return { verdict: 'in', leans: null, guard: null }
    return { verdict: reaches(value, limit.lower, 'lower') ? 'high' : 'low', leans: null, guard: null }
  }
  const isSurelyHigh = !reaches(add(value, negate(uncertainty)), limit.upper, 'upper')
  const isSurelyLow = !reaches(add(value, uncertainty), limit.lower, 'lower')
  if (isSurelyHigh) return { verdict: 'high', leans: null, guard }
  if (isSurelyLow) return { verdict: 'low', leans: null, guard }
  const isSurelyIn =
    reaches(add(value, negate(uncertainty)), limit.lower, 'lower') &&
    reaches(add(value, uncertainty), limit.upper, 'upper')
  return isSurelyIn ? { verdict: 'in', leans: null, guard } : { verdict: 'in-doubt', leans: isIn ? 'in' : 'out', guard }
}

/** What to judge a value by, where its uncertainty may be a share of it (`1 %`). */
export function uncertaintyAt(
  uncertainty: { readonly value: Rational; readonly unit: string } | null | undefined,
  value: Rational,
  unit: string,
): JudgeOptions {
  if (!uncertainty) return {}
  const share = unitBySymbol(uncertainty.unit)
  if (share?.kind !== 'ratio' || unitBySymbol(unit)?.kind === 'ratio') return { uncertainty }
  return { uncertainty: { value: multiply(multiply(uncertainty.value, share.factor), absolute(value)), unit } }
}

/** The limit that a step file carries, ready to be judged. Null where its exact ends cannot be read. */
export function limitOfPrinted(printed: PrintedLimit): Limit | null {
  const lower = boundOf(printed.lower)
  const upper = boundOf(printed.upper)
  if (lower === undefined || upper === undefined) return null
  const { typed, unit, ucum, kind } = printed
  const aim = printed.aim === null ? null : fromExactText(printed.aim)
  return { typed, form: printed.form as Limit['form'], lower, upper, aim, unit, ucum, kind, pair: null }
}

function boundOf(printed: PrintedBound | null): Bound | null | undefined {
  if (printed === null) return null
  const value = fromExactText(printed.exact)
  return value === null ? undefined : { value, inclusive: printed.inclusive }
}

/** Whether a value satisfies one end. */
function reaches(value: Rational, bound: Bound | null, side: 'lower' | 'upper'): boolean {
  if (!bound) return true
  const order = compare(value, bound.value)
  if (order === 0) return bound.inclusive
  return side === 'lower' ? order > 0 : order < 0
}

function uncertaintyIn(limit: Limit, options: JudgeOptions): Rational | null {
  if (!options.uncertainty || options.uncertainty.value.numerator <= 0n) return null
  const from = unitBySymbol(options.uncertainty.unit)
  const to = unitBySymbol(limit.unit)
  if (!from || !to) return null
  // A difference: the offset of a temperature scale has no part in it.
  return divide(multiply(options.uncertainty.value, from.factor), to.factor)
}

function guardBand(limit: Limit, uncertainty: Rational): GuardBand {
  const lower = limit.lower && add(limit.lower.value, uncertainty)
  const upper = limit.upper && add(limit.upper.value, negate(uncertainty))
  const written = (value: Rational | null, bound: Bound | null) =>
    value && bound && { exact: toExactText(value), inclusive: bound.inclusive }
  return {
    lower: written(lower, limit.lower),
    upper: written(upper, limit.upper),
    acceptsNothing: lower !== null && upper !== null && compare(lower, upper) > 0,
  }
}

function judgesNothing(limit: Limit): QuantityProblem | null {
  const at = { from: 0, to: limit.typed.length }
  if (!limit.lower && !limit.upper)
    return {
      message: `"${limit.typed}" has no tolerance, so no reading can be judged by it.`,
      advice: 'Ask for the limit.',
      ...at,
    }
  if (limit.lower && limit.upper && compare(limit.lower.value, limit.upper.value) > 0)
    return {
      message: `"${limit.typed}" has its ends crossed: nothing can be in limit.`,
      advice: 'Ask for the right limit.',
      ...at,
    }
  return null
}

/** A number typed without a unit that would be in limit in the other family's unit. */
function otherUnitHint(limit: Limit, value: Rational, unit: Unit): string | null {
  const other = unit.counterpart === undefined ? null : unitBySymbol(unit.counterpart)
  if (!other || judgeValue(limit, convertBetween(value, other, unit)).verdict !== 'in') return null
  return `In ${other.symbol} it would be in limit. Which unit was read?`
}

function emptyOr(typed: string, problem: QuantityProblem): QuantityProblem {
  if (typed.trim() !== '') return problem
  return {
    message: 'No reading yet.',
    advice: 'Type the number read, and its unit if it is another one.',
    from: 0,
    to: 0,
  }
}

function unknownUnit(limit: Limit): QuantityProblem {
  return {
    message: `The unit "${limit.unit}" of the limit is not known.`,
    advice: 'Ask for the limit.',
    from: 0,
    to: 0,
  }
}
