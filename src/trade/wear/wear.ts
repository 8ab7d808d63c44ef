import type { Rational } from '../../quantities/quantity-types.ts'
import { absolute, compare, larger, multiply, rational, smaller, subtract, zero } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'
import { isWithin, publishedLimits } from './published-limits.ts'

/** Fits, clearances and wear limits. Exact; lengths in one unit. */

const lengthUnits = ['mm', 'in'] as const

export function largestOf(values: readonly Rational[]): Rational {
  return values.reduce((so, each) => larger(so, each), values[0] ?? zero)
}

export function smallestOf(values: readonly Rational[]): Rational {
  return values.reduce((so, each) => smaller(so, each), values[0] ?? zero)
}

/** Smallest bore less largest shaft, and largest bore less smallest shaft; below 0 is an interference. */
export function clearances(
  bores: readonly Rational[],
  shafts: readonly Rational[],
): { readonly least: Rational; readonly most: Rational } {
  return {
    least: subtract(smallestOf(bores), largestOf(shafts)),
    most: subtract(largestOf(bores), smallestOf(shafts)),
  }
}

export const fitClearance = makeCalculator({
  name: 'fit-clearance',
  what: 'Clearance of a shaft in a bore, from limits or from readings, and whether it is within a limit.',
  formula: 'least = smallest bore − largest shaft; most = largest bore − smallest shaft',
  validity:
    'Negative clearance is interference. Parts that are graded and paired (selective fit) run closer than their extremes: a printed clearance within the extremes is no error.',
  source: 'Definition; ISO 286-1',
  inputs: {
    bore: { what: 'bore: a reading, several, or its two limits', kind: 'length', unit: 'mm', list: true },
    shaft: { what: 'shaft, journal or pin likewise', kind: 'length', unit: 'mm', list: true },
    least: { what: 'least clearance allowed', kind: 'length', unit: 'mm', optional: true, sign: 'any' },
    most: { what: 'largest clearance allowed', kind: 'length', unit: 'mm', optional: true, sign: 'any' },
    published: {
      what: 'a published limit by name, in place of least and most',
      kind: 'word',
      choices: Object.keys(publishedLimits),
      optional: true,
    },
  },
  work: ({ bore, shaft, least, most, published }) => {
    const found = clearances(bore, shaft)
    const figures: Figure[] = [
      { name: 'clearance-min', what: 'least clearance', kind: 'length', units: lengthUnits, value: found.least },
      { name: 'clearance-max', what: 'largest clearance', kind: 'length', units: lengthUnits, value: found.most },
    ]
    const named = published === null ? null : publishedLimits[published]
    if (named && (least !== null || most !== null))
      return refuse('published', 'Two limits are given.', 'Give published, or least and most.')
    const limit = named ?? { source: '', lower: least, upper: most }
    if (limit.lower !== null || limit.upper !== null)
      figures.push({
        name: 'within',
        what: 'within the limit',
        word: isWithin(found.least, limit) && isWithin(found.most, limit) ? 'yes' : 'no',
      })
    return { ok: true, figures, notes: named ? [`Limit: ${named.source}`] : [] }
  },
})

export type ClearanceState = 'below new minimum' | 'as new' | 'worn, usable' | 'replace'

/** Ends belong to the better state. */
export function clearanceState(
  reading: Rational,
  newLeast: Rational,
  newMost: Rational,
  wearLimit: Rational,
): ClearanceState {
  if (compare(reading, newLeast) < 0) return 'below new minimum'
  if (compare(reading, newMost) <= 0) return 'as new'
  return compare(reading, wearLimit) <= 0 ? 'worn, usable' : 'replace'
}

export const wearState = makeCalculator({
  name: 'wear-state',
  what: 'State of a clearance against its new limits and its wear limit.',
  formula: 'below new minimum · as new · worn, usable · replace; ends belong to the better state',
  validity: 'Sizes that grow with wear. The wear limit is not below the new limits.',
  source: 'Wear tables as in TM 9-2815-254-24 and TM 10-4320-307-24; names of the states are ours',
  inputs: {
    new: { what: 'the two limits when new', kind: 'length', unit: 'mm', list: true, sign: 'not-negative' },
    'wear-limit': { what: 'wear limit', kind: 'length', unit: 'mm' },
    reading: { what: 'reading', kind: 'length', unit: 'mm', sign: 'not-negative' },
  },
  work: ({ new: limits, 'wear-limit': wearLimit, reading }) => {
    const [low, high] = [smallestOf(limits), largestOf(limits)]
    if (compare(wearLimit, high) < 0)
      return refuse(
        'wear-limit',
        'The wear limit is within the new limits.',
        'Clearance grows with wear: look the limits up once more.',
      )
    return {
      ok: true,
      figures: [{ name: 'state', what: 'state', word: clearanceState(reading, low, high, wearLimit) }],
    }
  },
})

export const wearLimitSide = makeCalculator({
  name: 'wear-limit-side',
  what: 'Whether a wear limit stands on the side to which the part wears.',
  formula: 'shaft: limit below its new sizes; bore: limit above them',
  validity: 'Catches misprints; it does not say which figure is the wrong one.',
  source: 'Common sense of wear tables; TM 9-2815-254-24 prints one on the wrong side',
  inputs: {
    part: { what: 'what wears', kind: 'word', choices: ['shaft', 'bore'] },
    new: { what: 'the two limits when new', kind: 'length', unit: 'in', list: true },
    'wear-limit': { what: 'wear limit', kind: 'length', unit: 'in' },
  },
  work: ({ part, new: limits, 'wear-limit': wearLimit }) => {
    const isRight =
      part === 'shaft' ? compare(wearLimit, smallestOf(limits)) <= 0 : compare(wearLimit, largestOf(limits)) >= 0
    return { ok: true, figures: [{ name: 'right-side', what: 'on the right side', word: isRight ? 'yes' : 'no' }] }
  },
})

