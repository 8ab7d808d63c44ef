import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, multiply, rational, zero } from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'

/** The most people for whom a rule for lifting together is known. */
const mostPeople = 4

export interface PeopleNeeded {
  readonly people: number
  /** What the team may lift together, in the unit of the limit. */
  readonly teamLimit: Rational
  /** What one person would carry of an even share. */
  readonly share: Rational
}

/**
 * People to lift a load together, where each alone may lift `limit`: a team of two may lift two thirds of the sum of what
 * each may lift alone, three and four half of it.
 *
 * Source: HSE L23, Manual Handling Operations Regulations 1992, guidance, team handling (from memory; it gives two and three people, four is
 * taken as three). The NIOSH equation itself is not made for people lifting together. Exact. Refused when four are not enough.
 */
export function peopleNeeded(load: Rational, limit: Rational): Answer<PeopleNeeded> {
  if (compare(load, zero) <= 0) return refuse('load', 'The load must be above 0.', 'Type the weight of the load.')
  if (compare(limit, zero) <= 0)
    return refuse('limit', 'What one person may lift must be above 0.', 'Change the lift, or use a hoist.')
  for (let people = 1; people <= mostPeople; people++) {
    const together = teamLimit(limit, people)
    if (compare(load, together) <= 0)
      return answer({ people, teamLimit: together, share: divide(load, rational(people)) })
  }
  return refuse(
    'load',
    `${mostPeople} people are not enough for this load.`,
    'Use a hoist, a trolley or a lifting table, or take the load apart.',
  )
}

/** What so many people may lift together where each alone may lift `limit`. Source as for `peopleNeeded`; more than four count as four do. */
export function teamLimit(limit: Rational, people: number): Rational {
  return multiply(multiply(rational(people), limit), teamShare(people))
}

function teamShare(people: number): Rational {
  if (people === 1) return rational(1)
  return people === 2 ? rational(2, 3) : rational(1, 2)
}
