import type { Rational } from '../../quantities/quantity-types.ts'
import {
  absolute,
  add,
  compare,
  divide,
  multiply,
  one,
  rational,
  smaller,
  subtract,
} from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'

/** Roller and leaf chain. Lengths in one unit; exact but where a line says otherwise. */

const usualLimit = rational(3n, 100n)
const lengthUnits = ['mm', 'in'] as const
const makersGuide = 'Roller chain maintenance guide of a chain maker, wear limits'

/** (measured − pitches · p) / (pitches · p) */
export function chainElongation(measured: Rational, pitch: Rational, pitches: Rational): Rational {
  return subtract(divide(measured, multiply(pitch, pitches)), one)
}

export const chainElongationCalculator = makeCalculator({
  name: 'chain-elongation',
  what: 'Wear of a chain measured over a number of pitches, and the length at which it is replaced.',
  formula: 'e = (L − N · p) / (N · p); limit length = N · p · (1 + limit); from inside and outside L = (L₁ + L₂) / 2',
  validity:
    'Chain under measuring load. N pitches span N + 1 pins. The limit is 3 % where none is given; 1.5 % on fixed centres. Leaf chain is replaced in pairs.',
  source: `${makersGuide}; TM 10-3930-671-24, lift chain inspection (3 % of leaf chain)`,
  inputs: {
    pitch: { what: 'pitch of the chain', kind: 'length', unit: 'in', symbol: 'p' },
    pitches: { what: 'number of pitches measured', kind: 'number', symbol: 'N', optional: true },
    pins: { what: 'number of pins from the first to the last, in place of pitches', kind: 'number', optional: true },
    measured: { what: 'measured length', kind: 'length', unit: 'in', symbol: 'L', optional: true },
    inside: {
      what: 'length between the rollers, in place of the measured length',
      kind: 'length',
      unit: 'mm',
      symbol: 'L₁',
      optional: true,
    },
    outside: {
      what: 'length over the rollers, with the one between them',
      kind: 'length',
      unit: 'mm',
      symbol: 'L₂',
      optional: true,
    },
    limit: { what: 'largest elongation, 3 % where not given', kind: 'ratio', unit: '%', optional: true },
  },
  work: ({ pitch, pitches, pins, measured, inside, outside, limit }) => {
    const count = pitches ?? (pins === null ? null : subtract(pins, one))
    if (count === null || (pitches !== null && pins !== null) || count.denominator !== 1n || compare(count, one) < 0)
      return refuse(
        'pitches',
        'The number of pitches is not clear.',
        'Give pitches as a whole number, or pins (one more than pitches), and not both.',
      )
    if ((inside === null) !== (outside === null))
      return refuse('outside', 'One of two lengths is missing.', 'Give inside and outside.')
    const length = measured ?? (inside !== null && outside !== null ? divide(add(inside, outside), rational(2)) : null)
    const nominal = multiply(pitch, count)
    const most = limit ?? usualLimit
    const limitLength = multiply(nominal, add(one, most))
    const figures: Figure[] = [
      { name: 'nominal', what: 'length when new', kind: 'length', units: lengthUnits, value: nominal },
      {
        name: 'limit-length',
        what: 'length at the limit',
        kind: 'length',
        units: lengthUnits,
        value: limitLength,
        rounding: 'down',
      },
    ]
    if (length === null) return { ok: true, figures }
    const elongation = chainElongation(length, pitch, count)
    figures.push(
      { name: 'length', what: 'length as measured', kind: 'length', units: lengthUnits, value: length },
      { name: 'elongation', what: 'elongation', kind: 'ratio', units: ['%'], value: elongation, digits: 3 },
      { name: 'replace', what: 'replace', word: compare(elongation, most) > 0 ? 'yes' : 'no' },
    )
    return { ok: true, figures }
  },
})

/** Elongation of a length by a part of it. */
export const chainAllowance = makeCalculator({
  name: 'chain-allowance',
  what: 'How much longer a length of chain may get.',
  formula: 'allowance = length · limit',
  validity: 'Not rounded up: an allowance rounded up lets a worn chain pass.',
  source: makersGuide,
  inputs: {
    length: { what: 'length when new', kind: 'length', unit: 'in' },
    limit: { what: 'largest elongation', kind: 'ratio', unit: '%' },
  },
  work: ({ length, limit }) => ({
    ok: true,
    figures: [
      {
        name: 'allowance',
        what: 'allowance',
        kind: 'length',
        units: lengthUnits,
        value: multiply(length, limit),
        rounding: 'down',
      },
    ],
  }),
})

