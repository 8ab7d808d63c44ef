import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, larger, multiply, rational, smaller, zero } from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import { type Activity, criticalPath, inOrder } from './network.ts'

/** An activity and how many people it holds while it runs. 0 for a wait that needs nobody. */
export interface CrewedActivity extends Activity {
  readonly people: number
}

export interface CrewTotals {
  /** Clock time of the steps done one after another. */
  readonly clock: Rational
  readonly personHours: Rational
  readonly mostPeople: number
}

/** Clock time and person-hours of steps in a row: Σ t and Σ t n. Exact, in the unit of the times. */
export function crewTotals(steps: readonly { readonly time: Rational; readonly people: number }[]): Answer<CrewTotals> {
  if (steps.length === 0) return refuse('hours', 'There is no step.', 'Type the time of at least one step.')
  if (steps.some(({ time }) => compare(time, zero) < 0))
    return refuse('hours', 'A step takes less than no time.', 'Type times of 0 or more.')
  if (steps.some(({ people }) => !isCount(people)))
    return refuse('people', 'A number of people is not a whole number of 0 or more.', 'Type a whole number of people.')
  return answer({
    clock: steps.reduce((sum, { time }) => add(sum, time), zero),
    personHours: steps.reduce((sum, { time, people }) => add(sum, multiply(time, rational(people))), zero),
    mostPeople: Math.max(...steps.map(({ people }) => people)),
  })
}

export interface CrewSchedule {
  readonly length: Rational
  /** The length with as many people as anyone could want. */
  readonly lengthWithoutLimit: Rational
  readonly personHours: Rational
  readonly mostPeople: number
  readonly starts: readonly { readonly name: string; readonly start: Rational; readonly finish: Rational }[]
}

/**
 * A schedule within `crew` people: what has the least slack goes first, each as soon as what it waits for is done and enough people are free.
 * Times are exact for the schedule given; that no other schedule is shorter is not promised (the problem has no quick exact way).
 * Never shorter than the critical path, never shorter than person-hours divided by the crew.
 *
 * Source: serial scheduling with a minimum-slack rule, common practice in project scheduling (from memory).
 */
export function crewSchedule(activities: readonly CrewedActivity[], crew: number): Answer<CrewSchedule> {
  if (!isCount(crew) || crew < 1)
    return refuse('crew', 'There is no crew.', 'Type how many people there are: 1 or more.')
  const wrong = activities.find(({ people }) => !isCount(people))
  if (wrong)
    return refuse(
      'people',
      `The number of people of "${wrong.name}" is not a whole number.`,
      'Type a whole number of people, 0 or more.',
    )
  const tooMany = activities.find(({ people }) => people > crew)
  if (tooMany)
    return refuse(
      'people',
      `"${tooMany.name}" needs ${tooMany.people} people and there are ${crew}.`,
      'Give it fewer people, or make the crew larger.',
    )
  const path = criticalPath(activities)
  if (!path.ok) return path
  const ordered = inOrder(activities)
  if (!ordered.ok) return ordered
  const urgency = new Map(path.value.times.map(({ name, lateStart }) => [name, lateStart]))
  const placed = new Map<string, Placed>()
  const waiting = [...ordered.value]
  while (waiting.length > 0) {
    const free = waiting.filter(({ after }) => after.every(({ name }) => placed.has(name)))
    const next = free.reduce((best, each) =>
      compare(urgency.get(each.name) ?? zero, urgency.get(best.name) ?? zero) < 0 ? each : best,
    )
    waiting.splice(waiting.indexOf(next), 1)
    const from = next.after.reduce(
      (latest, { name, wait }) => larger(latest, add(placed.get(name)?.finish ?? zero, wait ?? zero)),
      zero,
    )
    const start = soonestWithRoom(next, from, [...placed.values()], crew)
    placed.set(next.name, { start, finish: add(start, next.duration), people: next.people })
  }
  const all = [...placed.values()]
  return answer({
    length: all.reduce((latest, { finish }) => larger(latest, finish), zero),
    lengthWithoutLimit: path.value.length,
    personHours: activities.reduce((sum, { duration, people }) => add(sum, multiply(duration, rational(people))), zero),
    mostPeople: Math.max(...all.map(({ start }) => busyAt(start, all))),
    starts: activities.map(({ name }) => {
      const { start, finish } = placed.get(name) ?? { start: zero, finish: zero }
      return { name, start, finish }
    }),
  })
}

interface Placed {
  readonly start: Rational
  readonly finish: Rational
  readonly people: number
}

function soonestWithRoom(activity: CrewedActivity, from: Rational, placed: readonly Placed[], crew: number): Rational {
  const moments = [from, ...placed.map(({ finish }) => finish)].filter((moment) => compare(moment, from) >= 0)
  const fits = (start: Rational): boolean => {
    const finish = add(start, activity.duration)
    const during = placed.filter((each) => compare(each.start, finish) < 0 && compare(each.finish, start) > 0)
    const within = [start, ...during.map((each) => each.start).filter((moment) => compare(moment, start) > 0)]
    return within.every((moment) => busyAt(moment, during) + activity.people <= crew)
  }
  // Behind everything there is always room.
  return moments.filter(fits).reduce(smaller)
}

function busyAt(moment: Rational, placed: readonly Placed[]): number {
  return placed
    .filter(({ start, finish }) => compare(start, moment) <= 0 && compare(finish, moment) > 0)
    .reduce((sum, { people }) => sum + people, 0)
}

function isCount(value: number): boolean {
  return Number.isInteger(value) && value >= 0
}
