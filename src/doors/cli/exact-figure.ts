import { decimalText, withUnit } from '../../quantities/number-text.ts'
import { plainDecimal } from '../../quantities/plain-decimal.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import { exactPlaces, exponentOfTen, powerOfTen, roundDown, roundUp, toExactText } from '../../quantities/rational.ts'
import type { Unit } from '../../quantities/unit-table.ts'

/** Digits shown of a number that has no end. */
const SHOWN_DIGITS = 12

/** One exact number as `--json` carries it: `value` has 20 digits where the decimal has no end, `exact` is always `p/q` or an integer. */
export interface ExactFigure {
  readonly value: string
  readonly exact: string
}

export function exactFigure(value: Rational): ExactFigure {
  return { value: plainDecimal(value).text, exact: toExactText(value) }
}

/** `9.525 mm`, or the number alone; where the decimal has no end, cut and marked: `175.171010453… lbf·ft`. */
export function exactDecimalText(value: Rational, unit?: Unit): string {
  const number = exactDecimal(value)
  return unit ? withUnit(number, unit) : number
}

function exactDecimal(value: Rational): string {
  const places = exactPlaces(value)
  if (places !== null) return decimalText(value, places)
  const kept = Math.max(1, SHOWN_DIGITS - 1 - exponentOfTen(value))
  const step = powerOfTen(-kept)
  const cut = value.numerator < 0n ? roundUp(value, step) : roundDown(value, step)
  return `${decimalText(cut, kept)}…`
}

/** The same with the fraction behind it where the decimal has no end: `0.333333333333… in, exactly 1/3`. */
export function exactText(value: Rational, unit: Unit): string {
  const decimal = exactDecimalText(value, unit)
  return exactPlaces(value) === null ? `${decimal}, exactly ${toExactText(value)}` : decimal
}
