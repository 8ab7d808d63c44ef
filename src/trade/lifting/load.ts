import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, multiply, one, rational, zero } from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import { pi } from '../binary.ts'

/** What a load weighs, how sure that is, and what a lift puts on top of it. */

/** Pounds per cubic foot, for estimates. Source: weights and measures of a sling maker's page on centre of gravity and sling loading. */
export const poundsPerCubicFoot = {
  steel: 490,
  aluminium: 165,
  concrete: 150,
  wood: 50,
  water: 62,
  'sand and gravel': 120,
  copper: 560,
  oil: 58,
} as const

export type Material = keyof typeof poundsPerCubicFoot

export type Solid =
  | { readonly shape: 'block'; readonly length: Rational; readonly width: Rational; readonly height: Rational }
  | { readonly shape: 'cylinder'; readonly diameter: Rational; readonly length: Rational }
  | { readonly shape: 'tube'; readonly diameter: Rational; readonly wall: Rational; readonly length: Rational }
  | { readonly shape: 'sphere'; readonly diameter: Rational }

/**
 * Volume: block l w h, cylinder π d² l/4, tube π (d - t) t l, sphere π d³/6. In the cube of the unit of length.
 * Exact for a block, else to 40 digits. Refused unless every size is above 0 and a wall is not thicker than half the tube.
 */
export function volumeOf(solid: Solid): Answer<Rational> {
  const { shape, ...sizes } = solid
  const wrong = Object.entries(sizes).find(([, size]) => compare(size, zero) <= 0)
  if (wrong) return refuse(wrong[0], `The ${wrong[0]} of the ${shape} must be above 0.`, 'Measure it.')
  switch (solid.shape) {
    case 'block':
      return answer(product(solid.length, solid.width, solid.height))
    case 'cylinder':
      return answer(divide(product(pi, solid.diameter, solid.diameter, solid.length), rational(4)))
    case 'sphere':
      return answer(divide(product(pi, solid.diameter, solid.diameter, solid.diameter), rational(6)))
    case 'tube': {
      const { diameter, wall, length } = solid
      if (compare(multiply(rational(2), wall), diameter) > 0)
        return refuse('wall', 'The wall is thicker than half the tube.', 'Measure diameter and wall again.')
      const middle = add(diameter, multiply(rational(-1), wall))
      return answer(product(pi, middle, wall, length))
    }
  }
}

/** Pounds of a volume in cubic feet. An estimate: what is bolted on, filled in or frozen to it comes on top. */
export function poundsOf(material: Material, cubicFeet: Rational): Rational {
  return multiply(rational(poundsPerCubicFoot[material]), cubicFeet)
}

/**
 * What the gear is chosen for: (1 + uncertainty) × weight × dynamic factor + weight of the gear below the hook.
 * Uncertainty as a share (0.1 for "± 10 %"), dynamic factor 1 for a smooth lift, more for snatching or travelling.
 * Source: common practice of lift planning, no published source.
 */
export function designLoad(
  weight: Rational,
  uncertainty: Rational,
  dynamicFactor: Rational,
  gear: Rational,
): Answer<Rational> {
  if (compare(weight, zero) <= 0) return refuse('weight', 'The weight must be above 0.', 'Type the weight of the load.')
  if (compare(uncertainty, zero) < 0)
    return refuse(
      'uncertainty',
      'The uncertainty is negative.',
      'Type 0 % for a weighed load, 10 % or more for a guess.',
    )
  if (compare(dynamicFactor, one) < 0)
    return refuse('dynamic-factor', 'A dynamic factor below 1 would make the load lighter.', 'Type 1 or more.')
  if (compare(gear, zero) < 0) return refuse('gear', 'The gear weighs less than nothing.', 'Type 0 or more.')
  return answer(add(product(weight, add(one, uncertainty), dynamicFactor), gear))
}

/** An estimate is good for a lift only where it is not below the true weight. Common practice, no published source. */
export function estimateHolds(truth: Rational, estimate: Rational): Answer<boolean> {
  if (compare(truth, zero) <= 0 || compare(estimate, zero) <= 0)
    return refuse('estimate', 'Both weights must be above 0.', 'Type both.')
  return answer(compare(estimate, truth) >= 0)
}

/** Test load of an accessory made on site: 125 % of its rated load. 29 CFR 1926.251(a)(4). */
export function proofLoadOf(rated: Rational): Answer<Rational> {
  if (compare(rated, zero) <= 0) return refuse('rated', 'The rating must be above 0.', 'Type the rated load.')
  return answer(multiply(rational(125, 100), rated))
}

/** The most that an item may be rated at after a test: test load/1.25, that is 80 % of it. 29 CFR 1926.251(a)(4). */
export function ratedAfterTest(test: Rational): Answer<Rational> {
  if (compare(test, zero) <= 0)
    return refuse('test-load', 'The test load must be above 0.', 'Type the load of the test.')
  return answer(divide(test, rational(125, 100)))
}

function product(...factors: readonly Rational[]): Rational {
  return factors.reduce(multiply, one)
}
