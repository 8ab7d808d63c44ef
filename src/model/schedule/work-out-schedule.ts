import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, isZero, larger, multiply, rational, zero } from '../../quantities/rational.ts'
import { toNumber } from '../../trade/binary.ts'
import { chanceToFinish, type Estimate, sumOfEstimates, threePointEstimate } from '../../trade/schedule/estimates.ts'
import { type ActivityTimes, criticalPath } from '../../trade/schedule/network.ts'
import type { Variant } from '../variants.ts'
import { type JobActivity, type JobNetwork, networkOf } from './activities.ts'
import type { PhaseTimes, Schedule } from './schedule.ts'
import type { TimedPhase, TimedStep } from './timed-work.ts'
import { takesOf } from './times.ts'

/** Shifts that a job may have to fit into, in hours. Common practice, no published source. */
const shifts = [8, 10, 12] as const

/** Beyond so many combinations of variants the steps of all of them are counted. */
const MOST_COMBINATIONS = 64

/** The schedule of the job; null where no step and no phase says how long it takes. */
export function workOutSchedule(phases: readonly TimedPhase[], variants: readonly Variant[]): Schedule | null {
  const hasTimes = phases.some(
    (phase) => takesOf(phase) !== null || everyStep(phase).some((step) => takesOf(step) !== null),
  )
  if (!hasTimes) return null
  const choices = combinationsOf(phases, variants)
  let longest: Schedule | null = null
  for (const choice of choices) {
    const schedule = scheduleOf(phases, choice)
    if (schedule && (longest === null || schedule.expected > longest.expected)) longest = schedule
  }
  return longest
}

type Choice = ReadonlyMap<string, string>

function scheduleOf(all: readonly TimedPhase[], choice: Choice): Schedule | null {
  const phases = all.flatMap((phase) =>
    holdsFor(phase, choice) ? [{ ...phase, steps: stepsFor(phase.steps, choice) }] : [],
  )
  const network = networkOf(phases)
  const expected = pathOf(network, expectedOf)
  const least = pathOf(network, ({ shortest }) => shortest)
  const most = pathOf(network, ({ longest }) => longest)
  if (!expected || !least || !most) return null
  const onTheWay = phasesTaken(phases, network, expected)
  const way = longestWay(network, expected)
  const spread = sumOfEstimates(way.map(({ hands }) => estimateOf(hands)))
  const taken = phases.filter(({ id }) => onTheWay.has(id))
  const variance = spread.variance
  return {
    expected: tenths(expected.length),
    least: tenths(least.length),
    most: tenths(most.length),
    deviation: Math.round(Math.sqrt(toNumber(variance)) * 10) / 10,
    steps: taken.flatMap(everyStep).length,
    timedSteps: taken.flatMap(timedStepsOf).length,
    personMinutes: personMinutes(network, taken),
    critical: way.map(({ name }) => name),
    phases: all.map((phase) => phaseTimes(phase.id, network, expected, onTheWay, way, phase)),
    finishBy: isZero(variance) ? [] : shifts.flatMap((hours) => finishBy(expected.length, variance, hours)),
    variant: choice.size === 0 ? null : [...choice].map(([name, value]) => `${name}: ${value}`).join(', '),
  }
}

interface Path {
  readonly length: Rational
  readonly times: ReadonlyMap<string, ActivityTimes>
}

function pathOf({ activities }: JobNetwork, lasts: (hands: JobActivity['hands']) => Rational): Path | null {
  const path = criticalPath(
    activities.map(({ name, hands, wait, after }) => ({ name, after, duration: add(lasts(hands), wait) })),
  )
  return path.ok
    ? { length: path.value.length, times: new Map(path.value.times.map((times) => [times.name, times])) }
    : null
}

function estimateOf(hands: JobActivity['hands']): Estimate {
  const estimate = threePointEstimate(hands)
  return estimate.ok ? estimate.value : { expected: hands.likeliest, variance: zero }
}

function expectedOf(hands: JobActivity['hands']): Rational {
  return estimateOf(hands).expected
}

/** One of the longest ways, from its last activity back to its first: with two of one length their spreads do not add. */
function longestWay({ activities }: JobNetwork, { length, times }: Path): readonly JobActivity[] {
  const byName = new Map(activities.map((activity) => [activity.name, activity]))
  const finishOf = (name: string): Rational => times.get(name)?.earlyFinish ?? zero
  const way: JobActivity[] = []
  let here = activities.find(({ name }) => compare(finishOf(name), length) === 0)
  while (here) {
    way.unshift(here)
    const start = times.get(here.name)?.earlyStart ?? zero
    const before = here.after.find(({ name, wait }) => compare(add(finishOf(name), wait ?? zero), start) === 0)
    here = before && byName.get(before.name)
  }
  return way.filter(({ hands, wait }) => !isZero(hands.longest) || !isZero(wait))
}

