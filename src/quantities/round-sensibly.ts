import { decimalText } from './number-text.ts'
import type { Rational } from './quantity-types.ts'
import { absolute, compare, exactPlaces, exponentOfTen, isZero, powerOfTen, roundNearest } from './rational.ts'
import type { Unit } from './unit-table.ts'

const FEWEST_DIGITS = 3
const MOST_DIGITS = 6

/**
 * A converted nominal value with as many digits as the typed one deserves: at least three, or as many as were typed, one more
 * where the first digit became smaller (NIST SP 811, 2008, B.7.1). Short exact values stay whole: 1 in is 25.4 mm.
 * Digits are added while the rounded value is not allowed: an aim must not leave its limit.
 * Temperatures keep the decimals typed and one more at most, since their digits do not say how exact they are.
 */
export function nearestText(
  converted: Rational,
  typed: Rational,
  written: string | undefined,
  unit: Unit,
  isAllowed: (rounded: Rational) => boolean = () => true,
): string {
  const digits = Math.min(
    MOST_DIGITS,
    Math.max(FEWEST_DIGITS, digitsTyped(written) + (leadsSmaller(converted, typed) ? 1 : 0)),
  )
  const exact = exactPlaces(converted)
  const places = digits - 1 - exponentOfTen(converted)
  const most = unit.kind === 'temperature' ? Math.min(places, decimalsOf(written) + 1) : places
  if (isZero(converted)) return '0'
  if (exact !== null && exact <= Math.max(most, 0)) return decimalText(converted, exact)
  for (let kept = most; ; kept++) {
    const rounded = roundNearest(converted, powerOfTen(-kept))
    if (isAllowed(rounded) || kept >= most + MOST_DIGITS) return decimalText(rounded, Math.max(0, kept))
  }
}

/** Whether the first digit became smaller in the conversion, so that as many digits say less. */
function leadsSmaller(converted: Rational, typed: Rational): boolean {
  if (isZero(converted) || isZero(typed)) return false
  const { numerator, denominator } = powerOfTen(exponentOfTen(converted) - exponentOfTen(typed))
  const alike = { numerator: typed.numerator * numerator, denominator: typed.denominator * denominator }
  return compare(absolute(converted), absolute(alike)) < 0
}

/** Significant digits as typed: 12.375 has five, 450 two, 3/8 none that count. */
function digitsTyped(written: string | undefined): number {
  if (written === undefined || written.includes('/')) return 0
  const digits = written.replace(/[^\d.]/g, '').replace(/^0*\.?0*/, '')
  return written.includes('.') ? digits.replace('.', '').length : digits.replace(/0+$/, '').length
}

function decimalsOf(written: string | undefined): number {
  return written?.split('.')[1]?.length ?? 0
}
