import type { Rational } from './quantity-types.ts'

/** Exact fractions on BigInt: plain values and functions over them. */

const LARGEST_EXACT = BigInt(Number.MAX_SAFE_INTEGER)

export const zero: Rational = { numerator: 0n, denominator: 1n }
export const one: Rational = { numerator: 1n, denominator: 1n }

/** `numerator / denominator` in lowest terms. Throws RangeError for a denominator of 0: callers guard what people type. */
export function rational(numerator: bigint | number, denominator: bigint | number = 1n): Rational {
  const top = BigInt(numerator)
  const bottom = BigInt(denominator)
  if (bottom === 0n) throw new RangeError('division by zero')
  if (bottom === 1n) return { numerator: top, denominator: 1n }
  const shared = greatestCommonDivisor(top, bottom)
  const sign = bottom < 0n ? -1n : 1n
  return { numerator: (sign * top) / shared, denominator: (sign * bottom) / shared }
}

export function add(a: Rational, b: Rational): Rational {
  return rational(a.numerator * b.denominator + b.numerator * a.denominator, a.denominator * b.denominator)
}

export function subtract(a: Rational, b: Rational): Rational {
  return rational(a.numerator * b.denominator - b.numerator * a.denominator, a.denominator * b.denominator)
}

export function multiply(a: Rational, b: Rational): Rational {
  return rational(a.numerator * b.numerator, a.denominator * b.denominator)
}

/** Throws RangeError when `b` is 0. */
export function divide(a: Rational, b: Rational): Rational {
  return rational(a.numerator * b.denominator, a.denominator * b.numerator)
}

export function negate(a: Rational): Rational {
  return { numerator: -a.numerator, denominator: a.denominator }
}

export function absolute(a: Rational): Rational {
  return a.numerator < 0n ? negate(a) : a
}

/** −1, 0 or 1. */
export function compare(a: Rational, b: Rational): -1 | 0 | 1 {
  const left = a.numerator * b.denominator
  const right = b.numerator * a.denominator
  if (left < right) return -1
  return left > right ? 1 : 0
}

export function isZero(a: Rational): boolean {
  return a.numerator === 0n
}

export function larger(a: Rational, b: Rational): Rational {
  return compare(a, b) >= 0 ? a : b
}

export function smaller(a: Rational, b: Rational): Rational {
  return compare(a, b) <= 0 ? a : b
}

/** 10 to a whole power, which may be negative. */
export function powerOfTen(exponent: number): Rational {
  const power = 10n ** BigInt(Math.abs(exponent))
  return exponent < 0 ? { numerator: 1n, denominator: power } : { numerator: power, denominator: 1n }
}

/** The largest whole k with 10^k ≤ |a|; 0 for 0. */
export function exponentOfTen(a: Rational): number {
  if (isZero(a)) return 0
  const size = absolute(a)
  const guess = size.numerator.toString().length - size.denominator.toString().length
  return compare(powerOfTen(guess), size) <= 0 ? guess : guess - 1
}

/** The largest multiple of `step` that is not above `a`. */
export function roundDown(a: Rational, step: Rational): Rational {
  return multiply({ numerator: floorOf(divide(a, step)), denominator: 1n }, step)
}

/** The smallest multiple of `step` that is not below `a`. */
export function roundUp(a: Rational, step: Rational): Rational {
  return negate(roundDown(negate(a), step))
}

/** The multiple of `step` nearest to `a`; halves go away from zero. */
export function roundNearest(a: Rational, step: Rational): Rational {
  const half = divide(step, rational(2))
  return a.numerator < 0n ? roundUp(subtract(a, half), step) : roundDown(add(a, half), step)
}

/** Reads `[-]digits[.digits]`; null for anything else. */
export function fromDecimalText(text: string): Rational | null {
  const parts = /^([-−]?)(\d*)(?:\.(\d+))?$/.exec(text)
  if (!parts) return null
  const [, sign, whole = '', decimals = ''] = parts
  if (whole + decimals === '') return null
  const size = rational(BigInt(whole + decimals), 10n ** BigInt(decimals.length))
  return sign ? negate(size) : size
}

/** `p/q`, or `p` for a whole number, with an ASCII minus: what step files carry. */
export function toExactText(a: Rational): string {
  return a.denominator === 1n ? `${a.numerator}` : `${a.numerator}/${a.denominator}`
}

/** The inverse of `toExactText`; null for any other text. */
export function fromExactText(text: string): Rational | null {
  const parts = /^(-?\d{1,400})(?:\/(\d{1,400}))?$/.exec(text)
  if (!parts) return null
  const denominator = BigInt(parts[2] ?? '1')
  return denominator === 0n ? null : rational(BigInt(parts[1] ?? '0'), denominator)
}

/** With that many decimals, an ASCII minus and no grouping; `nearest` takes halves away from zero, `up` and `down` go by the number line. */
export function toDecimalText(a: Rational, places: number, rounding: 'nearest' | 'up' | 'down' = 'nearest'): string {
  const step = powerOfTen(-places)
  const round = { nearest: roundNearest, up: roundUp, down: roundDown }[rounding]
  const scaled = divide(round(a, step), step).numerator
  const digits = (scaled < 0n ? -scaled : scaled).toString().padStart(places + 1, '0')
  const sign = scaled < 0n ? '-' : ''
  if (places === 0) return sign + digits
  return `${sign}${digits.slice(0, -places)}.${digits.slice(-places)}`
}

/** How many decimals write the number exactly, or null where none do (1/3) or more than 40 would be needed. */
export function exactPlaces(a: Rational): number | null {
  let rest = a.denominator
  let twos = 0
  let fives = 0
  while (rest % 2n === 0n) {
    rest /= 2n
    twos++
  }
  while (rest % 5n === 0n) {
    rest /= 5n
    fives++
  }
  const places = Math.max(twos, fives)
  return rest === 1n && places <= 40 ? places : null
}

function floorOf(a: Rational): bigint {
  const quotient = a.numerator / a.denominator
  return a.numerator < 0n && quotient * a.denominator !== a.numerator ? quotient - 1n : quotient
}

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  let x = a < 0n ? -a : a
  let y = b < 0n ? -b : b
  while (y > LARGEST_EXACT || x > LARGEST_EXACT) {
    if (y === 0n) return x
    ;[x, y] = [y, x % y]
  }
  // Whole numbers this small are exact as plain numbers, which are several times as fast.
  let [small, rest] = [Number(x), Number(y)]
  while (rest !== 0) [small, rest] = [rest, small % rest]
  return small === 0 ? 1n : BigInt(small)
}
