import { fractionText } from '../../quantities/number-text.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import {
  absolute,
  compare,
  divide,
  fromDecimalText,
  multiply,
  rational,
  roundNearest,
  subtract,
  zero,
} from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import { refuse } from '../answer.ts'
import { makeCalculator } from '../make-calculator.ts'

/** V-belts. A tension read on a gauge and a force that deflects the belt are two different limits, both in pounds. */

const inch = rational(254n, 10_000n)
const sixtyFourth = rational(1n, 64n)
const poundForce = unitBySymbol('lbf')?.factor ?? zero
const manual = 'TM 5-3895-374-24-2, belt adjustment, step B and force table'

/** 1/64 of the span. */
export function beltDeflection(span: Rational): Rational {
  return multiply(span, sixtyFourth)
}

export const beltDeflectionCalculator = makeCalculator({
  name: 'belt-deflection',
  what: 'Deflection of a V-belt at the middle of its span.',
  formula: '1/64 of the span',
  validity: 'V-belts, force square to the span at its middle.',
  source: `${manual}; TM 5-3820-233-12/1, table 4-3`,
  inputs: { span: { what: 'span between the points where the belt leaves the sheaves', kind: 'length', unit: 'in' } },
  work: ({ span }) => {
    const value = beltDeflection(span)
    const inches = fractionText(roundNearest(divide(value, inch), sixtyFourth)).replace('-', ' ')
    return {
      ok: true,
      figures: [
        { name: 'deflection', what: 'deflection', kind: 'length', units: ['mm', 'in'], value, digits: 4 },
        { name: 'deflection-fraction', what: 'deflection in inches, to the nearest 1/64', word: inches },
      ],
    }
  },
})

/** Deflection force in lbf at normal tension and at 150 %, as printed in quarters of a pound. */
const deflectionForces: Readonly<Record<string, readonly [normal: string, raised: string]>> = { B: ['2.75', '4'] }

export const beltDeflectionForce = makeCalculator({
  name: 'belt-deflection-force',
  what: 'Force that deflects a V-belt by 1/64 of its span.',
  formula: 'from a table by section',
  validity: 'Sections of the table. Makers give a force by belt, sheave and speed: theirs holds.',
  source: manual,
  inputs: { section: { what: 'section of the belt', kind: 'word', choices: Object.keys(deflectionForces) } },
  work: ({ section }) => {
    const [normal, raised] = (deflectionForces[section] ?? ['0', '0']).map((text) =>
      multiply(fromDecimalText(text) ?? zero, poundForce),
    )
    const shared = { kind: 'force', units: ['lbf'] } as const
    return {
      ok: true,
      figures: [
        { name: 'normal', what: 'force at normal tension', value: normal ?? zero, ...shared },
        { name: 'raised', what: 'force at 150 %, new belt', value: raised ?? zero, ...shared },
      ],
    }
  },
})

/** TM 5-3820-233-12/1, page 4-49: the drives of one crushing plant, deflection in inches and force per belt in lbf. */
const drivesOfPlant: Readonly<Record<string, readonly [deflection: string, least: number, most: number]>> = {
  'countershaft to head pulley': ['1.25', 14, 20],
  'countershaft to power unit': ['1.5', 14, 20],
  'power unit to jaw crusher': ['1', 8, 12],
  'crusher to feeder': ['1.25', 7, 10],
}

/** Deflections nearer than a sixty-fourth of an inch are the same figure. */
const readingStep = multiply(sixtyFourth, inch)

export const beltForceRange = makeCalculator({
  name: 'belt-force-range',
  what: 'Force per belt that must lie behind a stated deflection, for the drives of one plant.',
  formula: 'from a table by deflection, or by drive',
  validity:
    'The machine of the manual. Two of its drives have one deflection and different forces: there the drive must be named.',
  source: 'TM 5-3820-233-12/1, table 4-3 and figure 4-51',
  inputs: {
    deflection: { what: 'recommended deflection', kind: 'length', unit: 'in' },
    drive: { what: 'which drive', kind: 'word', choices: Object.keys(drivesOfPlant), optional: true },
  },
  work: ({ deflection, drive }) => {
    const isSame = (inches: string): boolean =>
      compare(absolute(subtract(multiply(fromDecimalText(inches) ?? zero, inch), deflection)), readingStep) < 0
    const rows = Object.entries(drivesOfPlant).filter(
      ([name, [inches]]) => (drive === null || name === drive) && isSame(inches),
    )
    const forces = new Set(rows.map(([, [, least, most]]) => `${least} to ${most}`))
    const [row] = rows
    if (!row) return refuse('deflection', 'The table has no such deflection.', 'It has 1, 1-1/4 and 1-1/2 in.')
    if (forces.size > 1)
      return refuse(
        'drive',
        'Two drives have this deflection and different forces.',
        `Name one: ${rows.map(([name]) => name).join(', ')}.`,
      )
    const [, [, least, most]] = row
    const shared = { kind: 'force', units: ['lbf'] } as const
    return {
      ok: true,
      figures: [
        { name: 'force-from', what: 'least force', value: multiply(rational(least), poundForce), ...shared },
        { name: 'force-to', what: 'largest force', value: multiply(rational(most), poundForce), ...shared },
      ],
    }
  },
})

/** Gauge tension in lbf, and deflection by thumb in inches. */
const gaugeTension = { used: rational(90), new: rational(110) } as const

export const beltTension = makeCalculator({
  name: 'belt-tension',
  what: 'Tension of an engine fan belt on a belt gauge, or its deflection.',
  formula: 'used belt 90 lbf, new belt 110 lbf, or 1/2 in',
  validity: 'Fan belts where the maker says nothing else. Gauge tension is not deflection force.',
  source: 'TM 5-3805-262-20, fan belt adjustment',
  inputs: { belt: { what: 'used or new belt', kind: 'word', choices: ['used', 'new'] } },
  work: ({ belt }) => ({
    ok: true,
    figures: [
      {
        name: 'tension',
        what: 'gauge tension',
        kind: 'force',
        units: ['lbf'],
        value: multiply(gaugeTension[belt === 'new' ? 'new' : 'used'], poundForce),
      },
      {
        name: 'deflection',
        what: 'deflection',
        kind: 'length',
        units: ['in'],
        value: multiply(rational(1n, 2n), inch),
      },
    ],
  }),
})
