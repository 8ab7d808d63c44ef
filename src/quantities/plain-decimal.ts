import type { Rational } from './quantity-types.ts'
import { exactPlaces, exponentOfTen, toDecimalText } from './rational.ts'

/** Digits kept of a number that has no end: more than a double holds, so that no reader loses anything. */
const KEPT_DIGITS = 20

/** A number as programs read it: digits and a point, an ASCII minus, no groups. */
export interface PlainDecimal {
  readonly text: string
  /** False where the digits have no end (1/3) and were rounded to 20 of them. */
  readonly isExact: boolean
}

export function plainDecimal(value: Rational): PlainDecimal {
  const places = exactPlaces(value)
  if (places !== null) return { text: toDecimalText(value, places), isExact: true }
  return { text: toDecimalText(value, Math.max(0, KEPT_DIGITS - 1 - exponentOfTen(value))), isExact: false }
}
