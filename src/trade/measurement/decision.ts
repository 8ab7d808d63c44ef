import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, isZero, multiply, rational, subtract, zero } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'

/** Decision rules of conformity. Exact; a reading on a limit belongs to the better zone. */

export interface Zone {
  readonly lower: Rational | null
  readonly upper: Rational | null
}

export type Decision = 'pass' | 'conditional pass' | 'conditional fail' | 'fail'

/** The limits drawn in by the guard band; by a negative band they are let out. */
export function guarded({ lower, upper }: Zone, band: Rational): Zone {
  return { lower: lower === null ? null : add(lower, band), upper: upper === null ? null : subtract(upper, band) }
}

export function isIn(reading: Rational, { lower, upper }: Zone): boolean {
  return (lower === null || compare(reading, lower) >= 0) && (upper === null || compare(reading, upper) <= 0)
}

export function zoneExists({ lower, upper }: Zone): boolean {
  return lower === null || upper === null || compare(lower, upper) <= 0
}

/** Non-binary decision with a guard band as wide as the uncertainty: ILAC-G8:09/2019, 4.2.3. */
export function decide(reading: Rational, tolerance: Zone, band: Rational): Decision {
  if (isIn(reading, guarded(tolerance, band))) return 'pass'
  if (isIn(reading, tolerance)) return 'conditional pass'
  return isIn(reading, guarded(tolerance, subtract(zero, band))) ? 'conditional fail' : 'fail'
}

export const decisionRule = makeCalculator({
  name: 'decision-rule',
  what: 'Whether a reading proves that a limit is kept, with the uncertainty of the measurement.',
  formula:
    'acceptance limit = tolerance limit − U; pass, conditional pass, conditional fail, fail; U = 0 is simple acceptance',
  validity:
    'U is the expanded uncertainty (about 95 %). A reading on a limit belongs to the better zone. A guard band that leaves nothing to accept is said so.',
  source:
    'ILAC-G8:09/2019, Guidelines on Decision Rules and Statements of Conformity, 4.2.1 to 4.2.3; proof either way: ISO 14253-1 (from memory)',
  inputs: {
    lower: { what: 'lower tolerance limit', kind: 'any', optional: true, sign: 'any' },
    upper: { what: 'upper tolerance limit', kind: 'any', optional: true, sign: 'any' },
    uncertainty: {
      what: 'expanded uncertainty, none where not given',
      kind: 'any-difference',
      symbol: 'U',
      optional: true,
      sign: 'not-negative',
    },
    reading: { what: 'reading', kind: 'any', optional: true, sign: 'any' },
  },
  work: ({ lower, upper, uncertainty, reading }) => {
    const limit = upper ?? lower
    if (limit === null) return refuse('upper', 'No limit is given.', 'Give lower, upper or both.')
    const given = [lower, upper, reading].filter((each) => each !== null)
    const differenceKind = limit.kind === 'temperature' ? 'temperature-difference' : limit.kind
    if (given.some(({ kind }) => kind !== limit.kind) || (uncertainty !== null && uncertainty.kind !== differenceKind))
      return refuse(null, 'Limits, reading and uncertainty are of different kinds.', 'Give them in units of one kind.')
    const tolerance = { lower: lower?.value ?? null, upper: upper?.value ?? null }
    if (!zoneExists(tolerance)) return refuse('lower', 'The lower limit is above the upper one.', 'Swap them.')
    const band = uncertainty?.value ?? zero
    const acceptance = guarded(tolerance, band)
    const exists = zoneExists(acceptance)
    const figures: Figure[] = [
      { name: 'acceptance-exists', what: 'something can be accepted', word: exists ? 'yes' : 'no' },
    ]
    const shared = { kind: limit.kind, units: [limit.unit] } as const
    if (exists && acceptance.lower !== null)
      figures.push({ name: 'accept-from', what: 'accept from', value: acceptance.lower, ...shared })
    if (exists && acceptance.upper !== null)
      figures.push({ name: 'accept-to', what: 'accept up to', value: acceptance.upper, ...shared })
    if (reading !== null) {
      const decision = decide(reading.value, tolerance, band)
      figures.push(
        { name: 'decision', what: 'decision', word: decision },
        { name: 'within', what: 'within the limits as read', word: isIn(reading.value, tolerance) ? 'yes' : 'no' },
        { name: 'proves-conformity', what: 'proves that the limit is kept', word: decision === 'pass' ? 'yes' : 'no' },
        { name: 'proves-nonconformity', what: 'proves that it is not', word: decision === 'fail' ? 'yes' : 'no' },
      )
    }
    return {
      ok: true,
      figures,
      notes: exists
        ? []
        : ['The guard band is as wide as the tolerance: no reading can be accepted. Measure more exactly.'],
    }
  },
})

