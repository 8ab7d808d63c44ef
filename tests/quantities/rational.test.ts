import fc from 'fast-check'
import { expect, test } from 'vitest'
import { convertBetween, convertToRound } from '../../src/quantities/convert.ts'
import { parseQuantity } from '../../src/quantities/parse-quantity.ts'
import type { Rational } from '../../src/quantities/quantity-types.ts'
import {
  add,
  compare,
  divide,
  exactPlaces,
  exponentOfTen,
  multiply,
  powerOfTen,
  rational,
  roundDown,
  roundNearest,
  roundUp,
  subtract,
  toDecimalText,
} from '../../src/quantities/rational.ts'
import { units } from '../../src/quantities/unit-table.ts'
import { runs } from './runs.ts'

/* The arithmetic takes short cuts; here it is held against the long way: whole numbers, and one reducing at the end. */

const whole = fc.bigInt({ min: -(10n ** 25n), max: 10n ** 25n })
const small = fc.bigInt({ min: -99n, max: 99n })
const below = fc.oneof(fc.bigInt({ min: 1n, max: 10n ** 20n }), fc.bigInt({ min: 1n, max: 64n }))
const numbers = fc.tuple(fc.oneof(whole, small), below).map(([top, bottom]) => rational(top, bottom))

function isReduced({ numerator, denominator }: Rational): boolean {
  let [a, b] = [numerator < 0n ? -numerator : numerator, denominator]
  while (b !== 0n) [a, b] = [b, a % b]
  return denominator > 0n && a === 1n
}

function expectEqual(found: Rational, numerator: bigint, denominator: bigint): void {
  expect(found.numerator * denominator).toBe(numerator * found.denominator)
  expect(isReduced(found)).toBe(true)
}

test('sums, differences, products and quotients are exact and in lowest terms', () => {
  fc.assert(
    fc.property(numbers, numbers, (a, b) => {
      const [an, ad, bn, bd] = [a.numerator, a.denominator, b.numerator, b.denominator]
      expectEqual(add(a, b), an * bd + bn * ad, ad * bd)
      expectEqual(subtract(a, b), an * bd - bn * ad, ad * bd)
      expectEqual(multiply(a, b), an * bn, ad * bd)
      if (bn === 0n) expect(() => divide(a, b)).toThrow(RangeError)
      else expectEqual(divide(a, b), an * bd, ad * bn)
    }),
    runs(),
  )
})

test('rounding gives the multiple of the step below, above or nearest', () => {
  const steps = fc.tuple(fc.constantFrom(1n, 2n, 5n, 3n), fc.integer({ min: -12, max: 12 }))
  fc.assert(
    fc.property(numbers, steps, (a, [digit, exponent]) => {
      const step = multiply(rational(digit), powerOfTen(exponent))
      const [down, up, nearest] = [roundDown(a, step), roundUp(a, step), roundNearest(a, step)]
      for (const rounded of [down, up, nearest]) expect(divide(rounded, step).denominator).toBe(1n)
      expect(compare(down, a)).toBeLessThanOrEqual(0)
      expect(compare(a, add(down, step))).toBe(-1)
      expect(compare(up, a)).toBeGreaterThanOrEqual(0)
      expect(compare(subtract(up, step), a)).toBe(-1)
      const off = subtract(nearest, a)
      expect(compare(multiply(multiply(off, off), rational(4)), multiply(step, step))).toBeLessThanOrEqual(0)
    }),
    runs(2000),
  )
})

test('powers of ten and decimals agree with the digits', () => {
  fc.assert(
    fc.property(numbers, fc.integer({ min: 0, max: 20 }), (a, places) => {
      if (a.numerator !== 0n) {
        const size = a.numerator < 0n ? rational(-a.numerator, a.denominator) : a
        const exponent = exponentOfTen(a)
        expect(compare(powerOfTen(exponent), size)).toBeLessThanOrEqual(0)
        expect(compare(size, powerOfTen(exponent + 1))).toBe(-1)
      }
      for (const [rounding, round] of [
        ['nearest', roundNearest],
        ['up', roundUp],
        ['down', roundDown],
      ] as const) {
        const text = toDecimalText(a, places, rounding)
        const [all = '', decimals = ''] = text.replace('-', '').split('.')
        expect(decimals.length).toBe(places)
        const size = rational(BigInt(all + decimals), 10n ** BigInt(places))
        const value = text.startsWith('-') ? rational(-size.numerator, size.denominator) : size
        expect(compare(value, round(a, powerOfTen(-places)))).toBe(0)
      }
      const exact = exactPlaces(a)
      if (exact !== null) expect((a.numerator * 10n ** BigInt(exact)) % a.denominator).toBe(0n)
    }),
    runs(2000),
  )
})

test('both ways to convert give the same number', () => {
  const pairs = units.flatMap((from) => units.filter(({ kind }) => kind === from.kind).map((to) => [from, to] as const))
  fc.assert(
    fc.property(numbers, fc.constantFrom(...pairs), (a, [from, to]) => {
      const long = divide(subtract(add(multiply(a, from.factor), from.offset), to.offset), to.factor)
      expect(compare(convertBetween(a, from, to), long)).toBe(0)
      expect(compare(convertToRound(a, from, to), long)).toBe(0)
      expect(isReduced(convertBetween(a, from, to))).toBe(true)
    }),
    runs(),
  )
})

test('a plain number is read as its digits say, whatever stands behind it', () => {
  const digits = fc.tuple(
    fc.nat(99_999),
    fc.stringMatching(/^\d{0,12}$/),
    fc.constantFrom('', ' mm', 'mm', ' N·m', '"', ' °C'),
  )
  fc.assert(
    fc.property(digits, ([wholes, decimals, behind]) => {
      const typed = `${wholes}${decimals && `.${decimals}`}`
      const read = parseQuantity(typed + behind)
      expect(read.ok && read.value.value).toEqual(
        rational(BigInt(`${wholes}${decimals}`), 10n ** BigInt(decimals.length)),
      )
      const [tens = ''] = typed.split('.')
      if (read.ok && tens.length < 5) expect(read.value.written).toBe(typed)
    }),
    runs(),
  )
})
