import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, rational, zero } from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'

/* Cranes and hoists. Source: WAC 296-24-23527, the same requirements as 29 CFR 1910.179(n). */

const fewestWraps = rational(2)

/** A side pull only where it was authorised after a look at stability and stress. */
export function sidePullAllowed(isSidePull: boolean, isAuthorised: boolean): boolean {
  return !isSidePull || isAuthorised
}

/** At least two full wraps of rope stay on the drum at the lowest point. */
export function wrapsAreEnough(wraps: Rational): Answer<boolean> {
  if (compare(wraps, zero) < 0)
    return refuse('wraps', 'The number of wraps is negative.', 'Count the wraps on the drum.')
  return answer(compare(wraps, fewestWraps) >= 0)
}
