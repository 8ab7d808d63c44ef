import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, isZero, multiply, rational, subtract, zero } from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import { fromNumber, toNumber } from '../binary.ts'
import { type RuleSetName, ruleSets } from './rule.ts'

/** How long which noise may last: `hours` at `level` dB(A), half as long for each `exchange` dB more. */
export interface NoiseRule {
  readonly name: string
  readonly set: RuleSetName
  readonly level: Rational
  readonly exchange: Rational
  readonly hours: Rational
  readonly source: string
}

const eight = rational(8)

/** Kept beside each other, since they disagree: at 92 dB(A) 6.1 h, 1.6 h and 2.5 h. From 78 dB(A) up NIOSH is the strictest. */
export const noiseRules = {
  osha: {
    name: 'osha',
    set: 'us-osha-general-industry',
    level: rational(90),
    exchange: rational(5),
    hours: eight,
    source: '29 CFR 1910.95, appendix A and table G-16A',
  },
  niosh: {
    name: 'niosh',
    set: 'us-niosh',
    level: rational(85),
    exchange: rational(3),
    hours: eight,
    source: 'NIOSH criteria for occupational noise exposure, publication 98-126',
  },
  canada: {
    name: 'canada',
    set: 'canada-federal',
    level: rational(87),
    exchange: rational(3),
    hours: eight,
    source: 'Canada Occupational Health and Safety Regulations, table of part VII (92 dB(A): 2.5 h)',
  },
} as const satisfies Readonly<Record<string, NoiseRule>>

export type NoiseRuleName = keyof typeof noiseRules

/** The rule of a rule set or its authority; NIOSH where the set has none, or none is chosen. */
export function noiseRuleOf(set: RuleSetName | null): NoiseRuleName {
  const all = Object.values(noiseRules)
  const own = all.find((rule) => rule.set === set)
  const akin = all.find((rule) => set !== null && ruleSets[rule.set].authority === ruleSets[set].authority)
  return (own ?? akin ?? noiseRules.niosh).name
}

const loudest = rational(140)

/**
 * Hours at a level: T = 8/2^((L - Lc)/q). Exact where the exchange goes in whole steps, else to 15 digits.
 * Refused below 0 and above 140 dB(A). That OSHA allows no steady noise above 115 dB(A) is not in the formula.
 */
export function allowedHours(level: Rational, name: NoiseRuleName = 'niosh'): Answer<Rational> {
  if (compare(level, zero) < 0 || compare(level, loudest) > 0)
    return refuse('level', 'The level lies outside 0 to 140 dB(A).', 'Read the meter again, set to A and slow.')
  const rule = noiseRules[name]
  const steps = divide(subtract(level, rule.level), rule.exchange)
  return answer(divide(rule.hours, powerOfTwo(steps)))
}

export interface NoiseDose {
  /** Percent of what is allowed. */
  readonly dose: Rational
  /** The steady level of 8 hours with the same dose, in dB(A); null for no dose. */
  readonly steadyLevel: Rational | null
}

/**
 * Dose of a day: D = 100 Σ C/T, and the steady level TWA = Lc + q log2(D/100); for OSHA the printed 16.61 log10(D/100) + 90.
 * The table rounds T first: 8 h at 92 dB(A) give 131 by table and 132 by formula. Levels and hours in pairs; more than 24 hours are refused.
 */
export function noiseDose(
  spells: readonly { readonly level: Rational; readonly hours: Rational }[],
  name: NoiseRuleName = 'niosh',
): Answer<NoiseDose> {
  if (spells.length === 0) return refuse('level', 'There is no noise.', 'Type levels and hours.')
  if (spells.some(({ hours }) => compare(hours, zero) < 0))
    return refuse('hours', 'A time is negative.', 'Type hours of 0 or more.')
  if (compare(spells.map(({ hours }) => hours).reduce(add), rational(24)) > 0)
    return refuse('hours', 'The times make more than a day.', 'Type the hours of one day.')
  let dose = zero
  for (const { level, hours } of spells) {
    const allowed = allowedHours(level, name)
    if (!allowed.ok) return allowed
    dose = add(dose, multiply(rational(100), divide(hours, allowed.value)))
  }
  if (isZero(dose)) return answer({ dose, steadyLevel: null })
  const rule = noiseRules[name]
  const steps = fromNumber(Math.log2(toNumber(divide(dose, rational(100)))))
  return answer({ dose, steadyLevel: add(rule.level, multiply(rule.exchange, steps)) })
}

function powerOfTwo(exponent: Rational): Rational {
  if (exponent.denominator !== 1n) return fromNumber(2 ** toNumber(exponent))
  const size = exponent.numerator < 0n ? -exponent.numerator : exponent.numerator
  return exponent.numerator < 0n ? rational(1, 2n ** size) : rational(2n ** size)
}