/** Main phases, and of the branches of each the one that ends last. */
function phasesTaken(phases: readonly TimedPhase[], network: JobNetwork, path: Path): ReadonlySet<string> {
  const taken = new Set<string>()
  const take = (phase: TimedPhase): void => {
    taken.add(phase.id)
    const branches = phases.filter(({ under }) => under === phase.id)
    const [first, ...rest] = branches
    if (!first) return
    const end = (branch: TimedPhase) => endOf(branch.id, network, path)
    take(rest.reduce((last, branch) => (compare(end(branch), end(last)) > 0 ? branch : last), first))
  }
  for (const phase of phases) if (phase.under === null) take(phase)
  return taken
}

function endOf(phase: string, network: JobNetwork, path: Path): Rational {
  return latest(network.phases.get(phase)?.ends ?? [], path)
}

function latest(names: readonly string[], { times }: Path): Rational {
  return names.reduce((end, name) => larger(end, times.get(name)?.earlyFinish ?? zero), zero)
}

function phaseTimes(
  id: string,
  network: JobNetwork,
  path: Path,
  onTheWay: ReadonlySet<string>,
  way: readonly JobActivity[],
  phase: TimedPhase,
): PhaseTimes {
  const names = new Set([id, ...everyStep(phase).map((step) => step.id)])
  return {
    phase: id,
    start: tenths(latest(network.phases.get(id)?.entry ?? [], path)),
    finish: tenths(endOf(id, network, path)),
    isCritical: way.some(({ name }) => names.has(name)),
    isOnTheWay: onTheWay.has(id),
  }
}

function personMinutes({ activities }: JobNetwork, taken: readonly TimedPhase[]): Schedule['personMinutes'] {
  const names = new Set(taken.flatMap((phase) => [phase.id, ...everyStep(phase).map(({ id }) => id)]))
  const sums = new Map<string, Rational>()
  for (const { name, people, hands } of activities) {
    if (!names.has(name)) continue
    for (const role of people) sums.set(role, add(sums.get(role) ?? zero, expectedOf(hands)))
  }
  return [...sums].flatMap(([role, minutes]) => (isZero(minutes) ? [] : [{ role, minutes: tenths(minutes) }]))
}

function finishBy(expected: Rational, variance: Rational, hours: number): Schedule['finishBy'] {
  const chance = chanceToFinish(expected, variance, rational(hours * 60))
  return chance.ok ? [{ minutes: hours * 60, chance: Math.round(toNumber(chance.value.chance) * 100) / 100 }] : []
}

/** Steps that say a time, and those of a phase that says it for all of them. */
function timedStepsOf(phase: TimedPhase): readonly TimedStep[] {
  if (takesOf(phase) !== null) return everyStep(phase)
  return everyStep(phase).filter((step) => takesOf(step) !== null || step.waiting.length > 0)
}

function everyStep({ steps }: { readonly steps: readonly TimedStep[] }): readonly TimedStep[] {
  return steps.flatMap((step) => [step, ...everyStep(step)])
}

/** One choice of a value for each variant that some step or phase is only for. */
function combinationsOf(phases: readonly TimedPhase[], variants: readonly Variant[]): readonly Choice[] {
  const used = new Set(
    phases
      .flatMap((phase) => [phase.only, ...everyStep(phase).map((step) => step.only)])
      .flatMap((only) => only?.variant ?? []),
  )
  const counted = variants.filter(({ name, values }) => used.has(name) && values.length > 0)
  const count = counted.reduce((product, { values }) => product * values.length, 1)
  if (count > MOST_COMBINATIONS) return [new Map()]
  return counted.reduce<readonly Choice[]>(
    (choices, { name, values }) =>
      choices.flatMap((choice) => values.map((value) => new Map([...choice, [name, value]]))),
    [new Map()],
  )
}

function holdsFor({ only }: { readonly only: TimedPhase['only'] }, choice: Choice): boolean {
  const chosen = only === null ? undefined : choice.get(only.variant)
  return only === null || chosen === undefined || only.values.includes(chosen)
}

function stepsFor(steps: readonly TimedStep[], choice: Choice): readonly TimedStep[] {
  return steps.flatMap((step) => (holdsFor(step, choice) ? [{ ...step, steps: stepsFor(step.steps, choice) }] : []))
}

function tenths(minutes: Rational): number {
  return Math.round(toNumber(multiply(minutes, rational(10)))) / 10
}
