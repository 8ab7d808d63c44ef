import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, multiply, rational, zero } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'
import { accuracyByMethod, scatterOf } from './tightening-tables.ts'
import { effectiveTorque, scatterOfTests, standardDeviation } from './torque.ts'

/** What is known of a preload: tests, tables, running torque. */

const nasa = 'NASA-STD-5020B, Requirements for Threaded Fastening Systems in Spaceflight Hardware, 6 Aug 2021'
const handbook = 'MIL-HDBK-60, Threaded Fasteners – Tightening to Proper Tension, 12 Mar 1990'
const forceUnits = ['N', 'lbf'] as const
const percent = (value: number): Rational => rational(value, 100)

export const nutFactorTest = makeCalculator({
  name: 'nut-factor-test',
  what: 'Nut factor and scatter from torque-tension tests.',
  formula: 'F = mean of the preloads; K = T / (D · F); Γmax = largest / F − 1; Γmin = 1 − smallest / F; Γs = s · σ / F',
  validity:
    'At least two tests with the same torque, fasteners, finish and lubricant. σ is the sample standard deviation.',
  source: `${nasa}, appendix A.2, table 6 (equation 33 there is printed with = for a minus sign)`,
  inputs: {
    preloads: { what: 'measured preloads', kind: 'force', unit: 'N', list: true },
    torque: { what: 'torque of the tests', kind: 'torque', unit: 'N·m', symbol: 'T', optional: true },
    diameter: { what: 'nominal diameter', kind: 'length', unit: 'mm', symbol: 'D', optional: true },
    deviations: { what: 'standard deviations to count with', kind: 'number', symbol: 's', optional: true },
  },
  work: (given) => {
    const { preloads, torque, diameter, deviations } = given
    if (preloads.length < 2)
      return refuse('preloads', 'One test tells nothing about scatter.', 'Give two preloads or more.')
    const { nominal, above, below } = scatterOfTests(preloads)
    const sigma = standardDeviation(preloads)
    const figures: Figure[] = [
      { name: 'nominal-preload', what: 'nominal preload', kind: 'force', units: forceUnits, value: nominal, digits: 4 },
      { name: 'scatter-above', what: 'Γmax', kind: 'number', value: above, digits: 3 },
      { name: 'scatter-below', what: 'Γmin', kind: 'number', value: below, digits: 3 },
      {
        name: 'standard-deviation',
        what: 'standard deviation',
        kind: 'force',
        units: forceUnits,
        value: sigma,
        isRounded: true,
        digits: 4,
      },
    ]
    if (torque !== null && diameter !== null)
      figures.push({
        name: 'nut-factor',
        what: 'K',
        kind: 'number',
        value: divide(torque, multiply(diameter, nominal)),
        digits: 3,
      })
    if (deviations !== null) {
      const value = divide(multiply(deviations, sigma), nominal)
      figures.push({ name: 'scatter', what: 'Γs', kind: 'number', value, isRounded: true, digits: 3 })
    }
    return { ok: true, figures }
  },
})

export const preloadScatter = makeCalculator({
  name: 'preload-scatter',
  what: 'How far a preload may be off by the way it is made.',
  formula: 'from a table by method; for a torque wrench 25 % lubricated and 35 % dry or not known',
  validity:
    'Without tests of the fasteners at hand. Where a source gives a range, the wider end is the scatter and the other is named.',
  source: `${handbook}, table I; ${nasa}, appendix A.2 (4.3.3)`,
  inputs: {
    method: { what: 'way of tightening', kind: 'word', choices: Object.keys(accuracyByMethod), optional: true },
    threads: {
      what: 'for a torque wrench: whether the threads are lubricated',
      kind: 'word',
      choices: ['lubricated', 'dry'],
      optional: true,
    },
  },
  work: ({ method, threads }) => {
    if (method === null && threads === null)
      return refuse(
        'method',
        'Neither method nor threads is given.',
        `Give method (${Object.keys(accuracyByMethod).join(', ')}), or threads.`,
      )
    const [best, worst] = accuracyByMethod[method ?? 'torque wrench'] ?? [0, 0]
    return {
      ok: true,
      figures: [
        { name: 'scatter', what: 'scatter', kind: 'number', value: percent(scatterOf(method, threads)) },
        {
          name: 'accuracy',
          what: 'accuracy of the table, the wider end',
          kind: 'ratio',
          units: ['%'],
          value: percent(worst),
        },
        {
          name: 'accuracy-at-best',
          what: 'accuracy of the table at best',
          kind: 'ratio',
          units: ['%'],
          value: percent(best),
        },
      ],
    }
  },
})

export const effectiveTorqueLimits = makeCalculator({
  name: 'effective-torque',
  what: 'Largest and smallest torque that make preload, once the running torque of a self-locking nut is seen to.',
  formula: 'above running torque: T ± t; as a total: largest = T + t − Tbr,min; smallest = T − t − TL,max',
  validity: 'Say whether the torque is counted above the running torque. A smallest torque of 0 or less is refused.',
  source: `${nasa}, appendix A.2, equations 27 to 30`,
  inputs: {
    torque: { what: 'torque as specified', kind: 'torque', unit: 'N·m', symbol: 'T' },
    tolerance: { what: 'its tolerance, each way', kind: 'torque', unit: 'N·m', symbol: 't', sign: 'not-negative' },
    counted: {
      what: 'how the torque is counted',
      kind: 'word',
      choices: ['above running torque', 'total'],
      optional: true,
    },
    'breakaway-min': {
      what: 'smallest breakaway torque of the nut',
      kind: 'torque',
      unit: 'N·m',
      symbol: 'Tbr,min',
      optional: true,
      sign: 'not-negative',
    },
    'locking-max': {
      what: 'largest locking torque of the nut',
      kind: 'torque',
      unit: 'N·m',
      symbol: 'TL,max',
      optional: true,
      sign: 'not-negative',
    },
  },
  work: (given) => {
    const breakaway = given['breakaway-min']
    const locking = given['locking-max']
    const isAbove = given.counted === 'above running torque'
    if (!isAbove && (breakaway === null || locking === null))
      return refuse(
        'locking-max',
        'The running torque is not known.',
        'Give breakaway-min and locking-max, or say: counted above running torque.',
      )
    const running =
      isAbove || breakaway === null || locking === null
        ? null
        : { smallestBreakaway: breakaway, largestLocking: locking }
    const { largest, smallest } = effectiveTorque(given.torque, given.tolerance, running)
    if (compare(smallest, zero) <= 0)
      return refuse(
        'torque',
        'Nothing of the smallest torque is left for preload.',
        'Specify more torque, or count it above the running torque.',
      )
    const shared = { kind: 'torque', units: ['N·m', 'lbf·in'] } as const
    return {
      ok: true,
      figures: [
        { name: 'torque-max', what: 'largest effective torque', value: largest, ...shared },
        { name: 'torque-min', what: 'smallest effective torque', value: smallest, ...shared },
      ],
    }
  },
})
