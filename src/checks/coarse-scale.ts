import { lastPlaceOf } from '../quantities/accuracy.ts'
import { exactNumberText } from '../quantities/number-text.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import { absolute, compare, divide, multiply, rational } from '../quantities/rational.ts'
import { bandOf, endsOf, type InstrumentUse } from './instruments.ts'

/** A wrench is set and not read, so that the mark of the aim and one to each side are enough. */
const STEPS_WANTED_TO_SET = rational(3)
/** A one-sided limit needs no mark of its own where the scale is fine enough; on a mark, a few steps below it will do. */
const FEWEST_BELOW = rational(3)

/** Why an instrument with this step cannot judge the limit, in words; null where it can. */
export function whyTooCoarse(
  use: Pick<InstrumentUse, 'kind' | 'limit'>,
  step: Rational,
  wanted: Rational,
): string | null {
  const band = bandOf(use.limit)
  if (band?.isTwoSided) {
    const steps = divide(band.width, step)
    const least = use.kind === 'torque' ? STEPS_WANTED_TO_SET : wanted
    return compare(steps, least) < 0
      ? `${countText(steps)} between the ends, and ${exactNumberText(least)} are wanted`
      : null
  }
  const { lower, upper } = endsOf(use.limit)
  const end = upper ?? lower
  if (end === null || (upper !== null && lower !== null)) return null
  const place = placeAsTyped(end, use.limit.typed)
  if (place === null || compare(step, place) <= 0) return null
  const steps = divide(absolute(end), step)
  const text = `${exactNumberText(end)} ${use.limit.unit}`
  if (steps.denominator !== 1n && compare(steps, wanted) < 0) return `none of them stands at ${text}`
  return compare(steps, FEWEST_BELOW) < 0 ? `${countText(steps)} up to ${text}` : null
}

/** Of a fraction that was typed as one, its part: 1/32 in is told by marks of 1/32 in. */
function placeAsTyped(end: Rational, typed: string): Rational | null {
  return typed.includes('/') && end.denominator > 1n ? rational(1n, end.denominator) : lastPlaceOf(end)
}

function countText(steps: Rational): string {
  const whole = steps.numerator / steps.denominator
  if (whole === 0n) return 'not one'
  const isMore = multiply(rational(whole), rational(steps.denominator)).numerator !== steps.numerator
  return `${isMore ? 'little more than ' : 'only '}${whole}`
}
