import { decimalText, fractionText } from './number-text.ts'
import type { QuantityKind, Rational } from './quantity-types.ts'
import {
  absolute,
  compare,
  divide,
  exactPlaces,
  exponentOfTen,
  isZero,
  larger,
  multiply,
  one,
  powerOfTen,
  rational,
  roundDown,
  roundUp,
  subtract,
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

export interface RoundedEnds extends Ends {
  readonly lowerText: string | null
  readonly upperText: string | null
}

/** The marks that the instrument has, in the unit that is printed. */
export interface Marks {
  readonly step: Rational
  /** Whether the instrument reads in this unit: then only its marks can be read; else a step must just not be finer. */
  readonly inThisUnit: boolean
  /** Whether they are halves, quarters … of an inch. */
  readonly areInchFractions: boolean
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
/** Far finer than any step that the two rules can ask for. */
const MOST_STEPS = 24

/** The ends rounded inward, or null where nothing is left between them: equal, crossed, or closer than the marks. */
export function roundInward(ends: Ends, kind: QuantityKind, unit: string, marks: Marks | null): RoundedEnds | null {
  if (ends.lower && ends.upper && compare(ends.lower, ends.upper) >= 0) return equalEnds(ends.lower, ends.upper)
  const size = ends.lower && ends.upper ? subtract(ends.upper, ends.lower) : absolute(ends.lower ?? ends.upper ?? zero)
  if (isZero(size) && kind !== 'temperature') return texts(ends, one, false)
  const steps = marks?.areInchFractions ? inchFractions(size, marks.step) : decimalSteps(size, marks)
  for (const step of steps) {
    const rounded = roundTo(ends, step)
    if (keepsEnough(ends, rounded, kind, unit)) return texts(rounded, step, marks?.areInchFractions ?? false)
  }
  if (!marks) return null
  // The marks are too coarse for the rule: print what they can show, if anything is left between the ends.
  const coarse = roundTo(ends, finestReadable(marks))
  const isLeft = !coarse.lower || !coarse.upper || compare(coarse.lower, coarse.upper) < 0
  if (!isLeft) return roundInward(ends, kind, unit, null)
  return texts(coarse, finestReadable(marks), marks.areInchFractions)
}

function roundTo(ends: Ends, step: Rational): Ends {
  return { lower: ends.lower && roundUp(ends.lower, step), upper: ends.upper && roundDown(ends.upper, step) }
}

function keepsEnough(ends: Ends, rounded: Ends, kind: QuantityKind, unit: string): boolean {
  if (ends.lower && ends.upper && rounded.lower && rounded.upper) {
    const band = subtract(ends.upper, ends.lower)
    return compare(subtract(rounded.upper, rounded.lower), multiply(band, KEPT_OF_BAND)) >= 0
  }
  const exact = ends.lower ?? ends.upper ?? zero
  const lost = absolute(subtract(rounded.lower ?? rounded.upper ?? zero, exact))
  const share = multiply(absolute(exact), GIVEN_AWAY)
  const least = kind === 'temperature' ? GIVEN_AWAY_OF_TEMPERATURE[unit] : undefined
  return compare(lost, least ? larger(share, least) : share) <= 0
}

/** 5, 2, 1 × 10^k downward from the size of the band or of the single end. */
function* decimalSteps(size: Rational, marks: Marks | null): Generator<Rational> {
  const start = exponentOfTen(size) + 1
  for (let count = 0; count < MOST_STEPS; count++) {
    const step = multiply(rational([5, 2, 1][count % 3] ?? 1), powerOfTen(start - Math.floor(count / 3)))
    if (!marks || isReadable(step, marks)) yield step
  }
}

function isReadable(step: Rational, marks: Marks): boolean {
  if (!marks.inThisUnit) return compare(step, marks.step) >= 0
  return divide(step, marks.step).denominator === 1n
}

/** The marks themselves, or the next step of 1, 2 or 5 × 10^k above marks that are in another unit. */
function finestReadable(marks: Marks): Rational {
  if (marks.inThisUnit) return marks.step
  const power = powerOfTen(exponentOfTen(marks.step))
  const steps = [1, 2, 5, 10].map((digit) => multiply(rational(digit), power))
  return steps.find((step) => compare(step, marks.step) >= 0) ?? marks.step
}

/** 1, 1/2, 1/4 … of an inch, down to the marks. */
function* inchFractions(size: Rational, finest: Rational): Generator<Rational> {
  let step: Rational = one
  while (compare(step, size) < 0) step = multiply(step, rational(2))
  for (; compare(step, finest) >= 0; step = divide(step, rational(2))) yield step
}

/** Equal ends cannot go inward: they print where the number is exact and short, else not at all. Crossed ends do not print. */
function equalEnds(lower: Rational, upper: Rational): RoundedEnds | null {
  if (compare(lower, upper) !== 0) return null
  const places = exactPlaces(lower)
  if (places === null || places > 6) return null
  const text = decimalText(lower, places)
  return { lower, upper, lowerText: text, upperText: text }
}

function texts(ends: Ends, step: Rational, asFractions: boolean): RoundedEnds {
  const places = exactPlaces(step) ?? 0
  const write = (value: Rational | null) => {
    if (!value || isZero(value)) return value && '0'
    return asFractions ? fractionText(value) : decimalText(value, places)
  }
  return { ...ends, lowerText: write(ends.lower), upperText: write(ends.upper) }
}
