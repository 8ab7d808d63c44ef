import type { Rational } from './quantity-types.ts'

/** Exact fractions on BigInt: plain values and functions over them. */

const LARGEST_EXACT = BigInt(Number.MAX_SAFE_INTEGER)
/** 10 to the powers that occur. */
const tens = Array.from({ length: 64 }, (_, exponent) => 10n ** BigInt(exponent))

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
  const shared = greatestCommonDivisor(a.denominator, b.denominator)
  const ofA = a.denominator / shared
  const sum = a.numerator * (b.denominator / shared) + b.numerator * ofA
  // Whatever can still be taken out is in the shared part.
  const common = greatestCommonDivisor(sum, shared)
  return { numerator: sum / common, denominator: ofA * (b.denominator / common) }
}

export function subtract(a: Rational, b: Rational): Rational {
  return add(a, negate(b))
}

export function multiply(a: Rational, b: Rational): Rational {
  // Crosswise before multiplying: the numbers are shorter, and the product is in lowest terms.
  const down = greatestCommonDivisor(a.numerator, b.denominator)
  const up = greatestCommonDivisor(b.numerator, a.denominator)
  return {
    numerator: (a.numerator / down) * (b.numerator / up),
    denominator: (a.denominator / up) * (b.denominator / down),
  }
}

/** Throws RangeError when `b` is 0. */
export function divide(a: Rational, b: Rational): Rational {
  if (b.numerator === 0n) throw new RangeError('division by zero')
  const sign = b.numerator < 0n ? -1n : 1n
  return multiply(a, { numerator: sign * b.denominator, denominator: sign * b.numerator })
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
  const power = wholePowerOfTen(Math.abs(exponent))
  return exponent < 0 ? { numerator: 1n, denominator: power } : { numerator: power, denominator: 1n }
}

/** The largest whole k with 10^k ≤ |a|; 0 for 0. */
export function exponentOfTen(a: Rational): number {
  if (isZero(a)) return 0
  const size = absolute(a)
  // A guess in plain numbers, set right exactly.
  const about = Math.log10(Number(size.numerator)) - Math.log10(Number(size.denominator))
  let exponent = Number.isFinite(about)
    ? Math.round(about)
    : size.numerator.toString().length - size.denominator.toString().length
  while (compare(powerOfTen(exponent), size) > 0) exponent--
  while (compare(powerOfTen(exponent + 1), size) <= 0) exponent++
  return exponent
}

/** How many whole steps lie below `a` or end at it: ⌊a / step⌋, the step above 0. */
export function stepsBelow(a: Rational, step: Rational): bigint {
  return floorOf(a.numerator * step.denominator, a.denominator * step.numerator)
}

/** The largest multiple of `step`, which is above 0, that is not above `a`. */
export function roundDown(a: Rational, step: Rational): Rational {
  return timesWhole(step, stepsBelow(a, step))
}

export function timesWhole(a: Rational, count: bigint): Rational {
  return rational(count * a.numerator, a.denominator)
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
  const top = a.numerator * wholePowerOfTen(places)
  const bottom = a.denominator
  const scaled =
    rounding === 'up' ? -floorOf(-top, bottom) : rounding === 'down' ? floorOf(top, bottom) : nearest(top, bottom)
  const digits = digitsOf(scaled < 0n ? -scaled : scaled).padStart(places + 1, '0')
  const sign = scaled < 0n ? '-' : ''
  if (places === 0) return sign + digits
  return `${sign}${digits.slice(0, -places)}.${digits.slice(-places)}`
}

/** How many decimals write the number exactly, or null where none do (1/3) or more than 40 would be needed. */
export function exactPlaces(a: Rational): number | null {
  if (a.denominator === 1n) return 0
  let rest = a.denominator
  let twos = 0
  let fives = 0
  while (rest % 10n === 0n) {
    rest /= 10n
    twos++
    fives++
  }
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

/** Plain numbers are written several times as fast. */
function digitsOf(count: bigint): string {
  return `${count <= LARGEST_EXACT ? Number(count) : count}`
}

function wholePowerOfTen(exponent: number): bigint {
  return tens[exponent] ?? 10n ** BigInt(exponent)
}

function nearest(numerator: bigint, denominator: bigint): bigint {
  if (numerator < 0n) return -nearest(-numerator, denominator)
  return (2n * numerator + denominator) / (2n * denominator)
}

/** Of a fraction whose denominator is above 0. */
function floorOf(numerator: bigint, denominator: bigint): bigint {
  const quotient = numerator / denominator
  return numerator < 0n && quotient * denominator !== numerator ? quotient - 1n : quotient
}

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  if (a === 1n || b === 1n) return 1n
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
