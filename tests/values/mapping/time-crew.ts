import type { Rational } from '../../../src/quantities/quantity-types.ts'
import { zero } from '../../../src/quantities/rational.ts'
import { squared } from '../../../src/trade/binary.ts'
import { crewTotals } from '../../../src/trade/schedule/crew.ts'
import {
  chanceToFinish,
  deviationOf,
  type Estimate,
  expectedForChance,
  sumOfEstimates,
  threePointEstimate,
} from '../../../src/trade/schedule/estimates.ts'
import {
  type Activity,
  activitiesOfArrows,
  type CriticalPath,
  circleOf,
  criticalPath,
} from '../../../src/trade/schedule/network.ts'
import { exactOf } from '../compare.ts'
import type { CaseMapping, Outcome } from '../mapping.ts'
import { figure, figureAs, type Inputs, itemOf, numbersOf, perItem, solved } from './reading.ts'

type Table = Readonly<Record<string, unknown>>

const tableOf = (inputs: Inputs, name: string): Table => (inputs.get(name)?.value ?? {}) as Table

function estimateOf(triple: unknown): Estimate {
  const [shortest, likeliest = shortest, longest = likeliest] = (Array.isArray(triple) ? triple : [triple]).map(exactOf)
  if (!shortest || !likeliest || !longest) throw new Error('no time')
  return solved(threePointEstimate({ shortest, likeliest, longest }))
}

/** By name, or in a list by place. */
function estimatesOf(inputs: Inputs): ReadonlyMap<string, Estimate> {
  return new Map(Object.entries(tableOf(inputs, 'triples')).map(([name, triple]) => [name, estimateOf(triple)]))
}

/** In a row. */
const inRow = (inputs: Inputs) => sumOfEstimates([...estimatesOf(inputs).values()])

/** From durations and what each comes after; from arrows where nothing tells that. */
function networkOf(inputs: Inputs, durations: ReadonlyMap<string, Rational>): readonly Activity[] {
  const listed = [...durations].map(([name, duration]) => ({ name, duration }))
  if (!inputs.has('preds')) return solved(activitiesOfArrows(listed))
  const before = tableOf(inputs, 'preds')
  return listed.map(({ name, duration }) => ({ name, duration, after: namesIn(before[name]) }))
}

const namesIn = (names: unknown) => (Array.isArray(names) ? names : []).map((name) => ({ name: String(name) }))

const durationsOf = (inputs: Inputs) =>
  new Map(Object.entries(tableOf(inputs, 'durations')).map(([name, duration]) => [name, exactOf(duration)]))

const letters = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ']
const timesOfOne = letters.flatMap((name) => [`${name}_ES`, `${name}_EF`, `${name}_LS`, `${name}_LF`, `slack_${name}`])
const pathNames = ['length', 'critical', 'slack', 'ES', 'EF', 'LS', 'LF', ...timesOfOne]

function pathOutcomes(path: CriticalPath, unit: (value: Rational) => Outcome): Readonly<Record<string, Outcome>> {
  const all = path.times.map(({ name, earlyStart, earlyFinish, lateStart, lateFinish, slack }) => ({
    name,
    ES: unit(earlyStart),
    EF: unit(earlyFinish),
    LS: unit(lateStart),
    LF: unit(lateFinish),
    slack: unit(slack),
  }))
  const column = (key: 'ES' | 'EF' | 'LS' | 'LF' | 'slack') =>
    Object.fromEntries(all.map((each) => [each.name, each[key]]))
  const single = all.flatMap(({ name, slack, ...times }) => [
    [`slack_${name}`, slack] as const,
    ...Object.entries(times).map(([key, value]) => [`${name}_${key}`, value] as const),
  ])
  return {
    length: unit(path.length),
    critical: path.critical,
    slack: column('slack'),
    ES: column('ES'),
    EF: column('EF'),
    LS: column('LS'),
    LF: column('LF'),
    ...Object.fromEntries(single),
  }
}

