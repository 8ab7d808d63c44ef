import type { Rational } from '../../quantities/quantity-types.ts'
import { absolute, add, compare, divide, multiply, rational } from '../../quantities/rational.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'

/** What a dial indicator says by itself. Exact; one unit of length. */

const lengthUnits = ['mm', 'in'] as const
const half = rational(1n, 2n)

/** A dial at the bottom of a sagging bar reads low by twice the droop: the sag, as measured on a stiff pipe, is added back. */
export function withoutSag(reading: Rational, sag: Rational): Rational {
  return add(reading, absolute(sag))
}

export const indicatorSag = makeCalculator({
  name: 'indicator-sag',
  what: 'Reading corrected for the sag of the bar, of each dial.',
  formula: 'corrected = reading + |sag|, both dials',
  validity: 'Bottom readings with 0 at the top; sag as read on a stiff pipe, which comes out negative.',
  source: 'Common practice of alignment, no published source',
  inputs: {
    reading: { what: 'bottom reading', kind: 'length', unit: 'mm', sign: 'any' },
    sag: { what: 'sag as read on a pipe', kind: 'length', unit: 'mm', sign: 'any' },
  },
  work: ({ reading, sag }) => ({
    ok: true,
    figures: [
      {
        name: 'corrected',
        what: 'corrected reading',
        kind: 'length',
        units: lengthUnits,
        value: withoutSag(reading, sag),
      },
    ],
  }),
})

/** S = L · M / D */
export function angularShim(distance: Rational, reading: Rational, circle: Rational): Rational {
  return divide(multiply(distance, reading), circle)
}

export const angularShimCalculator = makeCalculator({
  name: 'angular-shim',
  what: 'Shim that takes out an angle between two coupling halves.',
  formula: 'S = L · M / D',
  validity: 'Face reading M on the circle D; L between the front and the rear feet.',
  source: 'Refrigeration machine service text on coupling alignment',
  inputs: {
    circle: { what: 'diameter on which the face dial runs', kind: 'length', unit: 'in', symbol: 'D' },
    feet: { what: 'distance between front and rear feet', kind: 'length', unit: 'in', symbol: 'L' },
    reading: { what: 'face reading', kind: 'length', unit: 'in', symbol: 'M', sign: 'any' },
  },
  work: ({ circle, feet, reading }) => ({
    ok: true,
    figures: [
      {
        name: 'shim',
        what: 'shim',
        kind: 'length',
        units: lengthUnits,
        value: angularShim(feet, reading, circle),
        digits: 3,
      },
    ],
  }),
})

export const indicatorSwing = makeCalculator({
  name: 'indicator-swing',
  what: 'Offset from the full swing of a rim dial.',
  formula: 'offset = TIR / 2',
  validity: 'Say whether a limit is on the swing or on the offset: they differ by two.',
  source: 'Refrigeration machine service text on coupling alignment (parallel within .002 in TIR)',
  inputs: {
    swing: { what: 'full swing (TIR)', kind: 'length', unit: 'in', symbol: 'TIR', sign: 'not-negative' },
    'limit-swing': { what: 'limit of the swing', kind: 'length', unit: 'in', optional: true },
    'limit-offset': { what: 'limit of the offset', kind: 'length', unit: 'in', optional: true },
  },
  work: ({ swing, 'limit-swing': limitSwing, 'limit-offset': limitOffset }) => {
    const offset = multiply(swing, half)
    const figures: Figure[] = [{ name: 'offset', what: 'offset', kind: 'length', units: lengthUnits, value: offset }]
    if (limitSwing !== null || limitOffset !== null) {
      const isWithin =
        (limitSwing === null || compare(swing, limitSwing) <= 0) &&
        (limitOffset === null || compare(offset, limitOffset) <= 0)
      figures.push({ name: 'within', what: 'within the limit', word: isWithin ? 'yes' : 'no' })
    }
    return { ok: true, figures }
  },
})
