import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, isZero, larger, multiply, rational, subtract, zero } from '../../quantities/rational.ts'
import { type Answer, answer, firstRefused, type Refused, refuse } from '../answer.ts'
import { fromNumber, toNumber } from '../binary.ts'

/** A stand, jack or block under a load: where it stands in plan, and what it may carry. */
export interface Support {
  readonly name: string
  readonly x: Rational
  readonly y: Rational
  readonly rating: Rational
}

export interface SupportVerdict {
  /** The most that each may have to carry, in the order given. */
  readonly items: readonly { readonly name: string; readonly most: Rational; readonly used: Rational }[]
  /** The one with the least in hand. */
  readonly weakest: string
  readonly isEnough: boolean
  /** Level distance from the centre of gravity to the nearest side of the figure that the supports make; to 15 digits. */
  readonly margin: Rational
}

/**
 * Loads on supports under a stiff load.
 *
 * Three supports carry what balances (exact). Of four and more, a stiff load may rest on any three whose triangle holds the centre of
 * gravity, so each is asked for the most that it gets in any of them: never less than an even share, which is not to be counted on.
 * Lengths in one unit, loads and ratings in one unit. Refused: fewer than three, a centre of gravity outside the supports (the load tips),
 * supports in one line, a load or rating not above 0.
 * Source: statics; "any three may carry" common practice, no published source.
 */
export function supportReactions(
  load: Rational,
  centre: { readonly x: Rational; readonly y: Rational },
  supports: readonly Support[],
): Answer<SupportVerdict> {
  const refused = refusedSupports(load, supports)
  if (refused) return refused
  const most = new Map<number, Rational>()
  for (const [a, b, c] of triplesOf(supports.length)) {
    const [first, second, third] = [supports[a], supports[b], supports[c]]
    if (!first || !second || !third) continue
    const area = cross(first, second, third)
    if (isZero(area)) continue
    const shares = [cross(centre, second, third), cross(first, centre, third), cross(first, second, centre)].map(
      (part) => divide(part, area),
    )
    if (shares.some((share) => compare(share, zero) < 0)) continue
    ;[a, b, c].forEach((index, place) => {
      most.set(index, larger(most.get(index) ?? zero, multiply(load, shares[place] ?? zero)))
    })
  }
  if (most.size === 0)
    return refuse(
      'centre',
      'The centre of gravity does not lie between the supports, or they stand in one line: the load would tip.',
      'Move a support so that the centre of gravity lies well inside.',
    )
  const items = supports.map(({ name, rating }, index) => {
    const pull = most.get(index) ?? zero
    return { name, most: pull, used: divide(pull, rating) }
  })
  const weakest = items.reduce((worst, each) => (compare(each.used, worst.used) > 0 ? each : worst))
  return answer({
    items,
    weakest: weakest.name,
    isEnough: compare(weakest.used, rational(1)) <= 0,
    margin: marginOf(centre, supports),
  })
}

export interface Stability {
  /** Degrees by which load and supports may lean until they tip. */
  readonly tippingAngle: Rational
  /** Level push at the height of the centre of gravity that tips them, in the unit of the load. */
  readonly tippingPush: Rational
}

/**
 * How near to tipping: angle = atan(margin/height), push = load margin/height, height of the centre of gravity above the ground.
 * To 15 digits. Without a slip, a soft ground or a moving load: keep well away from it. Source: statics.
 */
export function stabilityOf(load: Rational, margin: Rational, height: Rational): Answer<Stability> {
  const refused = firstRefused(
    compare(load, zero) > 0 ? null : refuse('load', 'The load must be above 0.', 'Type the weight.'),
    compare(margin, zero) >= 0 ? null : refuse('margin', 'The margin is negative.', 'The load tips already.'),
    compare(height, zero) > 0 ? null : refuse('height', 'The height must be above 0.', 'Type the height.'),
  )
  if (refused) return refused
  return answer({
    tippingAngle: fromNumber((Math.atan2(toNumber(margin), toNumber(height)) * 180) / Math.PI),
    tippingPush: divide(multiply(load, margin), height),
  })
}

interface Point {
  readonly x: Rational
  readonly y: Rational
}

function cross(a: Point, b: Point, c: Point): Rational {
  return subtract(multiply(subtract(b.x, a.x), subtract(c.y, a.y)), multiply(subtract(b.y, a.y), subtract(c.x, a.x)))
}

function triplesOf(count: number): readonly (readonly [number, number, number])[] {
  const triples: [number, number, number][] = []
  for (let a = 0; a < count; a++)
    for (let b = a + 1; b < count; b++) for (let c = b + 1; c < count; c++) triples.push([a, b, c])
  return triples
}

/** Distance to the nearest line between two supports that has all others on one side. */
function marginOf(centre: Point, supports: readonly Support[]): Rational {
  const distances = supports.flatMap((a, index) =>
    supports.slice(index + 1).flatMap((b) => {
      const sides = supports.map((each) => compare(cross(a, b, each), zero))
      if (sides.includes(1) && sides.includes(-1)) return []
      const length = Math.hypot(toNumber(subtract(b.x, a.x)), toNumber(subtract(b.y, a.y)))
      return length === 0 ? [] : [Math.abs(toNumber(cross(a, b, centre))) / length]
    }),
  )
  return fromNumber(Math.min(...distances))
}

function refusedSupports(load: Rational, supports: readonly Support[]): Refused | null {
  const weak = supports.find(({ rating }) => compare(rating, zero) <= 0)
  return firstRefused(
    compare(load, zero) > 0 ? null : refuse('load', 'The load must be above 0.', 'Type the weight of the load.'),
    supports.length >= 3
      ? null
      : refuse('supports', `${supports.length} supports do not hold a load upright.`, 'Use three or more.'),
    supports.length <= 12 ? null : refuse('supports', 'More than 12 supports.', 'Ask a qualified person.'),
    weak ? refuse('ratings', `The rating of "${weak.name}" must be above 0.`, 'Type it as marked.') : null,
  )
}
