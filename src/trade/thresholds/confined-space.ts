import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, rational, zero } from '../../quantities/rational.ts'
import { nearestName } from '../../text/nearest-name.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import { anyFollows, rulesFor, type ThresholdRule } from './rule.ts'
import { kindsOf, thresholdRules } from './rules.ts'

/** A space is confined when a person can get in bodily, the way in or out is restricted, and it is not made for staying in: 29 CFR 1910.146(b). */
export function isConfinedSpace(space: {
  readonly canEnter: boolean
  readonly isRestricted: boolean
  readonly isForContinuousStay: boolean
}): boolean {
  return space.canEnter && space.isRestricted && !space.isForContinuousStay
}

export interface AirVerdict {
  readonly isHazardous: boolean
  /** Rules that say so. */
  readonly by: readonly ThresholdRule[]
}

/** Oxygen by volume, in percent. `chosen` a rule set or authority; null for the strictest of all. Exact at the limits. */
export function oxygenVerdict(percent: Rational, chosen: string | null): Answer<AirVerdict> {
  if (compare(percent, zero) < 0 || compare(percent, rational(100)) > 0)
    return refuse('oxygen', 'Oxygen lies between 0 and 100 %.', 'Read the instrument again.')
  const low = verdict('oxygen-low', percent, '%', chosen)
  if (!low.ok) return low
  const high = verdict('oxygen-high', percent, '%', chosen)
  if (!high.ok) return high
  const by = [...low.value.by, ...high.value.by]
  return answer({ isHazardous: by.length > 0, by })
}

/** Flammable gas in percent of its lower flammable limit. */
export function flammableVerdict(percentOfLimit: Rational, chosen: string | null): Answer<AirVerdict> {
  if (compare(percentOfLimit, zero) < 0)
    return refuse('flammable-gas', 'The reading is negative.', 'Set the instrument to zero in clean air.')
  return verdict('flammable-gas', percentOfLimit, '%', chosen)
}

/** Dust in the air by how far one can see through it. */
export function dustVerdict(vision: Rational, unit: string): Answer<AirVerdict> {
  if (compare(vision, zero) < 0) return refuse('vision', 'The distance is negative.', 'Type how far one can see.')
  return verdict('dust-vision', vision, unit, null)
}

export const toxicGases = kindsOf('toxic')

/** A toxic gas in ppm by volume. */
export function toxicVerdict(gas: string, partsPerMillion: Rational, chosen: string | null): Answer<AirVerdict> {
  const words = gas.trim().toLowerCase()
  if (!toxicGases.includes(words)) {
    const near = nearestName(words, toxicGases)
    return refuse(
      'gas',
      `No limit for "${gas}" is known here.`,
      near === null
        ? `Known are: ${toxicGases.join(', ')}. For others see the safety data sheet.`
        : `Did you mean "${near}"?`,
    )
  }
  if (compare(partsPerMillion, zero) < 0)
    return refuse('reading', 'The reading is negative.', 'Set the instrument to zero in clean air.')
  return verdict(`toxic/${words}`, partsPerMillion, 'ppm', chosen)
}

function verdict(topic: string, value: Rational, unit: string, chosen: string | null): Answer<AirVerdict> {
  const rules = rulesFor(thresholdRules, topic, chosen)
  if (!rules.ok) return rules
  const judged = anyFollows(rules.value, value, unit)
  return judged.ok ? answer({ isHazardous: judged.value.follows, by: judged.value.by }) : judged
}
