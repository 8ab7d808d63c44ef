import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, isZero, multiply, subtract, zero } from '../../quantities/rational.ts'
import { type Answer, answer, firstRefused, type Refused, refuse } from '../answer.ts'
import { fromNumber, squared, squareRoot, toNumber } from '../binary.ts'
import { refusedLoad } from './leg-tension.ts'

/** Two legs of one hook, `distance` the level distance of a hook-on point from the centre of gravity, `height` of the hook above the points. */
export interface OffCentreLift {
  readonly load: Rational
  readonly firstDistance: Rational
  readonly secondDistance: Rational
  readonly height: Rational
}

export interface LegPull {
  readonly length: Rational
  readonly tension: Rational
  /** Degrees from horizontal, to 15 digits. The limits of the angle hold for each leg by itself. */
  readonly angle: Rational
}

export interface OffCentrePulls {
  readonly first: LegPull
  readonly second: LegPull
  /** Pull of the first leg sideways less that of the second: 0 when lengths and distances fit together. */
  readonly horizontalDifference: Rational
}

/**
 * Level hang: the hook stands above the centre of gravity, so the legs are of different length.
 *
 *     S = √(D² + H²)     T1 = W D2 S1 / (H (D1 + D2))     T2 = W D1 S2 / (H (D1 + D2))
 *
 * Any unit of length, T in the unit of W; to 15 digits.
 * Source: two-leg lifts in a university's training pages for shipyards (VMASC); S taken from the geometry, not from the page.
 */
export function offCentreLevel(lift: OffCentreLift): Answer<OffCentrePulls> {
  const refused = refusedGeometry(lift)
  if (refused) return refused
  const first = squareRoot(add(squared(lift.firstDistance), squared(lift.height)))
  const second = squareRoot(add(squared(lift.secondDistance), squared(lift.height)))
  return answer(pullsWithLengths(lift, first, second))
}

/**
 * The same with lengths as somebody measured or printed them, and whether they fit the other three within 1 %.
 * With lengths that do not fit, the pulls of the formula do not balance and are not to be trusted: use `offCentreLevel`.
 */
export function offCentreMeasured(
  lift: OffCentreLift,
  firstLength: Rational,
  secondLength: Rational,
): Answer<OffCentrePulls & { readonly isConsistent: boolean }> {
  const refused = refusedGeometry(lift)
  if (refused) return refused
  if (compare(firstLength, zero) <= 0 || compare(secondLength, zero) <= 0)
    return refuse('S1', 'A sling has no length.', 'Type lengths above 0.')
  const fits = (length: Rational, distance: Rational): boolean => {
    const right = toNumber(add(squared(distance), squared(lift.height)))
    return Math.abs(toNumber(length) / Math.sqrt(right) - 1) <= 0.01
  }
  return answer({
    ...pullsWithLengths(lift, firstLength, secondLength),
    isConsistent: fits(firstLength, lift.firstDistance) && fits(secondLength, lift.secondDistance),
  })
}

/** Two legs of given length on a load whose centre of gravity is not under the hook: the load tilts until it is. */
export interface TiltingLift {
  readonly load: Rational
  readonly firstLength: Rational
  readonly secondLength: Rational
  /** Between the hook-on points. */
  readonly span: Rational
  /** From the first hook-on point along the line to the second. */
  readonly centre: Rational
  /** Of the centre of gravity below the line of the hook-on points; negative above it. */
  readonly depth: Rational
}

export interface TiltedPulls {
  readonly first: Omit<LegPull, 'length'>
  readonly second: Omit<LegPull, 'length'>
  /** Degrees by which the load hangs out of level; above 0 the second point hangs lower. */
  readonly tilt: Rational
  /** Above the hook-on points a load can turn over; it needs a qualified person. */
  readonly isTopHeavy: boolean
}

/**
 * Unlevel hang. Hook, two points and load form one stiff triangle that turns until the centre of gravity is under the hook; the pulls then
 * balance the load. Worked out in the frame of the load: hook at x = (L1² - L2² + s²)/2s, y = √(L1² - x²); the load pulls along the line
 * from hook to centre of gravity. Any unit of length, pulls in the unit of the load; to about 12 digits.
 * Refused where a leg would hang slack, where slings cannot meet above the load, and where the centre of gravity is not below the hook.
 * Source: statics, common practice, no published source.
 */
