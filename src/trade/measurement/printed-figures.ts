import { convertValue } from '../../quantities/convert.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import {
  absolute,
  add,
  compare,
  divide,
  exponentOfTen,
  fromDecimalText,
  multiply,
  powerOfTen,
  rational,
  roundDown,
  roundNearest,
  roundUp,
  subtract,
  toDecimalText,
  zero,
} from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'

/** What the digits of a printed figure say. Exact. */

/** Half of the last place that is printed. */
export function halfLastPlace(places: number): Rational {
  return multiply(rational(1n, 2n), powerOfTen(-places))
}

/** What rounding to that place may have changed, as part of the figure: half of the last place over the figure, which is not 0. */
export function roundingError(value: Rational, places: number): Rational {
  return absolute(divide(halfLastPlace(places), value))
}

/** Whether the second figure of a dual dimension is the first one converted, within half of its last printed place. */
export function isConsistent(
  first: Rational,
  firstUnit: string,
  second: Rational,
  secondUnit: string,
  places: number,
): boolean {
  const converted = convertValue(first, firstUnit, secondUnit)
  return converted.ok && compare(absolute(subtract(converted.value, second)), halfLastPlace(places)) <= 0
}

export const dualDimension = makeCalculator({
  name: 'dual-dimension',
  what: 'Whether both figures of a dual dimension say the same.',
  formula: '|first converted − second| ≤ half of the last printed place of the second',
  validity: 'Units of one kind. The first figure is the one that holds.',
  source: 'NIST SP 811 (2008), B.7; rounding within half of the last place',
  inputs: {
    first: { what: 'the figure that holds', kind: 'any', sign: 'any' },
    second: { what: 'the converted figure beside it', kind: 'any', sign: 'any' },
  },
  work: ({ first, second }) => {
    if (first.kind !== second.kind)
      return refuse('second', 'The figures are of different kinds.', 'Give both in units of one kind.')
    const typed = first.typed
    const printed = second.typed
    const right = convertValue(typed, first.unit, second.unit)
    if (!right.ok) return refuse('second', right.problem.message, right.problem.advice)
    const rounded = roundNearest(right.value, powerOfTen(-second.places))
    const figures: Figure[] = [
      {
        name: 'consistent',
        what: 'consistent',
        word: isConsistent(typed, first.unit, printed, second.unit, second.places) ? 'yes' : 'no',
      },
      { name: 'correct', what: 'right figure', word: `${toDecimalText(rounded, second.places)} ${second.unit}`.trim() },
    ]
    return { ok: true, figures }
  },
})

/** Sum of decimals, rounded to the coarsest of their places: 142.6 + 21.12 is 163.7. Null for a text that is no decimal. */
export function roundedSum(terms: readonly string[]): { readonly sum: Rational; readonly places: number } | null {
  let sum = zero
  let places = Number.POSITIVE_INFINITY
  for (const term of terms) {
    const value = fromDecimalText(term.trim())
    if (!value) return null
    sum = add(sum, value)
    places = Math.min(places, decimalsOf(term))
  }
  return terms.length === 0 ? null : { sum: roundNearest(sum, powerOfTen(-places)), places }
}

export function decimalsOf(text: string): number {
  return text.trim().split('.')[1]?.length ?? 0
}

export const roundedSumCalculator = makeCalculator({
  name: 'rounded-sum',
  what: 'Sum of figures, rounded to the coarsest of their last places.',
  formula: 'sum, then as many decimals as the figure with the fewest',
  validity: 'Decimals in one unit, typed with the places they are good to.',
  source: 'Army correspondence course MM04409, rounding off, p. 147',
  inputs: { terms: { what: 'the figures', kind: 'text', list: true } },
  work: ({ terms }) => {
    const found = roundedSum(terms)
    if (!found) return refuse('terms', 'A figure is no decimal.', 'Type decimals such as 142.6, with `;` between them.')
    return { ok: true, figures: [{ name: 'sum', what: 'sum', kind: 'number', value: found.sum, digits: 12 }] }
  },
})

/** Significant digits as typed: 2.7 has two, 450 two, 10.0 three. */
export function significantDigits(text: string): number {
  const digits = text.replace(/[^\d.]/g, '').replace(/^0*\.?0*/, '')
  return Math.max(1, text.includes('.') ? digits.replace('.', '').length : digits.replace(/0+$/, '').length)
}

/** A limit with so many significant digits, never wider: an upper one down, a lower one up. */
export function limitInDigits(value: Rational, side: 'upper' | 'lower', digits: number): Rational {
  const step = powerOfTen(exponentOfTen(value) - digits + 1)
  return side === 'upper' ? roundDown(value, step) : roundUp(value, step)
}
