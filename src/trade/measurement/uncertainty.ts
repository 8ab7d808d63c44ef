import type { Rational } from '../../quantities/quantity-types.ts'
import { add, divide, multiply, rational, zero } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { squared, squareRoot } from '../binary.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'

/** Combined and expanded uncertainty. Roots to 15 digits; all parts in one unit. */

/** √(u₁² + u₂² + …) */
export function rootSumOfSquares(parts: readonly Rational[]): Rational {
  return squareRoot(parts.reduce((sum, part) => add(sum, squared(part)), zero))
}

const root = {
  /** Half width over √3 */
  rectangular: rational(3),
  /** Half width over √6 */
  triangular: rational(6),
} as const

/** Standard uncertainty of a half width. */
export function standardOfHalfWidth(
  halfWidth: Rational,
  shape: 'rectangular' | 'triangular' = 'rectangular',
): Rational {
  return squareRoot(divide(squared(halfWidth), root[shape]))
}

/** Standard uncertainty of a display’s smallest step: half of it, rectangular. */
export function standardOfResolution(resolution: Rational): Rational {
  return standardOfHalfWidth(divide(resolution, rational(2)))
}

const guide = 'NIST TN 1297, Guidelines for Evaluating and Expressing Uncertainty, 1994'

export const combinedUncertainty = makeCalculator({
  name: 'combined-uncertainty',
  what: 'Combined and expanded uncertainty of a reading.',
  formula: 'uc = √(Σ u² + res²/12 + (Ucal/k)² + s²); U = k · uc',
  validity:
    'Independent parts, each in full. k is 2 (about 95 %) where not given; the calibration’s k is taken to be the same.',
  source: `${guide}, 4.6, 5 and 6.2; NIST/SEMATECH e-Handbook, 2.5.7`,
  inputs: {
    parts: {
      what: 'standard uncertainties',
      kind: 'any-difference',
      symbol: 'u',
      optional: true,
      list: true,
      sign: 'not-negative',
    },
    resolution: {
      what: 'smallest step of the display',
      kind: 'any-difference',
      symbol: 'res',
      optional: true,
      sign: 'not-negative',
    },
    calibration: {
      what: 'expanded uncertainty of the calibration',
      kind: 'any-difference',
      symbol: 'Ucal',
      optional: true,
      sign: 'not-negative',
    },
    repeatability: {
      what: 'standard deviation of repeats',
      kind: 'any-difference',
      symbol: 's',
      optional: true,
      sign: 'not-negative',
    },
    factor: { what: 'coverage factor', kind: 'number', symbol: 'k', optional: true },
  },
  work: ({ parts, resolution, calibration, repeatability, factor }) => {
    const k = factor ?? rational(2)
    const given = [...(parts ?? []), ...[resolution, calibration, repeatability].filter((each) => each !== null)]
    const [first] = given
    if (!first) return refuse('parts', 'Nothing is given.', 'Give parts, resolution, calibration or repeatability.')
    if (given.some(({ kind }) => kind !== first.kind))
      return refuse(null, 'The parts are of different kinds.', 'Give them in units of one kind.')
    const isSingle = given.length === 1 && parts !== null
    const standard = [
      ...(parts ?? []).map(({ value }) => value),
      ...(resolution === null ? [] : [standardOfResolution(resolution.value)]),
      ...(calibration === null ? [] : [divide(calibration.value, k)]),
      ...(repeatability === null ? [] : [repeatability.value]),
    ]
    const combined = isSingle ? first.value : rootSumOfSquares(standard)
    const shared = {
      kind: first.kind,
      units: [first.unit],
      digits: 3,
      rounding: 'up',
      ...(isSingle ? {} : { isRounded: true as const }),
    } as const
    return {
      ok: true,
      figures: [
        { name: 'combined', what: 'combined standard uncertainty', value: combined, ...shared },
        { name: 'expanded', what: 'expanded uncertainty', value: multiply(k, combined), ...shared },
      ],
    }
  },
})

export const halfWidthUncertainty = makeCalculator({
  name: 'half-width-uncertainty',
  what: 'Standard uncertainty of a figure known only by its limits.',
  formula: 'rectangular u = a / √3; triangular u = a / √6',
  validity: 'a is half the width between the limits.',
  source: 'EURACHEM/CITAC Guide, Quantifying Uncertainty in Analytical Measurement, appendix E.1',
  inputs: {
    'half-width': { what: 'half the width', kind: 'any-difference', symbol: 'a' },
    shape: { what: 'shape of the distribution', kind: 'word', choices: ['rectangular', 'triangular'], optional: true },
  },
  work: ({ 'half-width': halfWidth, shape }) => ({
    ok: true,
    figures: [
      {
        name: 'standard',
        what: 'standard uncertainty',
        kind: halfWidth.kind,
        units: [halfWidth.unit],
        value: standardOfHalfWidth(halfWidth.value, shape === 'triangular' ? 'triangular' : 'rectangular'),
        isRounded: true,
        digits: 3,
      },
    ],
  }),
})

/** Inches of a mark on an inch micrometer: numbered line, unnumbered line, thimble, vernier. */
const marks = [rational(100n, 1000n), rational(25n, 1000n), rational(1n, 1000n), rational(1n, 10_000n)] as const
const inch = rational(254n, 10_000n)

export function inchMicrometer(counts: readonly Rational[]): Rational {
  return counts.reduce((sum, count, index) => add(sum, multiply(count, marks[index] ?? zero)), zero)
}

export const micrometerReading = makeCalculator({
  name: 'micrometer-reading',
  what: 'Reading of an inch micrometer from its lines.',
  formula: 'numbered · .100 + unnumbered · .025 + thimble · .001 + vernier · .0001 in',
  validity:
    'Numbered lines 0 to 9, unnumbered 0 to 3, thimble 0 to 24, vernier 0 to 9; for a larger frame add its start.',
  source: 'NAVEDTRA 14001, micrometer reading example',
  inputs: {
    numbered: { what: 'numbered line last seen', kind: 'number', sign: 'not-negative' },
    unnumbered: { what: 'unnumbered lines past it', kind: 'number', sign: 'not-negative' },
    thimble: { what: 'line of the thimble', kind: 'number', sign: 'not-negative' },
    vernier: { what: 'line of the vernier that meets', kind: 'number', sign: 'not-negative', optional: true },
  },
  work: ({ numbered, unnumbered, thimble, vernier }) => {
    const most: readonly (readonly [name: string, count: Rational, most: bigint])[] = [
      ['numbered', numbered, 10n],
      ['unnumbered', unnumbered, 3n],
      ['thimble', thimble, 24n],
      ['vernier', vernier ?? zero, 9n],
    ]
    const wrong = most.find(([, count, limit]) => count.denominator !== 1n || count.numerator > limit)
    if (wrong)
      return refuse(wrong[0], `There is no such line: ${wrong[0]}.`, `Give a whole number from 0 to ${wrong[2]}.`)
    const value = multiply(inchMicrometer(most.map(([, count]) => count)), inch)
    const figures: Figure[] = [{ name: 'reading', what: 'reading', kind: 'length', units: ['in'], value }]
    return { ok: true, figures }
  },
})
