import { toBase } from '../../quantities/convert.ts'
import { parseQuantity } from '../../quantities/parse-quantity.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import { divide, rational } from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import { squared } from '../binary.ts'
import type { Calculator } from '../calculator.ts'
import { scheduleCaution } from '../cautions.ts'
import { makeCalculator } from '../make-calculator.ts'
import { sensibleDecimal } from '../sensible-decimal.ts'
import { type CrewedActivity, crewSchedule, crewTotals } from './crew.ts'
import { chanceToFinish, deviationOf, type Estimate, sumOfEstimates, threePointEstimate } from './estimates.ts'
import { criticalPath } from './network.ts'

/** Calculators of time and crew. */

const hours = ['h'] as const
const pert = 'PERT rule as in textbooks of project management'

const threePoint = makeCalculator({
  name: 'three-point-estimate',
  what: 'Expected time and spread of a step or of steps in a row, and the chance to finish by a time.',
  formula: 'te = (o + 4 m + p)/6; σ² = Σ ((p − o)/6)²; z = (target − Σ te)/σ; P = Φ(z)',
  validity:
    'o ≤ m ≤ p for each step, steps one after another and not dependent on one another. With other ways nearly as long the chance is smaller.',
  source: pert,
  inputs: {
    shortest: {
      what: 'shortest time of each step',
      kind: 'time',
      unit: 'h',
      symbol: 'o',
      list: true,
      sign: 'not-negative',
    },
    likeliest: {
      what: 'likeliest time of each',
      kind: 'time',
      unit: 'h',
      symbol: 'm',
      list: true,
      sign: 'not-negative',
    },
    longest: { what: 'longest time of each', kind: 'time', unit: 'h', symbol: 'p', list: true, sign: 'not-negative' },
    target: { what: 'time to finish by', kind: 'time', unit: 'h', optional: true },
  },
  work: ({ shortest, likeliest, longest, target }) => {
    if (shortest.length !== likeliest.length || shortest.length !== longest.length)
      return refuse('longest', 'The three lists are not of one length.', 'Type three times for each step.')
    const estimates: Estimate[] = []
    for (const [index, o] of shortest.entries()) {
      const [m, p] = [likeliest[index], longest[index]]
      if (!m || !p) continue
      const estimate = threePointEstimate({ shortest: o, likeliest: m, longest: p })
      if (!estimate.ok) return estimate
      estimates.push(estimate.value)
    }
    const { expected, variance } = sumOfEstimates(estimates)
    const chance = target === null ? null : chanceToFinish(expected, variance, target)
    if (chance && !chance.ok) return chance
    return {
      ok: true,
      figures: [
        { name: 'expected', what: 'Expected time', kind: 'time', units: hours, value: expected },
        {
          name: 'deviation',
          what: 'Standard deviation',
          kind: 'time',
          units: hours,
          value: deviationOf(variance),
          isRounded: true,
        },
        ...(chance?.value.z
          ? ([{ name: 'z', what: 'z', kind: 'number', value: chance.value.z, isRounded: true, digits: 3 }] as const)
          : []),
        ...(chance
          ? ([
              {
                name: 'chance',
                what: 'Chance to finish by then',
                kind: 'ratio',
                units: ['%'],
                value: chance.value.chance,
                isRounded: true,
                digits: 4,
              },
            ] as const)
          : []),
      ],
      notes: [scheduleCaution],
    }
  },
})

const finishChance = makeCalculator({
  name: 'finish-chance',
  what: 'Chance to finish by a time, from expected time and standard deviation.',
  formula: 'z = (target − te)/σ; P = Φ(z)',
  validity: 'One way that is clearly the longest; normally distributed.',
  source: pert,
  inputs: {
    expected: { what: 'expected time', kind: 'time', unit: 'h', symbol: 'te' },
    deviation: { what: 'standard deviation', kind: 'time', unit: 'h', symbol: 'σ', sign: 'not-negative' },
    target: { what: 'time to finish by', kind: 'time', unit: 'h' },
  },
  work: ({ expected, deviation, target }) => {
    const chance = chanceToFinish(expected, squared(deviation), target)
    if (!chance.ok) return chance
    return {
      ok: true,
      figures: [
        {
          name: 'chance',
          what: 'Chance to finish by then',
          kind: 'ratio',
          units: ['%'],
          value: chance.value.chance,
          isRounded: true,
          digits: 4,
        },
      ],
      notes: [scheduleCaution],
    }
  },
})

