import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, multiply, rational, zero } from '../../quantities/rational.ts'
import { type Answer, answer, firstRefused, type Refused, refuse } from '../answer.ts'

/*
 * Pull in the legs of a sling whose legs are alike and whose hook stands above the centre of gravity.
 *
 *     T = W / (n sin a) = W L / (n H)
 *
 * W load, n legs that carry, a angle of a leg from horizontal, L length of a leg, H height of the hook above the hook-on points.
 * T in the unit of W. Exact for H/L, to 15 digits for an angle.
 * Source: formula as in a provincial crane-safety study quiz and in pages of lifting suppliers; checked against their tables.
 *
 * How many legs carry is an input: on a stiff load two legs of four may carry all of it (NAVEDTRA 14251, Steelworker, p. 6-36), chain
 * tables count three of four. Nobody told: the stricter two.
 */

/** Named rules for how many of four (or three) legs carry a load. */
export const carryingRules = {
  'two-carry': { source: 'NAVEDTRA 14251 (Steelworker), p. 6-36; the same warning in NAVEDTRA 14081', most: 2 },
  'three-carry': { source: 'Alloy chain sling tables: triple and quadruple share one column', most: 3 },
  'all-carry': { source: 'Only where legs are adjusted and the load gives way, by a qualified person', most: 4 },
} as const

export type CarryingRule = keyof typeof carryingRules

/** Legs that are counted on: for one or two legs all, for three and four what the rule says. */
export function carryingLegs(legs: number, rule: CarryingRule = 'two-carry'): Answer<number> {
  const refused = refusedLegs(legs)
  return refused ?? answer(legs <= 2 ? legs : Math.min(legs, carryingRules[rule].most))
}

/** Pull in each leg that carries. `rise` is sin a or H/L: above 0, at most 1. */
export function legTension(load: Rational, carrying: number, rise: Rational): Answer<Rational> {
  const refused = firstRefused(refusedLoad(load), refusedLegs(carrying), refusedRise(rise))
  return refused ?? answer(divide(load, multiply(rational(carrying), rise)))
}

/** What a sling of `carrying` legs may lift when each leg may pull `rating`: n WLL sin a = n WLL H/L. Same terms as `legTension`. */
export function slingCapacity(rating: Rational, carrying: number, rise: Rational): Answer<Rational> {
  const refused = firstRefused(refusedLoad(rating), refusedLegs(carrying), refusedRise(rise))
  return refused ?? answer(multiply(multiply(rational(carrying), rating), rise))
}

/**
 * What a sling of several legs may lift at an angle other than that of its tag: tag × sin a/sin a₀, and never more than the tag.
 * Both as the rise of a leg: above 0, at most 1. Refused for a flat leg. Source: the columns of chain sling tables (60°, 45° and 30° from
 * horizontal) stand to one another as the sines; that steeper legs gain nothing: a tag is not exceeded (common practice, no published source).
 */
export function taggedCapacity(tagged: Rational, tagRise: Rational, rise: Rational): Answer<Rational> {
  const refused = firstRefused(refusedLoad(tagged), refusedRise(tagRise), refusedRise(rise))
  return refused ?? answer(compare(rise, tagRise) >= 0 ? tagged : divide(multiply(tagged, rise), tagRise))
}

/** What is left of the straight rating of one leg at its angle: WLL sin a. */
export function legRating(rating: Rational, rise: Rational): Answer<Rational> {
  return slingCapacity(rating, 1, rise)
}

/** Pull in a leg that carries a vertical share: share/sin a. */
export function pullOfShare(share: Rational, rise: Rational): Answer<Rational> {
  return legTension(share, 1, rise)
}

/** Pull in each of the two legs of the usual bridle: W/(2 sin a). */
export function bridleTension(load: Rational, rise: Rational): Answer<Rational> {
  return legTension(load, 2, rise)
}

/** What so many upright legs may lift together when all of them carry. */
export function uprightCapacity(rating: Rational, legs: number): Answer<Rational> {
  const carrying = carryingLegs(legs, 'all-carry')
  return carrying.ok ? slingCapacity(rating, carrying.value, rational(1)) : carrying
}

/** sin a in percent: how much of its straight rating a leg keeps. */
export function legEfficiency(rise: Rational): Answer<Rational> {
  return refusedRise(rise) ?? answer(multiply(rational(100), rise))
}

/** 1/sin a or L/H: what the vertical share is multiplied with. */
export function tensionFactor(rise: Rational): Answer<Rational> {
  return refusedRise(rise) ?? answer(divide(rational(1), rise))
}

/**
 * Vertical shares of a load on two upright hooks, its centre of gravity `a` from the first and `b` from the second:
 * first = W b/(a + b), second = W a/(a + b). The hook nearer to the centre of gravity carries more. Exact.
 */
export function sharesOfTwo(load: Rational, a: Rational, b: Rational): Answer<{ first: Rational; second: Rational }> {
  const refused = firstRefused(refusedLoad(load), refusedDistance('a', a), refusedDistance('b', b))
  if (refused) return refused
  const span = add(a, b)
  if (compare(span, zero) === 0) return refuse('a', 'Both hooks are at one place.', 'Type the distance of each hook.')
  return answer({ first: divide(multiply(load, b), span), second: divide(multiply(load, a), span) })
}

export function refusedLoad(load: Rational): Refused | null {
  return compare(load, zero) > 0 ? null : refuse('W', 'The load must be above 0.', 'Type the weight of the load.')
}

function refusedDistance(input: string, distance: Rational): Refused | null {
  if (compare(distance, zero) >= 0) return null
  return refuse(
    input,
    'The centre of gravity lies outside the hooks: the load would tip over.',
    'Move a hook so that the centre of gravity lies between them.',
  )
}

function refusedLegs(legs: number): Refused | null {
  if (legs === 0) return refuse('legs', 'There is no leg.', 'Type how many legs the sling has: 1 to 4.')
  if (Number.isInteger(legs) && legs >= 1 && legs <= 4) return null
  return refuse('legs', 'The number of legs is not 1, 2, 3 or 4.', 'Count the legs that go to the load.')
}

function refusedRise(rise: Rational): Refused | null {
  if (compare(rise, zero) <= 0)
    return refuse(
      'angle',
      'The leg is flat: its pull has no end.',
      'Use longer slings, so that the legs stand steeper.',
    )
  if (compare(rise, rational(1)) <= 0) return null
  return refuse('angle', 'The leg rises by more than its length.', 'Measure length and height again.')
}
