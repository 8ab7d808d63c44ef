import {
  decimalGrid,
  type Ends,
  type Grid,
  hasNothingToRound,
  inDecimals,
  type RoundedEnds,
  roundInward,
  roundOnGrid,
  roundToStep,
  sizeOf,
  withTexts,
} from './inward.ts'
import { fractionText } from './number-text.ts'
import type { QuantityKind, Rational } from './quantity-types.ts'
import {
  compare,
  divide,
  exactPlaces,
  exponentOfTen,
  multiply,
  one,
  powerOfTen,
  rational,
  timesWhole,
} from './rational.ts'
import type { Unit } from './unit-table.ts'
import { unitBySymbol } from './units.ts'

/** Rounding inward to what an instrument can show. */

/** The marks that the instrument has, in the unit that is printed. */
export interface Marks {
  readonly step: Rational
  /** Whether the instrument reads in this unit: then only its marks can be read; else a step must just not be finer. */
  readonly inThisUnit: boolean
  /** Whether they are halves, quarters … of an inch. */
  readonly areInchFractions: boolean
}

/** The finest mark of an instrument, in a unit that is printed; null where it says nothing about that unit. */
export function marksIn(target: Unit, resolution: { readonly value: Rational; readonly unit: string }): Marks | null {
  const unit = unitBySymbol(resolution.unit)
  if (!unit || !isReadIn(unit, target) || resolution.value.numerator <= 0n) return null
  const step = divide(multiply(resolution.value, unit.factor), target.factor)
  const areInchFractions = target.symbol === 'in' && unit.symbol === 'in' && isInchFraction(resolution.value)
  // Marks that no decimal of this unit can name (1/64 in, in feet) are of no use for choosing the digits.
  return { step, inThisUnit: unit.system === target.system && exactPlaces(step) !== null, areInchFractions }
}

/** Like `roundInward`, but only to marks that can be read, as long as something is left between the ends. */
export function roundToMarks(ends: Ends, kind: QuantityKind, unit: string, marks: Marks): RoundedEnds | null {
  if (hasNothingToRound(ends, kind)) return roundInward(ends, kind, unit)
  const grid = marks.areInchFractions ? inchFractions(sizeOf(ends), marks.step) : readable(decimalGrid(ends), marks)
  const rounded = roundOnGrid(ends, kind, unit, grid)
  if (rounded) return texts(rounded.ends, rounded.step, marks)
  // The marks are too coarse for the rule: print what they can show, if anything is left between the ends.
  const mark = finestReadable(marks)
  const coarse = roundToStep(ends, mark)
  const isLeft = !coarse.lower || !coarse.upper || compare(coarse.lower, coarse.upper) < 0
  return isLeft ? texts(coarse, mark, marks) : roundInward(ends, kind, unit)
}

function readable({ finest, steps }: Grid, marks: Marks): Grid {
  return { finest, steps: steps.filter((step) => isReadable(timesWhole(finest, step), marks)) }
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

/** 1, 1/2, 1/4 … of an inch, down to the marks; 2, 4 … where the size asks for more. */
function inchFractions(size: Rational, finest: Rational): Grid {
  const steps = [1n]
  let step = finest
  while (compare(step, one) < 0 || compare(step, size) < 0) {
    step = timesWhole(step, 2n)
    steps.unshift((steps[0] ?? 1n) * 2n)
  }
  return { finest, steps }
}

function texts(ends: Ends, step: Rational, marks: Marks): RoundedEnds {
  return marks.areInchFractions ? withTexts(ends, fractionText) : inDecimals(ends, exactPlaces(step) ?? 0)
}

/** The marks of a thermometer are differences, typed either way: `1 °C`, `1 Δ°C`. */
function isReadIn(unit: Unit, target: Unit): boolean {
  return unit.kind === target.kind || (unit.kind === 'temperature-difference' && target.kind === 'temperature')
}

/** 1/2, 1/4 … 1/128: marks of a rule, not of a micrometer. */
function isInchFraction(value: Rational): boolean {
  return value.numerator === 1n && [2n, 4n, 8n, 16n, 32n, 64n, 128n].includes(value.denominator)
}
