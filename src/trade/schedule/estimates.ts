import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, multiply, rational, subtract, zero } from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import { fromNumber, squareRoot, toNumber } from '../binary.ts'

/** Shortest, likeliest and longest time, in one unit. */
export interface ThreePoints {
  readonly shortest: Rational
  readonly likeliest: Rational
  readonly longest: Rational
}

export interface Estimate {
  readonly expected: Rational
  /** In the square of the unit. */
  readonly variance: Rational
}

/**
 * Expected time te = (o + 4 m + p)/6 and variance ((p - o)/6)² of a three-point estimate. Exact.
 * Refused unless 0 ≤ o ≤ m ≤ p.
 *
 * Source: the PERT rule as in textbooks of project management (D. G. Malcolm and others, Operations Research 7, 1959; from memory).
 */
export function threePointEstimate({ shortest, likeliest, longest }: ThreePoints): Answer<Estimate> {
  if (compare(shortest, zero) < 0) return refuse('o', 'The shortest time is negative.', 'Type a time of 0 or more.')
  if (compare(shortest, likeliest) > 0 || compare(likeliest, longest) > 0)
    return refuse(
      'm',
      'The times are not in order: shortest, likeliest, longest.',
      'Type the shortest first and the longest last.',
    )
  const spread = divide(subtract(longest, shortest), rational(6))
  const expected = divide(add(add(shortest, multiply(rational(4), likeliest)), longest), rational(6))
  return answer({ expected, variance: multiply(spread, spread) })
}

/** Expected time and variance of steps done one after another: both add up, as long as the steps do not depend on one another. */
export function sumOfEstimates(estimates: readonly Estimate[]): Estimate {
  return estimates.reduce(
    (sum, each) => ({ expected: add(sum.expected, each.expected), variance: add(sum.variance, each.variance) }),
    { expected: zero, variance: zero },
  )
}

export interface Chance {
  /** Standard deviations from the expected time to the target; null where the path has no spread. */
  readonly z: Rational | null
  /** From 0 to 1. */
  readonly chance: Rational
}

/**
 * Chance to finish by `target`: z = (target - expected)/√variance, P = Φ(z).
 * Takes the path as normally distributed and alone: with other paths nearly as long the true chance is smaller.
 * Good to about 1e-14; textbooks round z to two decimals first and differ by up to 0.0005. Without spread it is 0 or 1.
 */
export function chanceToFinish(expected: Rational, variance: Rational, target: Rational): Answer<Chance> {
  if (compare(variance, zero) < 0)
    return refuse('variance', 'The variance is negative.', 'Type a variance of 0 or more.')
  const early = subtract(target, expected)
  if (compare(variance, zero) === 0) return answer({ z: null, chance: compare(early, zero) >= 0 ? rational(1) : zero })
  const z = toNumber(early) / Math.sqrt(toNumber(variance))
  return answer({ z: fromNumber(z), chance: fromNumber(shareBelow(z)) })
}

/** √variance, to 15 digits. */
export function deviationOf(variance: Rational): Rational {
  return squareRoot(variance)
}

/** The expected time that leaves `z` standard deviations to a target: expected = target - z σ. */
export function expectedForChance(target: Rational, deviation: Rational, z: Rational): Answer<Rational> {
  if (compare(deviation, zero) < 0)
    return refuse('sd', 'The standard deviation is negative.', 'Type a spread of 0 or more.')
  return answer(subtract(target, multiply(z, deviation)))
}

/** Φ(z): ½ + φ(z) (z + z³/3 + z⁵/15 + …), G. Marsaglia, Journal of Statistical Software 11(4), 2004; beyond 8 it is 0 or 1. */
function shareBelow(z: number): number {
  if (z < -8) return 0
  if (z > 8) return 1
  let sum = 0
  let term = z
  for (let odd = 3; sum + term !== sum; odd += 2) {
    sum += term
    term *= (z * z) / odd
  }
  return 0.5 + (sum * Math.exp(-0.5 * z * z)) / Math.sqrt(2 * Math.PI)
}
