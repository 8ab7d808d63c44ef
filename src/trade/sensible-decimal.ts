import type { Rational } from '../quantities/quantity-types.ts'
import {
  exactPlaces,
  exponentOfTen,
  isZero,
  powerOfTen,
  roundDown,
  roundNearest,
  roundUp,
  toDecimalText,
} from '../quantities/rational.ts'

const USUAL_DIGITS = 5
const SHORT_EXACT_PLACES = 4

/**
 * A decimal of at most so many significant digits, without zeros behind them; where no digits are asked for, a short exact decimal
 * stays whole (0.0625, 1234567). ASCII minus, no grouping: it can be read back.
 */
export function sensibleDecimal(
  value: Rational,
  digits?: number,
  rounding: 'nearest' | 'up' | 'down' = 'nearest',
): string {
  if (isZero(value)) return '0'
  const exact = exactPlaces(value)
  if (digits === undefined && exact !== null && exact <= SHORT_EXACT_PLACES) return toDecimalText(value, exact)
  const places = (digits ?? USUAL_DIGITS) - 1 - exponentOfTen(value)
  const round = { nearest: roundNearest, up: roundUp, down: roundDown }[rounding]
  const text = toDecimalText(round(value, powerOfTen(-places)), Math.max(places, 0))
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text
}
