import { decimalText } from './number-text.ts'
import type { QuantityKind, Rational } from './quantity-types.ts'
import {
  absolute,
  compare,
  exactPlaces,
  exponentOfTen,
  isZero,
  larger,
  negate,
  powerOfTen,
  rational,
  stepsBelow,
  timesWhole,
  zero,
} from './rational.ts'

/**
 * Rounding that never lets a bad part pass: lower ends go up, upper ends go down, on the coarsest step of 1, 2 or 5 × 10^k
 * that keeps at least 90 % of the band between two ends, or gives away at most 0.5 % of a single one.
 *
 *     typed     |------------------------|
 *     printed     |--------------------|
 */

export interface Ends {
  readonly lower: Rational | null
  readonly upper: Rational | null
}

/** The ends are for comparing; they need not be in lowest terms. */
export interface RoundedEnds extends Ends {
  readonly lowerText: string | null
  readonly upperText: string | null
}

const KEPT_OF_BAND = rational(9, 10)
const GIVEN_AWAY = rational(5, 1000)
/**
 * Zero degrees is no zero, so half a percent of it says nothing: a single end of a temperature may always give away
 * a tenth of a °C (two tenths of a °F), which is as fine as shop thermometers read.
 */
const GIVEN_AWAY_OF_TEMPERATURE: Readonly<Record<string, Rational>> = {
  '°C': rational(1, 10),
  '°F': rational(2, 10),
  K: rational(1, 10),
}
/** 5, 2, 1 × 10^k downward, far finer at the end than any step that the two rules can ask for. */
const DECIMAL_STEPS = [7, 6, 5, 4, 3, 2, 1, 0].flatMap((power) =>
  [5n, 2n, 1n].map((digit) => digit * 10n ** BigInt(power)),
)

/** Steps, coarse ones first, as whole numbers of a finest one: trying one then costs neither a fraction nor its reducing. */
export interface Grid {
  readonly finest: Rational
  readonly steps: readonly bigint[]
}

/** The ends, in lowest terms or not, rounded inward; or null where nothing is left between them: equal or crossed. */
export function roundInward(ends: Ends, kind: QuantityKind, unit: string): RoundedEnds | null {
  if (ends.lower && ends.upper && compare(ends.lower, ends.upper) >= 0) return equalEnds(ends.lower, ends.upper)
  if (hasNothingToRound(ends, kind)) return inDecimals(ends, 0)
  const rounded = roundOnGrid(ends, kind, unit, decimalGrid(ends))
  return rounded && inDecimals(rounded.ends, exactPlaces(rounded.step) ?? 0)
}

/** Equal or crossed ends, or nothing but zero. */
export function hasNothingToRound(ends: Ends, kind: QuantityKind): boolean {
  if (ends.lower && ends.upper) return compare(ends.lower, ends.upper) >= 0
  return kind !== 'temperature' && isZero(ends.lower ?? ends.upper ?? zero)
}

/** The ends on the first step of a grid that keeps enough, or null where none does. */
export function roundOnGrid(
  ends: Ends,
  kind: QuantityKind,
  unit: string,
  { finest, steps }: Grid,
): { readonly ends: Ends; readonly step: Rational } | null {
  const keepsEnough = ends.lower && ends.upper ? keepsOfBand(ends, finest) : keepsOfEnd(ends, kind, unit, finest)
  const counted = countInward(ends, finest)
  for (const step of steps) {
    const lower = counted.lower && -downTo(-counted.lower, step)
    const upper = counted.upper && downTo(counted.upper, step)
    if (keepsEnough(lower, upper)) return { ends: timesStep({ lower, upper }, finest), step: timesWhole(finest, step) }
  }
  return null
}

/** The ends on the nearest multiples of a step that lie within them. */
export function roundToStep(ends: Ends, step: Rational): Ends {
  return timesStep(countInward(ends, step), step)
}

/** The size of the band, or of the single end. */
export function sizeOf({ lower, upper }: Ends): Rational {
  return lower && upper ? between(lower, upper) : absolute(lower ?? upper ?? zero)
}

/** Ends as whole numbers of a step. */
interface Counted {
  readonly lower: bigint | null
  readonly upper: bigint | null
}

function countInward(ends: Ends, step: Rational): Counted {
  return { lower: ends.lower && stepsUpTo(ends.lower, step), upper: ends.upper && stepsBelow(ends.upper, step) }
}

/** Not in lowest terms, like what lies between two numbers. */
function timesStep({ lower, upper }: Counted, { numerator, denominator }: Rational): Ends {
  return {
    lower: lower === null ? null : { numerator: lower * numerator, denominator },
    upper: upper === null ? null : { numerator: upper * numerator, denominator },
  }
}

function downTo(count: bigint, step: bigint): bigint {
  const over = count % step
  return over < 0n ? count - over - step : count - over
}

function stepsUpTo(value: Rational, step: Rational): bigint {
  return -stepsBelow(negate(value), step)
}

/** What lies between two numbers, for counting and comparing only: bringing it to lowest terms takes longer than all the rest. */
function between(lower: Rational, upper: Rational): Rational {
  return {
    numerator: upper.numerator * lower.denominator - lower.numerator * upper.denominator,
    denominator: lower.denominator * upper.denominator,
  }
}

/** A share of a number, likewise. */
function share(whole: Rational, part: Rational): Rational {
  return { numerator: whole.numerator * part.numerator, denominator: whole.denominator * part.denominator }
}

type KeepsEnough = (lower: bigint | null, upper: bigint | null) => boolean

function keepsOfBand(ends: Ends, finest: Rational): KeepsEnough {
  const least = stepsUpTo(share(sizeOf(ends), KEPT_OF_BAND), finest)
  return (lower, upper) => lower !== null && upper !== null && upper - lower >= least
}

function keepsOfEnd(ends: Ends, kind: QuantityKind, unit: string, finest: Rational): KeepsEnough {
  const exact = ends.lower ?? ends.upper ?? zero
  const ofSize = share(absolute(exact), GIVEN_AWAY)
  const always = kind === 'temperature' ? GIVEN_AWAY_OF_TEMPERATURE[unit] : undefined
  const given = always ? larger(ofSize, always) : ofSize
  if (ends.lower) {
    const most = stepsBelow(between(negate(given), exact), finest)
    return (lower) => lower !== null && lower <= most
  }
  const least = stepsUpTo(between(given, exact), finest)
  return (_, upper) => upper !== null && upper >= least
}

/** From one above the size of the band or of the single end. */
export function decimalGrid(ends: Ends): Grid {
  return { finest: powerOfTen(exponentOfTen(sizeOf(ends)) - 6), steps: DECIMAL_STEPS }
}

/** Equal ends cannot go inward: they print where the number is exact and short, else not at all. Crossed ends do not print. */
function equalEnds(lower: Rational, upper: Rational): RoundedEnds | null {
  if (compare(lower, upper) !== 0) return null
  const end = rational(lower.numerator, lower.denominator)
  const places = exactPlaces(end)
  if (places === null || places > 6) return null
  const text = decimalText(end, places)
  return { lower: end, upper: end, lowerText: text, upperText: text }
}

export function inDecimals(ends: Ends, places: number): RoundedEnds {
  return withTexts(ends, (value) => decimalText(value, places))
}

export function withTexts(ends: Ends, write: (value: Rational) => string): RoundedEnds {
  const text = (value: Rational | null) => value && (isZero(value) ? '0' : write(value))
  return { ...ends, lowerText: text(ends.lower), upperText: text(ends.upper) }
}
