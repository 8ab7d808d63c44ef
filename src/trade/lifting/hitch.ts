import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, fromDecimalText, multiply, rational, zero } from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'

/** What is left of a sling's straight pull by the way it is hitched. */

/** Straight pull to choker: 0.75, wire rope and chain by common tables; synthetic webbing 0.8. A sling's own tag comes first. */
export const usualChoker = {
  factor: rational(75, 100),
  source: 'Provincial crane-safety study quiz with answers: a choker holds 75 % of the straight pull',
}

/** Choker at another factor. Refused unless 0 < factor ≤ 1. */
export function chokerRating(straight: Rational, factor: Rational = usualChoker.factor): Answer<Rational> {
  const refused = refusedRating(straight)
  if (refused) return refused
  if (compare(factor, zero) <= 0 || compare(factor, rational(1)) > 0)
    return refuse('factor', 'The choker factor must be above 0 and at most 1.', 'Type it as on the tag, such as 0.75.')
  return answer(multiply(straight, factor))
}

/** Degrees of choke, and percent of the choker rating from there up. ASME B30.9, choker hitch chart, from memory. */
const chokeRows = '120 100, 90 87, 60 74, 30 62, 0 49'

/** Percent of the choker rating left at an angle of choke in degrees (180 straight, smaller where the sling is pulled down hard). */
export function percentAtChoke(degrees: Rational): Answer<Rational> {
  if (compare(degrees, zero) < 0 || compare(degrees, rational(180)) > 0)
    return refuse('choke', 'An angle of choke lies between 0° and 180°.', 'Measure it on the inside of the choke.')
  const row = rowsOf(chokeRows).find(({ at }) => compare(at, degrees) <= 0)
  return answer(row?.percent ?? zero)
}

/** A basket hitch with both sides rising by `rise` (sin a or H/L) holds twice the straight pull times that: 2 WLL sin a. */
export function basketRating(straight: Rational, rise: Rational): Answer<Rational> {
  const refused = refusedRating(straight)
  if (refused) return refused
  if (compare(rise, zero) <= 0 || compare(rise, rational(1)) > 0)
    return refuse('angle', 'The sides of the basket do not rise.', 'Type an angle above 0° and up to 90°.')
  return answer(multiply(multiply(rational(2), straight), rise))
}

/** Bend over rope diameter, and percent of its strength that a wire rope keeps over the bend. Wire rope users' manuals, from memory. */
const bendRows = '1 50, 2 65, 4 75, 6 79, 8 83, 10 86, 16 90, 20 91, 24 93, 30 95, 40 96'

/** Percent of its strength that a wire rope keeps over a bend of `bend` for a rope of `rope`; between two rows that of the smaller. */
export function percentOverBend(bend: Rational, rope: Rational): Answer<Rational> {
  if (compare(rope, zero) <= 0) return refuse('rope', 'The rope has no thickness.', 'Type its diameter.')
  if (compare(bend, zero) <= 0) return refuse('bend', 'The bend has no diameter.', 'Type the diameter it is bent over.')
  const ratio = divide(bend, rope)
  const row = rowsOf(bendRows).findLast(({ at }) => compare(at, ratio) <= 0)
  return row
    ? answer(row.percent)
    : refuse('bend', 'The bend is thinner than the rope.', 'Put a fitting or pad of larger diameter in it.')
}

/**
 * Wire rope by a rule of thumb: 8 D² short tons with D in inches (safety factor 6). Exact.
 * Source: Steelworker 2 training course, p. 64. Only for a first look: the tag or the maker's table comes first.
 */
export function wireRopeShortTons(inches: Rational): Answer<Rational> {
  return ruleOfThumb(inches, rational(8))
}

/** Wire rope in kilograms, D in mm: 8 D². Source: formulas for the crane ticket ("SWL of FSWR"). Only for a first look. */
export function wireRopeKilograms(millimetres: Rational): Answer<Rational> {
  return ruleOfThumb(millimetres, rational(8))
}

/** Chain of a grade in kilograms, D in mm: 0.4 D² grade; 0.3 for grades 30 and 40. Source as for the wire rope. Only for a first look. */
export function chainKilograms(millimetres: Rational, grade = 80): Answer<Rational> {
  const share = grade > 40 ? rational(4, 10) : rational(3, 10)
  return ruleOfThumb(millimetres, multiply(share, rational(grade)))
}

function ruleOfThumb(diameter: Rational, factor: Rational): Answer<Rational> {
  if (compare(diameter, zero) <= 0)
    return refuse('D', 'The diameter must be above 0.', 'Measure over the widest place.')
  return answer(multiply(factor, multiply(diameter, diameter)))
}

function rowsOf(rows: string): readonly { readonly at: Rational; readonly percent: Rational }[] {
  return rows.split(', ').map((row) => {
    const [at = '', percent = ''] = row.split(' ')
    return { at: fromDecimalText(at) ?? zero, percent: fromDecimalText(percent) ?? zero }
  })
}

function refusedRating(straight: Rational): ReturnType<typeof refuse> | null {
  return compare(straight, zero) > 0 ? null : refuse('WLL', 'The rating must be above 0.', 'Type the rating as marked.')
}
