import type { Rational } from '../../quantities/quantity-types.ts'
import {
  absolute,
  add,
  compare,
  divide,
  fromDecimalText,
  multiply,
  rational,
  subtract,
  zero,
} from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import { refuse } from '../answer.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'
import { inch, readThreadSize } from './thread-size.ts'
import { lockingTorques, msfcTorques, nutTorqueRanges } from './tightening-tables.ts'

const msfc = 'MSFC-STD-486B, Threaded Fasteners, Torque Limits for, Nov 1992'

function poundInches(value: Rational): Rational {
  return multiply(value, unitBySymbol('lbf·in')?.factor ?? zero)
}

function torqueFigure(name: string, what: string, inPoundInches: number | string): Figure {
  return {
    name,
    what,
    kind: 'torque',
    units: ['N·m', 'lbf·in'],
    value: poundInches(fromDecimalText(String(inPoundInches)) ?? zero),
    digits: 3,
  }
}

/** The row of a table by thread size, whichever way the size is written; null where the table has none. */
function rowOf<Row>(table: Readonly<Record<string, Row>>, typed: string): Row | null {
  const wanted = readThreadSize(typed)
  if (!wanted.ok) return null
  const found = Object.entries(table).find(([name]) => {
    const known = readThreadSize(name)
    return (
      known.ok &&
      compare(known.size.diameter, wanted.size.diameter) === 0 &&
      compare(known.size.pitch, wanted.size.pitch) === 0
    )
  })
  return found?.[1] ?? null
}

function noRow(table: Readonly<Record<string, unknown>>, typed: string) {
  const wanted = readThreadSize(typed)
  if (!wanted.ok) return refuse('thread', wanted.message, wanted.advice)
  return refuse('thread', `The table has no row for ${typed}.`, `It has ${Object.keys(table).join(', ')}.`)
}

const threadInput = { thread: { what: 'thread size, such as 1/4-28', kind: 'size' } } as const

export const lockNutTorque = makeCalculator({
  name: 'lock-nut-torque',
  what: 'Largest locking and smallest breakaway torque of a self-locking nut.',
  formula: 'from a table by thread size',
  validity:
    'Self-locking nuts of the sizes in the table, run on without load. A nut below its breakaway torque is not used again.',
  source: `${msfc}, table XI; breakaway of further sizes TM 55-1520-240-23-1, p. 1-14; their locking torque from memory`,
  inputs: threadInput,
  work: ({ thread }) => {
    const row = rowOf(lockingTorques, thread)
    if (!row) return noRow(lockingTorques, thread)
    const [locking, breakaway] = row
    return {
      ok: true,
      figures: [
        torqueFigure('locking-max', 'largest locking torque', locking),
        torqueFigure('breakaway-min', 'smallest breakaway torque', breakaway),
      ],
    }
  },
})

export const nutTorqueRange = makeCalculator({
  name: 'nut-torque-range',
  what: 'Torque ranges of tension and shear nuts on clean, oil-free, cadmium-plated threads.',
  formula: 'from a table by thread size',
  validity: 'Cadmium-plated steel nuts of the fine or coarse series, where no torque of the maker is at hand.',
  source:
    'FAA AC 43.13-1B, 8 Sep 1998, table 7-1; TM 9-6150-228-13&P, table H-1 (3/8-16 as there, its lower end being lower)',
  inputs: threadInput,
  work: ({ thread }) => {
    const row = rowOf(nutTorqueRanges, thread)
    if (!row) return noRow(nutTorqueRanges, thread)
    const [tensionFrom, tensionTo, shearFrom, shearTo, tensionMost, shearMost] = row
    return {
      ok: true,
      figures: [
        torqueFigure('tension-from', 'tension nut from', tensionFrom),
        torqueFigure('tension-to', 'tension nut to', tensionTo),
        torqueFigure('shear-from', 'shear nut from', shearFrom),
        torqueFigure('shear-to', 'shear nut to', shearTo),
        torqueFigure('tension-max', 'most allowed in tension', tensionMost),
        torqueFigure('shear-max', 'most allowed in shear', shearMost),
      ],
    }
  },
})

/** Sizes within a thousandth of an inch are the same bolt. */
const thousandth = multiply(rational(1, 1000), inch)