const jobSchedule = makeCalculator({
  name: 'job-schedule',
  what: 'Length of a job of steps that wait for one another, its critical steps, and what a crew of a size makes of it.',
  formula:
    'early start = latest finish of what comes before + wait; slack = late start − early start; least slack first within the crew',
  validity:
    'No circle. `after` has one entry a step: `-` for none, names with `+` between them, a wait behind `:` (`paint: 4 h`).',
  source: 'Critical path method, J. E. Kelley and M. R. Walker, 1959, from memory',
  inputs: {
    steps: { what: 'names of the steps', kind: 'text', list: true },
    times: { what: 'time of each', kind: 'time', unit: 'h', list: true, sign: 'not-negative' },
    after: { what: 'what each comes after', kind: 'text', list: true },
    people: { what: 'people that each needs', kind: 'number', list: true, sign: 'not-negative', optional: true },
    crew: { what: 'people there are', kind: 'number', optional: true },
  },
  work: ({ steps, times, after, people, crew }) => {
    const activities = activitiesOf(steps, times, after, people)
    if (!activities.ok) return activities
    const path = criticalPath(activities.value)
    if (!path.ok) return path
    const slacks = path.value.times.map(({ name, slack }) => `${name} ${sensibleHours(slack)}`).join('; ')
    const size = crew === null ? null : crew.denominator === 1n ? Number(crew.numerator) : Number.NaN
    const schedule = size === null ? null : crewSchedule(activities.value, size)
    if (schedule && !schedule.ok) return schedule
    return {
      ok: true,
      figures: [
        { name: 'length', what: 'Shortest time of the job', kind: 'time', units: hours, value: path.value.length },
        { name: 'critical', what: 'Critical steps', word: path.value.critical.join(', ') },
        { name: 'slack', what: 'Slack in hours', word: slacks },
        ...(schedule
          ? ([
              {
                name: 'crew-length',
                what: 'Time with this crew',
                kind: 'time',
                units: hours,
                value: schedule.value.length,
              },
              {
                name: 'person-hours',
                what: 'Person-hours',
                kind: 'time',
                units: hours,
                value: schedule.value.personHours,
              },
              {
                name: 'most-people',
                what: 'Most at one time',
                kind: 'number',
                value: rational(schedule.value.mostPeople),
              },
              {
                name: 'starts',
                what: 'Starts in hours',
                word: schedule.value.starts.map(({ name, start }) => `${name} ${sensibleHours(start)}`).join('; '),
              },
            ] as const)
          : []),
      ],
      notes: [
        ...(schedule ? ['Another order of the steps may be shorter: the least slack goes first here.'] : []),
        scheduleCaution,
      ],
    }
  },
})

const crewTime = makeCalculator({
  name: 'crew-time',
  what: 'Clock time and person-hours of steps done one after another.',
  formula: 'clock Σ t; person-hours Σ t n',
  validity: 'Steps in a row. For steps side by side: job-schedule.',
  source: 'Arithmetic',
  inputs: {
    times: { what: 'time of each step', kind: 'time', unit: 'h', list: true, sign: 'not-negative' },
    people: { what: 'people of each step', kind: 'number', list: true, sign: 'not-negative' },
  },
  work: ({ times, people }) => {
    if (times.length !== people.length)
      return refuse('people', 'Times and people are not of one length.', 'Type a number of people for each step.')
    const totals = crewTotals(
      times.map((time, index) => {
        const count = people[index] ?? rational(0)
        return { time, people: count.denominator === 1n ? Number(count.numerator) : Number.NaN }
      }),
    )
    if (!totals.ok) return totals
    return {
      ok: true,
      figures: [
        { name: 'clock', what: 'Clock time', kind: 'time', units: hours, value: totals.value.clock },
        { name: 'person-hours', what: 'Person-hours', kind: 'time', units: hours, value: totals.value.personHours },
        { name: 'most-people', what: 'Most at one time', kind: 'number', value: rational(totals.value.mostPeople) },
      ],
      notes: [scheduleCaution],
    }
  },
})

type Lists = readonly [
  steps: readonly string[],
  times: readonly Rational[],
  after: readonly string[],
  people: readonly Rational[] | null,
]

function activitiesOf(...[steps, times, after, people]: Lists): Answer<readonly CrewedActivity[]> {
  if (times.length !== steps.length || after.length !== steps.length || (people && people.length !== steps.length))
    return refuse(
      'steps',
      'The lists are not of one length.',
      'Type a time and an `after` for each step; `-` for none.',
    )
  const activities: CrewedActivity[] = []
  for (const [index, name] of steps.entries()) {
    const before: { name: string; wait?: Rational }[] = []
    for (const text of (after[index] ?? '-').split('+').map((each) => each.trim())) {
      if (text === '-') continue
      const [other = '', typedWait] = text.split(':').map((each) => each.trim())
      if (typedWait === undefined) before.push({ name: other })
      else {
        const wait = parseQuantity(typedWait, 'time')
        if (!wait.ok) return refuse('after', wait.problem.message, wait.problem.advice)
        const unit = unitBySymbol(wait.value.unit)
        if (unit) before.push({ name: other, wait: toBase(wait.value.value, unit) })
      }
    }
    const count = people?.[index] ?? rational(1)
    activities.push({
      name,
      duration: times[index] ?? rational(0),
      after: before,
      people: count.denominator === 1n ? Number(count.numerator) : Number.NaN,
    })
  }
  return answer(activities)
}

function sensibleHours(seconds: Rational): string {
  return sensibleDecimal(divide(seconds, rational(3600)))
}

export const scheduleCalculators: readonly Calculator[] = [threePoint, finishChance, jobSchedule, crewTime]
