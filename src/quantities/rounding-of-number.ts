import type { QuantityKind, Rational } from './quantity-types.ts'
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
  smaller,
  zero,
} from './rational.ts'

/** A number as somebody typed it, with the digits that say how far it was rounded. */
export interface TypedValue {
  readonly value: Rational
  /** As typed, tidied (`3/8`, `0.10`, `21 400`); undefined where it was worked out and is exact. */
  readonly written: string | undefined
}

/** How far a typed number may lie from what it stands for, in its own unit. */
export interface Rounding {
  /** Half a unit in the last place, or half a step of the fraction. */
  readonly digits: Rational
  /** The same, or more where the number looks as if it had been rounded to fives or to two digits: 25, 375, 34 500. */
  readonly habit: Rational
}

const HALF = rational(1, 2)
/** Rules and drills are marked to sixteenths: 1/2 in is no number rounded to halves. */
const COARSEST_FRACTION = 16n
/** No rounding changes a number by more than this share: "1 ft" stands for 0.8 to 1.2 ft at the most. */
const MOST_OF_VALUE = rational(1, 5)
/** Torques, pressures and temperatures are given in fives; below this, five is too much of the number. */
const LEAST_IN_FIVES = rational(15)
const FIVES = rational(5, 2)
const FEWEST_DIGITS = 2

export function roundingOf({ value, written }: TypedValue, kind: QuantityKind): Rounding {
  if (written === undefined) return { digits: zero, habit: zero }
  const most = kind === 'temperature' ? null : multiply(absolute(value), MOST_OF_VALUE)
  const kept = (allowance: Rational) => (most === null ? allowance : smaller(allowance, most))
  const digits = kept(halfOfLastPlace(written))
  return { digits, habit: larger(digits, kept(habitOf(value, written))) }
}

/** Decimals typed: 2 for `0.10`, 0 for whole numbers and fractions. */
export function placesOf(written: string): number {
  return written.includes('/') ? 0 : (written.split('.')[1]?.length ?? 0)
}

function halfOfLastPlace(written: string): Rational {
  const denominator = /\/(\d+)$/.exec(written)?.[1]
  if (denominator === undefined) return divide(powerOfTen(-placesOf(written)), rational(2))
  const steps = BigInt(denominator)
  return divide(HALF, rational(steps > COARSEST_FRACTION ? steps : COARSEST_FRACTION))
}

/** Half of the step that a whole number seems to be rounded to. */
function habitOf(value: Rational, written: string): Rational {
  if (value.denominator !== 1n || isZero(value) || /[./]/.test(written)) return zero
  const size = absolute(value)
  const isInFives = size.numerator % 5n === 0n && compare(size, LEAST_IN_FIVES) >= 0
  return larger(isInFives ? FIVES : zero, divide(powerOfTen(zerosThatMayBeRounded(size)), rational(2)))
}

/** 34 500 has two, 7000 has two as well: at least two digits are always meant. */
function zerosThatMayBeRounded(size: Rational): number {
  const zeros = /0*$/.exec(size.numerator.toString())?.[0].length ?? 0
  return Math.max(0, Math.min(zeros, exponentOfTen(size) + 1 - FEWEST_DIGITS))
}