export const boltTorqueTable = makeCalculator({
  name: 'bolt-torque-table',
  what: 'Table torque of SAE grade 2 and grade 5 steel bolts, dry and lubricated.',
  formula: 'from a table by diameter',
  validity: 'Tolerance +0 / −15 %. Sizes of the table only.',
  source: `${msfc}, appendix A, table I`,
  inputs: { size: { what: 'bolt diameter', kind: 'length', unit: 'in' } },
  work: ({ size }) => {
    const row = Object.entries(msfcTorques).find(([name]) => {
      const [above = '1', below = '1'] = name.split('/')
      const nominal = multiply(rational(BigInt(above), BigInt(below)), inch)
      return compare(absolute(subtract(nominal, size)), thousandth) <= 0
    })?.[1]
    if (!row)
      return refuse(
        'size',
        'The table has no row for that diameter.',
        `It has ${Object.keys(msfcTorques).join(', ')} in.`,
      )
    const [twoDry, twoLubricated, fiveDry, fiveLubricated] = row
    return {
      ok: true,
      figures: [
        torqueFigure('grade-two-dry', 'SAE 2, dry', twoDry),
        torqueFigure('grade-two-lubricated', 'SAE 2, lubricated', twoLubricated),
        torqueFigure('grade-five-dry', 'SAE 5, dry', fiveDry),
        torqueFigure('grade-five-lubricated', 'SAE 5, lubricated', fiveLubricated),
      ],
    }
  },
})

/** Parts of a table torque in percent: MSFC-STD-486B, table I notes 4 and 6, appendix A3.1 and A3.9. */
const share = { least: 85, shear: 60, slot: 110 } as const

/** `percent` of a torque. */
export function partOf(torque: Rational, percent: number): Rational {
  return multiply(torque, rational(percent, 100))
}

export const torqueAllowances = makeCalculator({
  name: 'torque-allowances',
  what: 'What may become of a table torque: tolerance, shear joints, running torque, lining up a cotter slot.',
  formula: 'T +0 / −15 %; shear: 0.6 · T; slot: up to 1.1 · T; applied: T + running torque',
  validity:
    'Table torques with a tolerance of +0 / −15 %. FAA AC 43.13-1B, 7-40, allows nothing above the table for a slot: change the washer instead.',
  source: `${msfc}, table I notes 4 and 6, A3.1, A3.8, A3.9`,
  inputs: {
    torque: { what: 'table torque', kind: 'torque', unit: 'lbf·in', symbol: 'T' },
    running: {
      what: 'measured running torque of the nut',
      kind: 'torque',
      unit: 'lbf·in',
      optional: true,
      sign: 'not-negative',
    },
  },
  work: ({ torque, running }) => {
    const shared = { kind: 'torque', units: ['N·m', 'lbf·in'], digits: 4 } as const
    const figures: Figure[] = [
      { name: 'torque-max', what: 'largest', value: torque, ...shared },
      { name: 'torque-min', what: 'smallest', value: partOf(torque, share.least), rounding: 'up', ...shared },
      {
        name: 'shear-max',
        what: 'largest in a shear joint',
        value: partOf(torque, share.shear),
        rounding: 'down',
        ...shared,
      },
      {
        name: 'slot-max',
        what: 'largest to line up a slot',
        value: partOf(torque, share.slot),
        rounding: 'down',
        ...shared,
      },
    ]
    if (running !== null)
      figures.push({
        name: 'applied',
        what: 'torque to apply over the running torque',
        value: add(torque, running),
        ...shared,
      })
    return { ok: true, figures }
  },
})

export const shearTorqueCheck = makeCalculator({
  name: 'shear-torque-check',
  what: 'Whether a printed shear torque keeps to 60 % of its tension torque.',
  formula: 'ratio = shear / tension; at most 0.6',
  validity: 'Torques of one row of a table.',
  source: `${msfc}, A3.1 and table I note 6`,
  inputs: {
    tension: { what: 'tension torque', kind: 'torque', unit: 'lbf·in' },
    shear: { what: 'shear torque', kind: 'torque', unit: 'lbf·in' },
  },
  work: ({ tension, shear }) => {
    const ratio = divide(shear, tension)
    const isWithin = compare(ratio, rational(share.shear, 100)) <= 0
    return {
      ok: true,
      figures: [
        { name: 'ratio', what: 'shear / tension', kind: 'number', value: ratio, digits: 3 },
        { name: 'within', what: 'within 60 %', word: isWithin ? 'yes' : 'no' },
      ],
    }
  },
})
