import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, larger, smaller, subtract, zero } from '../../quantities/rational.ts'
import { nearestName } from '../../text/nearest-name.ts'
import { type Answer, answer, type Refused, refuse } from '../answer.ts'

/** One piece of work; what must be done before it, each with a wait after it (paint drying, cooling down) of 0 or more. */
export interface Activity {
  readonly name: string
  readonly duration: Rational
  readonly after: readonly { readonly name: string; readonly wait?: Rational }[]
}

/** When an activity may and must run, counted from the start of the job. */
export interface ActivityTimes {
  readonly name: string
  readonly earlyStart: Rational
  readonly earlyFinish: Rational
  readonly lateStart: Rational
  readonly lateFinish: Rational
  /** How much it may slip without making the job longer. */
  readonly slack: Rational
}

export interface CriticalPath {
  readonly length: Rational
  /** Activities without slack, in the order in which they run. With two longest ways, those of both. */
  readonly critical: readonly string[]
  /** In the order given. */
  readonly times: readonly ActivityTimes[]
}

/**
 * Critical path of a network of activities: earliest times by a pass forwards, latest by a pass backwards; critical is what has no slack.
 * Only the longest way is critical, and every way that is as long. Exact. The number of people is not looked at: see `crewSchedule`.
 * Refused: no activity, a name twice, an unknown name, a negative time, a circle (its names are told).
 *
 * Source: critical path method, J. E. Kelley and M. R. Walker, 1959 (from memory); the same in textbooks of project management.
 */
export function criticalPath(activities: readonly Activity[]): Answer<CriticalPath> {
  const ordered = inOrder(activities)
  if (!ordered.ok) return ordered
  const early = new Map<string, { readonly start: Rational; readonly finish: Rational }>()
  for (const { name, duration, after } of ordered.value) {
    const start = after.reduce(
      (latest, before) => larger(latest, add(early.get(before.name)?.finish ?? zero, before.wait ?? zero)),
      zero,
    )
    early.set(name, { start, finish: add(start, duration) })
  }
  const length = [...early.values()].reduce((latest, { finish }) => larger(latest, finish), zero)
  const lateFinish = new Map(ordered.value.map(({ name }) => [name, length]))
  for (const { name, duration, after } of ordered.value.toReversed()) {
    const lateStart = subtract(lateFinish.get(name) ?? length, duration)
    for (const before of after) {
      const must = subtract(lateStart, before.wait ?? zero)
      lateFinish.set(before.name, smaller(lateFinish.get(before.name) ?? length, must))
    }
  }
  const times = activities.map(({ name, duration }) => {
    const { start, finish } = early.get(name) ?? { start: zero, finish: zero }
    const must = lateFinish.get(name) ?? length
    const lateStart = subtract(must, duration)
    return {
      name,
      earlyStart: start,
      earlyFinish: finish,
      lateStart,
      lateFinish: must,
      slack: subtract(lateStart, start),
    }
  })
  const critical = times
    .filter(({ slack }) => compare(slack, zero) === 0)
    .toSorted((a, b) => compare(a.earlyStart, b.earlyStart))
    .map(({ name }) => name)
  return answer({ length, critical, times })
}

/**
 * The same network from arrows: each activity leads from one event to another, so it comes after all that end where it begins.
 * Names are `1-2`: event, hyphen, event.
 */
export function activitiesOfArrows(
  arrows: readonly { readonly name: string; readonly duration: Rational }[],
): Answer<readonly Activity[]> {
  const ends = arrows.map(({ name, duration }) => {
    const [, from, to] = /^\s*([^-]+?)\s*-\s*([^-]+?)\s*$/.exec(name) ?? []
    return { name, duration, from, to }
  })
  const wrong = ends.find(({ from, to }) => from === undefined || to === undefined || from === to)
  if (wrong)
    return refuse('durations', `"${wrong.name}" does not lead from one event to another.`, 'Name arrows like `1-2`.')
  return answer(
    ends.map(({ name, duration, from }) => ({
      name,
      duration,
      after: ends.filter(({ to }) => to === from).map((before) => ({ name: before.name })),
    })),
  )
}

/** Names of one circle in which activities wait for one another, beginning with the one named first; null where there is none. */
export function circleOf(
  activities: readonly { readonly name: string; readonly after: readonly { readonly name: string }[] }[],
): readonly string[] | null {
  const byName = new Map(activities.map((each) => [each.name, each]))
  const done = new Set<string>()
  const walk = (name: string, way: readonly string[]): readonly string[] | null => {
    const from = way.indexOf(name)
    // The walk goes backwards in time.
    if (from !== -1) return way.slice(from).toReversed()
    if (done.has(name)) return null
    for (const before of byName.get(name)?.after ?? []) {
      const circle = walk(before.name, [...way, name])
      if (circle) return circle
    }
    done.add(name)
    return null
  }
  const names = activities.map(({ name }) => name)
  for (const name of names) {
    const circle = walk(name, [])
    if (!circle) continue
    const first = circle.indexOf(names.find((each) => circle.includes(each)) ?? name)
    return [...circle.slice(first), ...circle.slice(0, first)]
  }
  return null
}

/** The activities, each after those it waits for; those free at the same time in the order given. */
export function inOrder<A extends Activity>(activities: readonly A[]): Answer<readonly A[]> {
  const refused = refusedNetwork(activities)
  if (refused) return refused
  const placed = new Set<string>()
  const ordered: A[] = []
  while (ordered.length < activities.length) {
    const free = activities.filter(
      ({ name, after }) => !placed.has(name) && after.every((before) => placed.has(before.name)),
    )
    for (const activity of free) placed.add(activity.name)
    ordered.push(...free)
  }
  return answer(ordered)
}

function refusedNetwork(activities: readonly Activity[]): Refused | null {
  if (activities.length === 0) return refuse('durations', 'There is no activity.', 'Type at least one.')
  const names = activities.map(({ name }) => name)
  const twice = names.find((name, index) => names.indexOf(name) !== index)
  if (twice !== undefined) return refuse('durations', `"${twice}" stands there twice.`, 'Give each a name of its own.')
  for (const { name, duration, after } of activities) {
    if (compare(duration, zero) < 0)
      return refuse('durations', `"${name}" takes less than no time.`, 'Type a time of 0 or more.')
    for (const before of after) {
      if (before.wait && compare(before.wait, zero) < 0)
        return refuse(
          'preds',
          `The wait between "${before.name}" and "${name}" is negative.`,
          'Type a wait of 0 or more.',
        )
      if (names.includes(before.name)) continue
      const near = nearestName(before.name, names)
      return refuse(
        'preds',
        `"${name}" comes after "${before.name}", which is not there.`,
        near === null ? `Type one of: ${names.join(', ')}.` : `Did you mean "${near}"?`,
      )
    }
  }
  const circle = circleOf(activities)
  if (!circle) return null
  return refuse(
    'preds',
    `${circle.map((name) => `"${name}"`).join(', ')} wait for one another in a circle.`,
    'Take one of them out from behind another.',
  )
}