/** Largest less smallest. */
export function spreadOf(values: readonly Rational[]): Rational {
  return subtract(largestOf(values), smallestOf(values))
}

export const roundness = makeCalculator({
  name: 'out-of-round',
  what: 'Out-of-round and taper of a bore or journal from two planes.',
  formula:
    'out-of-round = largest − smallest in one plane, the worse plane; taper = difference of the largest diameters',
  validity: 'Two diameters or more in each plane.',
  source: 'Definitions of wear tables, as in TM 9-2815-260-24',
  inputs: {
    top: { what: 'diameters in the upper plane', kind: 'length', unit: 'in', list: true },
    bottom: { what: 'diameters in the lower plane', kind: 'length', unit: 'in', list: true },
  },
  work: ({ top, bottom }) => {
    if (top.length < 2 || bottom.length < 2)
      return refuse('top', 'One diameter tells nothing about roundness.', 'Give two or more in each plane.')
    const shared = { kind: 'length', units: lengthUnits } as const
    return {
      ok: true,
      figures: [
        { name: 'out-of-round', what: 'out-of-round', value: larger(spreadOf(top), spreadOf(bottom)), ...shared },
        { name: 'taper', what: 'taper', value: absolute(subtract(largestOf(top), largestOf(bottom))), ...shared },
      ],
    }
  },
})

export const shaftBend = makeCalculator({
  name: 'shaft-bend',
  what: 'Bend of a shaft from the swing of a dial indicator.',
  formula: 'bend = swing / 2',
  validity: 'Shaft turned once in two supports, dial square to it. Say whether a limit is on the swing or on the bend.',
  source: 'TM 10-3930-653-14&P, crankshaft bend (new 0.02 mm, in service 0.05 mm)',
  inputs: {
    swing: { what: 'full swing of the dial (TIR)', kind: 'length', unit: 'mm', symbol: 'TIR', sign: 'not-negative' },
  },
  work: ({ swing }) => {
    const value = multiply(swing, rational(1n, 2n))
    const verdict = (name: string) => {
      const limit = publishedLimits[name]
      return limit && isWithin(value, limit) ? 'yes' : 'no'
    }
    return {
      ok: true,
      figures: [
        { name: 'bend', what: 'bend', kind: 'length', units: lengthUnits, value },
        { name: 'within-new', what: 'within 0.02 mm (new)', word: verdict('crankshaft bend, new') },
        { name: 'within-service', what: 'within 0.05 mm (in service)', word: verdict('crankshaft bend, in service') },
      ],
    }
  },
})

export const limitCheck = makeCalculator({
  name: 'published-limit',
  what: 'Whether a reading is within a published limit.',
  formula: 'lower ≤ reading ≤ upper',
  validity: 'The machine that the limit was published for.',
  source: 'named with each limit',
  inputs: {
    published: { what: 'limit by name', kind: 'word', choices: Object.keys(publishedLimits) },
    reading: { what: 'reading', kind: 'length', unit: 'mm', sign: 'not-negative' },
  },
  work: ({ published, reading }) => {
    const limit = publishedLimits[published]
    if (!limit) return refuse('published', `"${published}" is not known.`, 'Choose one of the list.')
    return {
      ok: true,
      figures: [{ name: 'within', what: 'within the limit', word: isWithin(reading, limit) ? 'yes' : 'no' }],
      notes: [limit.source],
    }
  },
})

export const sideDifference = makeCalculator({
  name: 'side-difference',
  what: 'Difference between two sides that should be alike.',
  formula: '|left − right|, and in percent of the smaller one',
  validity: 'Readings of one kind taken the same way.',
  source: 'Common practice, no published source',
  inputs: {
    left: { what: 'reading of one side', kind: 'any' },
    right: { what: 'reading of the other side', kind: 'any' },
    limit: { what: 'largest difference', kind: 'any-difference', optional: true, sign: 'not-negative' },
  },
  work: ({ left, right, limit }) => {
    if (left.kind !== right.kind || (limit !== null && left.kind !== limit.kind && left.kind !== 'temperature'))
      return refuse(
        'right',
        'The readings are of different kinds.',
        'Give both sides and the limit in units of one kind.',
      )
    const difference = absolute(subtract(left.value, right.value))
    const isTemperature = left.kind === 'temperature'
    const unit = isTemperature ? (left.unit === '°F' ? 'Δ°F' : 'Δ°C') : left.unit
    const figures: Figure[] = [
      {
        name: 'difference',
        what: 'difference',
        kind: isTemperature ? 'temperature-difference' : left.kind,
        units: [unit],
        value: difference,
      },
    ]
    if (!isTemperature) {
      const base = smaller(left.value, right.value)
      figures.push({
        name: 'part',
        what: 'of the smaller one',
        kind: 'ratio',
        units: ['%'],
        value: multiply(difference, { numerator: base.denominator, denominator: base.numerator }),
        digits: 3,
      })
    }
    if (limit !== null)
      figures.push({
        name: 'within',
        what: 'within the limit',
        word: compare(difference, limit.value) <= 0 ? 'yes' : 'no',
      })
    return { ok: true, figures }
  },
})