/** U = tolerance / ratio */
export function largestUncertainty(tolerance: Rational, ratio: Rational): Rational {
  return divide(tolerance, ratio)
}

export const accuracyRatio = makeCalculator({
  name: 'accuracy-ratio',
  what: 'Accuracy ratio of a tool and its standard, or the uncertainty that a ratio allows.',
  formula: 'ratio = tolerance / uncertainty; U = tolerance / ratio',
  validity: 'Tolerance as the half width (±). 10 : 1 for instruments at the bench, 4 : 1 at least for calibration.',
  source: 'NHB 5300.4(1B), ten-percent rule; test accuracy ratio as in ANSI/NCSL Z540.3 (4 : 1, from memory)',
  inputs: {
    tolerance: { what: 'half tolerance of the item, or accuracy of the tool', kind: 'any-difference' },
    uncertainty: {
      what: 'uncertainty of the instrument, or accuracy of the standard',
      kind: 'any-difference',
      optional: true,
    },
    ratio: { what: 'ratio wanted, 10 or 4', kind: 'number', optional: true },
  },
  work: ({ tolerance, uncertainty, ratio }) => {
    if ((uncertainty === null) === (ratio === null))
      return refuse(
        'ratio',
        'It is not clear what is wanted.',
        'Give uncertainty to get the ratio, or ratio to get the uncertainty.',
      )
    if (uncertainty !== null && uncertainty.kind !== tolerance.kind)
      return refuse(
        'uncertainty',
        'Tolerance and uncertainty are of different kinds.',
        'Give them in units of one kind.',
      )
    if (ratio !== null) {
      const value = largestUncertainty(tolerance.value, ratio)
      return {
        ok: true,
        figures: [
          {
            name: 'uncertainty-max',
            what: 'largest uncertainty',
            kind: tolerance.kind,
            units: [tolerance.unit],
            value,
            rounding: 'down',
          },
        ],
      }
    }
    const found = divide(tolerance.value, uncertainty?.value ?? tolerance.value)
    return {
      ok: true,
      figures: [
        { name: 'ratio', what: 'ratio', kind: 'number', value: found, digits: 4, rounding: 'down' },
        { name: 'four-to-one', what: 'at least 4 : 1', word: compare(found, rational(4)) >= 0 ? 'yes' : 'no' },
        { name: 'ten-to-one', what: 'at least 10 : 1', word: compare(found, rational(10)) >= 0 ? 'yes' : 'no' },
      ],
    }
  },
})

/** u / |x| */
export function relativeUncertainty(uncertainty: Rational, value: Rational): Rational {
  const part = divide(uncertainty, value)
  return part.numerator < 0n ? multiply(part, rational(-1)) : part
}

export const relativeUncertaintyCalculator = makeCalculator({
  name: 'relative-uncertainty',
  what: 'Uncertainty in percent of the value.',
  formula: 'u / |x|',
  validity: 'Values that are not 0, of a kind with a true zero (not a temperature in °C).',
  source: 'NIST TN 1297 (1994), D.1.4',
  inputs: {
    uncertainty: { what: 'uncertainty', kind: 'any-difference', symbol: 'u', sign: 'not-negative' },
    value: { what: 'value', kind: 'any', symbol: 'x', sign: 'any' },
  },
  work: ({ uncertainty, value }) => {
    if (uncertainty.kind !== value.kind)
      return refuse('value', 'Value and uncertainty are of different kinds.', 'Give them in units of one kind.')
    if (isZero(value.value)) return refuse('value', 'A part of 0 is nothing.', 'Give a value other than 0.')
    return {
      ok: true,
      figures: [
        {
          name: 'part',
          what: 'relative uncertainty',
          kind: 'ratio',
          units: ['%'],
          value: relativeUncertainty(uncertainty.value, value.value),
          digits: 3,
        },
      ],
    }
  },
})