export const timeCrew: readonly CaseMapping[] = [
  {
    inputs: ['o', 'm', 'p'],
    expected: ['te', 'variance', 'sd'],
    work: (inputs) => {
      const item = itemOf(inputs)
      const { expected, variance } = solved(
        threePointEstimate({ shortest: item.number('o'), likeliest: item.number('m'), longest: item.number('p') }),
      )
      return {
        te: figureAs(inputs, 'm', expected),
        variance: figure(variance, ''),
        sd: figureAs(inputs, 'm', deviationOf(variance)),
      }
    },
  },
  {
    inputs: ['mean', 'variance', 'sd', 'target'],
    expected: ['z', 'P'],
    work: (inputs) => {
      const chance = perItem(inputs, (item) => {
        const variance = item.has('variance') ? item.number('variance') : squared(item.number('sd'))
        const { z, chance: share } = solved(chanceToFinish(item.number('mean'), variance, item.number('target')))
        return { z: z && figure(z, ''), P: figure(share, '') }
      })
      return chance as Readonly<Record<string, Outcome>>
    },
  },
  {
    inputs: ['target', 'sd', 'z'],
    expected: ['length'],
    work: (inputs) => ({
      length: perItem(inputs, (item) =>
        figureAs(
          inputs,
          'target',
          solved(expectedForChance(item.number('target'), item.number('sd'), item.number('z'))),
        ),
      ),
    }),
  },
  {
    inputs: ['triples'],
    expected: ['te', 'variance', 'sd'],
    work: (inputs, expected) => {
      const isTable = typeof expected.get('te')?.value === 'object'
      const all = [...estimatesOf(inputs)]
      const { expected: sum, variance } = inRow(inputs)
      return {
        te: isTable
          ? Object.fromEntries(all.map(([name, each]) => [name, figureAs(inputs, 'triples', each.expected)]))
          : figureAs(inputs, 'triples', sum),
        variance: figure(variance, ''),
        sd: figureAs(inputs, 'triples', deviationOf(variance)),
      }
    },
  },
  {
    inputs: ['triples', 'target'],
    expected: ['length', 'sd', 'variance', 'z', 'P'],
    work: (inputs) => {
      const { expected, variance } = inRow(inputs)
      const { z, chance } = solved(chanceToFinish(expected, variance, itemOf(inputs).number('target')))
      return {
        length: figureAs(inputs, 'triples', expected),
        sd: figureAs(inputs, 'triples', deviationOf(variance)),
        variance: figure(variance, ''),
        z: z && figure(z, ''),
        P: figure(chance, ''),
      }
    },
  },
  {
    inputs: ['triples', 'preds'],
    expected: pathNames,
    work: (inputs) => {
      const durations = new Map([...estimatesOf(inputs)].map(([name, { expected }]) => [name, expected]))
      return pathOutcomes(solved(criticalPath(networkOf(inputs, durations))), (value) =>
        figureAs(inputs, 'triples', value),
      )
    },
  },
  {
    inputs: ['durations', 'preds'],
    expected: pathNames,
    work: (inputs) =>
      pathOutcomes(solved(criticalPath(networkOf(inputs, durationsOf(inputs)))), (value) =>
        figureAs(inputs, 'durations', value),
      ),
  },
  {
    inputs: ['preds'],
    expected: ['valid', 'cycle'],
    work: (inputs) => {
      const circle = circleOf(
        Object.entries(tableOf(inputs, 'preds')).map(([name, before]) => ({ name, after: namesIn(before) })),
      )
      return { valid: circle === null, cycle: circle ?? [] }
    },
  },
  {
    // Whole ways side by side: each is one activity.
    inputs: ['paths'],
    expected: ['length'],
    work: (inputs) => {
      const paths = numbersOf(inputs, 'paths').map((duration, index) => ({ name: `${index}`, duration, after: [] }))
      return { length: figureAs(inputs, 'paths', solved(criticalPath(paths)).length) }
    },
  },
  {
    inputs: ['hours', 'people'],
    expected: ['clock', 'person_hours', 'peak_crew'],
    work: (inputs) => {
      const people = inputs.get('people')?.value
      const steps = numbersOf(inputs, 'hours').map((time, index) => ({
        time: time ?? zero,
        people: Number(Array.isArray(people) ? people[index] : people),
      }))
      const totals = solved(crewTotals(steps))
      return {
        clock: figureAs(inputs, 'hours', totals.clock),
        person_hours: figureAs(inputs, 'hours', totals.personHours),
        peak_crew: totals.mostPeople,
      }
    },
  },
]
