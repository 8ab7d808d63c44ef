import type { Rational } from '../quantities/quantity-types.ts'
import {
  exponentOfTen,
  fromDecimalText,
  isZero,
  multiply,
  powerOfTen,
  toDecimalText,
  zero,
} from '../quantities/rational.ts'

/** The way over to binary numbers and back, for roots, powers and angles. Each step keeps 15 digits. */

/** π to 40 decimals: what is worked out with it alone is good to 40 digits. */
export const pi: Rational = fromDecimalText('3.1415926535897932384626433832795028841972') ?? zero

const DIGITS = 17

/** The nearest binary number; relative error below 1e-15. */
export function toNumber(value: Rational): number {
  if (isZero(value)) return 0
  const exponent = exponentOfTen(value)
  const lead = toDecimalText(multiply(value, powerOfTen(-exponent)), DIGITS)
  return Number(`${lead}e${exponent}`)
}

/** To 15 digits. Throws RangeError for infinite and undefined numbers: the caller guards what leads there. */
export function fromNumber(value: number): Rational {
  if (!Number.isFinite(value)) throw new RangeError('not a finite number')
  const [lead = '0', exponent = '0'] = value.toExponential(14).split('e')
  return multiply(fromDecimalText(lead) ?? zero, powerOfTen(Number(exponent)))
}

/** √a to 15 digits. Throws RangeError below 0. */
export function squareRoot(a: Rational): Rational {
  return fromNumber(Math.sqrt(toNumber(a)))
}

export function squared(a: Rational): Rational {
  return multiply(a, a)
}
