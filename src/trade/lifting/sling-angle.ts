import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, rational, subtract, zero } from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import { fromNumber, toNumber } from '../binary.ts'

/*
 * The angle of a sling leg. It is told from horizontal, from vertical, or between two legs, and never guessed: 30 degrees from vertical
 * are 60 from horizontal, and mistaking one for the other nearly doubles the pull.
 */

export type AngleConvention = 'from-horizontal' | 'from-vertical' | 'included'

const right = rational(90)

/**
 * Degrees from horizontal, exact. An included angle is the one between two legs of the same length, opposite to each other.
 * Refused unless the leg rises above horizontal and not beyond vertical.
 */
export function fromHorizontal(degrees: Rational, convention: AngleConvention): Answer<Rational> {
  const level =
    convention === 'from-horizontal'
      ? degrees
      : subtract(right, convention === 'from-vertical' ? degrees : divide(degrees, rational(2)))
  if (compare(level, zero) <= 0)
    return refuse(
      'angle',
      'The leg is flat: its pull has no end.',
      'Use longer slings, so that the legs stand steeper.',
    )
  if (compare(level, right) > 0)
    return refuse('angle', 'The leg leans beyond vertical.', 'Type an angle between flat and upright (0° to 90°).')
  return answer(level)
}

/** sin of the angle from horizontal, to 15 digits; exact at 30 and 90 degrees. */
export function riseOfLeg(degrees: Rational): Rational {
  if (compare(degrees, right) === 0) return rational(1)
  if (compare(degrees, rational(30)) === 0) return rational(1, 2)
  return fromNumber(Math.sin((toNumber(degrees) * Math.PI) / 180))
}

/** The angle from horizontal, in degrees, to 15 digits, of a leg that rises by `rise` of its length; exact at 30 and 90 degrees. */
export function angleOfRise(rise: Rational): Rational {
  if (compare(rise, rational(1)) === 0) return right
  if (compare(rise, rational(1, 2)) === 0) return rational(30)
  return fromNumber((Math.asin(Math.min(1, toNumber(rise))) * 180) / Math.PI)
}

/**
 * H/L: how much of its length a leg rises, exact.
 * Refused unless height and length are above 0 and the leg is at least as long as the hook is high.
 */
export function riseFromLengths(height: Rational, length: Rational): Answer<Rational> {
  if (compare(height, zero) <= 0) return refuse('H', 'The hook is not above the load.', 'Type a height above 0.')
  if (compare(length, zero) <= 0) return refuse('L', 'The sling has no length.', 'Type a length above 0.')
  if (compare(length, height) < 0)
    return refuse('L', 'The sling is shorter than the hook is high: it cannot reach.', 'Measure both again.')
  return answer(divide(height, length))
}

export interface AngleRule {
  readonly name: string
  readonly degrees: Rational
  readonly source: string
}

/** Below it no sling is used unless its maker or a qualified person allows it. The angle itself is allowed. */
export const flattestAllowed: AngleRule = {
  name: '30° hard limit',
  degrees: rational(30),
  source: 'ASME B30.9, horizontal sling angle, as quoted by two lifting firms',
}

/** Below it the pull in a leg is more than 1.4 times its share. */
export const flattestAdvised: AngleRule = {
  name: '45° advice',
  degrees: rational(45),
  source: 'Common practice, no published source',
}

export type AngleVerdict = 'allowed' | 'steeper is better' | 'not allowed'

export function judgeAngle(degrees: Rational): AngleVerdict {
  if (compare(degrees, flattestAllowed.degrees) < 0) return 'not allowed'
  return compare(degrees, flattestAdvised.degrees) < 0 ? 'steeper is better' : 'allowed'
}

/** A leg within 5 degrees of upright counts as vertical: 29 CFR 1910.184(b), vertical hitch. */
export function countsAsVertical(fromVertical: Rational): boolean {
  return compare(fromVertical, zero) >= 0 && compare(fromVertical, rational(5)) <= 0
}

/**
 * The angle whose rating holds for an angle that the tag does not list: the next lower one listed (ASME B30.9, as quoted by a lifting firm).
 * Refused below the lowest listed angle.
 */
export function listedAngle(degrees: Rational, listed: readonly Rational[]): Answer<Rational> {
  const lower = listed.filter((each) => compare(each, degrees) <= 0).toSorted(compare)
  const found = lower.at(-1)
  if (found) return answer(found)
  return refuse('angle', 'The leg is flatter than any angle on the tag.', 'Use longer slings, or others.')
}
