import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, larger, zero } from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import { anyFollows, follows, rulesFor, type ThresholdRule } from './rule.ts'
import { thresholdRules } from './rules.ts'

/** What stands around a place of hot work; what is not given does not count. Distances in `unit`. */
export interface HotWorkPlace {
  readonly unit: string
  /** Of the nearest things that burn and are more than a little. */
  readonly distance?: Rational
  /** Whether they are easily lit by sparks, however far. */
  readonly isEasilyIgnited?: boolean
  /** Of the nearest opening in wall or floor that bares things that burn next door. */
  readonly openingDistance?: Rational
  /** Whether things that burn lie on the other side of a metal wall, ceiling or roof and may be lit through it. */
  readonly isLitThroughMetal?: boolean
}

/** Whether a fire watch is needed, by the conditions of 29 CFR 1910.252(a)(2)(iii)(A). Exact. */
export function fireWatchNeeded(place: HotWorkPlace): Answer<boolean> {
  if (place.isEasilyIgnited || place.isLitThroughMetal) return answer(true)
  for (const [topic, distance] of [
    ['fire-watch-distance', place.distance],
    ['fire-watch-opening', place.openingDistance],
  ] as const) {
    if (distance === undefined) continue
    if (compare(distance, zero) < 0)
      return refuse('distance', 'The distance is negative.', 'Type the distance from the work.')
    const rules = rulesFor(thresholdRules, topic, null)
    if (!rules.ok) return rules
    const verdict = anyFollows(rules.value, distance, place.unit)
    if (!verdict.ok) return verdict
    if (verdict.value.follows) return answer(true)
  }
  return answer(false)
}

/** How far from the work things that burn count. A page that prints 5 ft has lost a digit. */
export function combustiblesRadius(): Answer<ThresholdRule> {
  return strictest('fire-watch-distance', null)
}

/** How long a fire watch goes on after the work, by a rule set or authority; the longest of all where none is chosen. */
export function fireWatchAfter(chosen: string | null): Answer<ThresholdRule> {
  return strictest('fire-watch-after', chosen)
}

/** Whether a fire watch that went on so long after the work has done enough. Exact. */
export function fireWatchLongEnough(after: Rational, unit: string, chosen: string | null): Answer<boolean> {
  if (compare(after, zero) < 0) return refuse('after', 'The time is negative.', 'Type the minutes after the work.')
  const rule = fireWatchAfter(chosen)
  return rule.ok ? follows(rule.value, after, unit) : rule
}

/** The people whom hot work inside the radius needs. Source: guide to NFPA 51B in Massachusetts (527 CMR 1.00), hot work safety team. */
export const hotWorkRoles = ['hot work operator', 'fire watch', 'permit authorizing individual'] as const

/** The roles for work with a radius to be kept clear; refused for a radius that is not above 0. */
export function rolesWithin(radius: Rational): Answer<readonly string[]> {
  return compare(radius, zero) > 0
    ? answer(hotWorkRoles)
    : refuse('radius', 'The radius must be above 0.', 'Type the radius of the place, such as 35 ft.')
}

/** The rule with the largest number: the longest time and the widest distance are the strict ones here. */
function strictest(topic: string, chosen: string | null): Answer<ThresholdRule> {
  const rules = rulesFor(thresholdRules, topic, chosen)
  if (!rules.ok) return rules
  const [first, ...rest] = rules.value
  if (!first) return refuse('rule-set', 'No rule is known for this.', 'Ask the safety officer.')
  return answer(rest.reduce((most, rule) => (larger(rule.value, most.value) === most.value ? most : rule), first))
}