export function tiltedHang(lift: TiltingLift): Answer<TiltedPulls> {
  const [first, second, span, centre, depth, load] = [
    lift.firstLength,
    lift.secondLength,
    lift.span,
    lift.centre,
    lift.depth,
    lift.load,
  ].map(toNumber) as [number, number, number, number, number, number]
  const refused = firstRefused(
    refusedLoad(lift.load),
    first > 0 && second > 0 && span > 0
      ? null
      : refuse('lengths', 'A length is not above 0.', 'Type both sling lengths and the distance of the points.'),
    first + second > span
      ? null
      : refuse('lengths', 'The slings are too short to meet above the load.', 'Use longer slings.'),
  )
  if (refused) return refused
  const hookX = (first * first - second * second + span * span) / (2 * span)
  const height = Math.sqrt(first * first - hookX * hookX)
  const down = height + depth
  if (!(height > 0)) return refuse('lengths', 'The hook does not come above the load.', 'Use slings that fit the load.')
  if (down <= 0) return refuse('depth', 'The centre of gravity is above the hook.', 'Hook on higher up.')
  const reach = Math.hypot(centre - hookX, down)
  const pull = { x: (hookX - centre) / reach, y: down / reach }
  const firstWay = { x: hookX / first, y: height / first }
  const secondWay = { x: (hookX - span) / second, y: height / second }
  const mixed = firstWay.x * secondWay.y - firstWay.y * secondWay.x
  const firstPull = (load * (pull.x * secondWay.y - pull.y * secondWay.x)) / mixed
  const secondPull = (load * (firstWay.x * pull.y - firstWay.y * pull.x)) / mixed
  if (!(firstPull > 0) || !(secondPull > 0))
    return refuse('centre', 'One leg would hang slack: the other takes it all.', 'Move the hook-on points apart.')
  const angleOf = (way: { x: number; y: number }): Rational => {
    const rise = way.x * pull.x + way.y * pull.y
    return fromNumber((Math.asin(Math.max(-1, Math.min(1, rise))) * 180) / Math.PI)
  }
  return answer({
    first: { tension: fromNumber(firstPull), angle: angleOf(firstWay) },
    second: { tension: fromNumber(secondPull), angle: angleOf(secondWay) },
    tilt: fromNumber((Math.atan2(centre - hookX, down) * 180) / Math.PI),
    isTopHeavy: depth < 0,
  })
}

function pullsWithLengths(lift: OffCentreLift, firstLength: Rational, secondLength: Rational): OffCentrePulls {
  const { load, firstDistance, secondDistance, height } = lift
  const span = add(firstDistance, secondDistance)
  const firstShare = divide(multiply(load, secondDistance), span)
  const secondShare = divide(multiply(load, firstDistance), span)
  const first = legOf(firstShare, firstDistance, firstLength, height)
  const second = legOf(secondShare, secondDistance, secondLength, height)
  const sideways = (leg: LegPull, distance: Rational): Rational => divide(multiply(leg.tension, distance), leg.length)
  return {
    first,
    second,
    horizontalDifference: subtract(sideways(first, firstDistance), sideways(second, secondDistance)),
  }
}

function legOf(share: Rational, distance: Rational, length: Rational, height: Rational): LegPull {
  const angle = isZero(distance)
    ? fromNumber(90)
    : fromNumber((Math.atan2(toNumber(height), toNumber(distance)) * 180) / Math.PI)
  return { length, tension: divide(multiply(share, length), height), angle }
}

function refusedGeometry({ load, firstDistance, secondDistance, height }: OffCentreLift): Refused | null {
  return firstRefused(
    refusedLoad(load),
    compare(height, zero) > 0 ? null : refuse('H', 'The hook is not above the load.', 'Type a height above 0.'),
    compare(firstDistance, zero) >= 0 &&
      compare(secondDistance, zero) >= 0 &&
      !isZero(add(firstDistance, secondDistance))
      ? null
      : refuse(
          'D1',
          'The centre of gravity does not lie between the hook-on points.',
          'Move a hook-on point so that it does.',
        ),
  )
}