/** Worn lengths over 12 pitches as printed, in eighths of an inch: TM 10-3930-671-24, chain wear table, leaf chain BL800 series. */
const leafChainTable = [
  { pitch: rational(254n, 10_000n), pitches: rational(12), worn: multiply(rational(99n, 8n), rational(254n, 10_000n)) },
] as const

/** Pitches within a thousandth of an inch are the same chain. */
const sameSize = rational(254n, 10_000_000n)

export const leafChainTableCalculator = makeCalculator({
  name: 'leaf-chain-table',
  what: 'Worn length of leaf chain as a table prints it, beside 3 %.',
  formula: 'from a table by pitch; 3 %: N · p · 1.03',
  validity:
    'Leaf chain of the table. The table is rounded up to eighths: 3 % is the stricter of the two and the one to use.',
  source: 'TM 10-3930-671-24, lift chain inspection, chain wear table',
  inputs: {
    pitch: { what: 'pitch of the chain', kind: 'length', unit: 'in', symbol: 'p' },
    pitches: { what: 'number of pitches', kind: 'number', symbol: 'N' },
  },
  work: ({ pitch, pitches }) => {
    const row = leafChainTable.find(
      (each) => compare(absolute(subtract(each.pitch, pitch)), sameSize) <= 0 && compare(each.pitches, pitches) === 0,
    )
    if (!row)
      return refuse('pitch', 'The table has no row for that pitch and count.', 'Use chain-elongation with its 3 %.')
    const nominal = multiply(pitch, pitches)
    return {
      ok: true,
      figures: [
        { name: 'nominal', what: 'length when new', kind: 'length', units: lengthUnits, value: nominal },
        {
          name: 'limit-length',
          what: 'length at 3 %',
          kind: 'length',
          units: lengthUnits,
          value: multiply(nominal, add(one, usualLimit)),
        },
        { name: 'table-limit', what: 'worn length of the table', kind: 'length', units: lengthUnits, value: row.worn },
        {
          name: 'table-elongation',
          what: 'elongation at it',
          kind: 'ratio',
          units: ['%'],
          value: chainElongation(row.worn, pitch, pitches),
        },
      ],
    }
  },
})

/** The smaller of 3 % and 200/z %; 1.5 % where nothing takes up slack. */
export function chainWearLimit(teeth: Rational | null, canTakeUp: boolean): Rational {
  const byTeeth = teeth === null ? usualLimit : smaller(usualLimit, divide(rational(2), teeth))
  return canTakeUp ? byTeeth : smaller(byTeeth, rational(15n, 1000n))
}

export const chainWearLimitCalculator = makeCalculator({
  name: 'chain-wear-limit',
  what: 'Largest elongation of a roller chain.',
  formula: '3 %, or 200/z % where that is less (from 67 teeth); 1.5 % on fixed centres without take-up',
  validity: 'z is the larger sprocket. The drive maker’s limit holds where it is stricter.',
  source: makersGuide,
  inputs: {
    teeth: { what: 'teeth of the larger sprocket', kind: 'number', symbol: 'z', optional: true },
    'take-up': { what: 'whether slack can be taken up', kind: 'word', choices: ['yes', 'no'], optional: true },
  },
  work: ({ teeth, 'take-up': takeUp }) => {
    if (teeth === null && takeUp === null)
      return refuse('teeth', 'Nothing is given.', 'Give teeth of the larger sprocket, or take-up no.')
    if (teeth !== null && teeth.denominator !== 1n)
      return refuse('teeth', 'Teeth come in whole numbers.', 'Count them once more.')
    return {
      ok: true,
      figures: [
        {
          name: 'limit',
          what: 'largest elongation',
          kind: 'ratio',
          units: ['%'],
          value: chainWearLimit(teeth, takeUp !== 'no'),
          digits: 3,
          rounding: 'down',
        },
      ],
    }
  },
})
