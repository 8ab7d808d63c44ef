import { parseQuantity } from '../../quantities/parse-quantity.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, fromDecimalText, multiply, rational, zero } from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import { betweenUnits } from '../../trade/between-units.ts'
import {
  type Coupling,
  couplingMultiplier,
  durationOf,
  frequencyMultiplier,
  type WorkDuration,
} from '../../trade/handling/frequency.ts'
import type { LengthSystem } from '../../trade/handling/multipliers.ts'
import { peopleNeeded, teamLimit } from '../../trade/handling/people-needed.ts'
import { loadConstant, recommendedWeight, travelOf, type WeightLimit } from '../../trade/handling/recommended-weight.ts'
import { amountOf, countOf, type LoadBlock, textOf, type Weight, weightOf } from './load-data.ts'

/** A lift by hand, by the revised NIOSH lifting equation, as far as its block lets it be followed. Weights in kilograms. */
export interface HandleStudy {
  readonly block: LoadBlock
  readonly weight: Weight | null
  /** People told by `by`; where nothing is told, one. */
  readonly people: number
  readonly isTold: boolean
  /** The harder end of the lift; null where reach or heights are missing. */
  readonly reach: ReachedLift | null
  /** What the equation allows one person under the best conditions there are: no lift by hand is easier. */
  readonly bestForOne: Rational
}

export interface ReachedLift {
  readonly system: LengthSystem
  /** Where the hands are at the harder end. */
  readonly end: 'start' | 'end'
  readonly multipliers: WeightLimit & { readonly fm: Rational; readonly cm: Rational }
  /** What one person may lift there, in kilograms; 0 where the equation allows no weight at all. */
  readonly limit: Rational
  /** What all of them may lift together. */
  readonly teamLimit: Rational
  /** Load over what they may lift together; null where that is nothing. */
  readonly index: Rational | null
  /** People that would do; null where four are not enough. */
  readonly needed: number | null
  /** What nobody told and is taken, for print: `grip not told: taken as poor`. */
  readonly taken: readonly string[]
}

/**
 * What is not told is taken on the strict side, except twist and pace: straight ahead, and no more than one lift in five minutes, for up
 * to an hour, as maintenance mostly is. What is taken is said.
 */
export function studyHandle(block: LoadBlock): HandleStudy {
  const weight = weightOf(block)
  const told = countOf(block, 'by')
  const people = told === null || told === 0 ? 1 : told
  const bestForOne = loadConstant('metric')
  return { block, weight, people, isTold: told !== null, reach: weight && reachOf(block, weight, people), bestForOne }
}

function reachOf(block: LoadBlock, weight: Weight, people: number): ReachedLift | null {
  const given = [
    amountOf(block, 'reach', 'length'),
    amountOf(block, 'from-height', 'length'),
    amountOf(block, 'to-height', 'length'),
  ]
  const [horizontal, from, to] = given
  if (!horizontal || !from || !to || given.some((each) => each && each.numerator < 0n)) return null
  const system = systemOf(textOf(block, 'reach') ?? '')
  const [length, mass] = system === 'inch' ? (['in', 'lb'] as const) : (['cm', 'kg'] as const)
  const inLength = (metres: Rational) => betweenUnits(metres, 'm', length)
  const twist = amountOf(block, 'turn', 'angle')
  const grip = textOf(block, 'grip') as Coupling | null
  const pace = liftsPerMinute(textOf(block, 'rate'))
  const span = amountOf(block, 'for', 'time')
  const duration = span === null || span.numerator <= 0n ? null : durationOf(divide(span, rational(3600)))
  if (duration && !duration.ok) return null
  const taken = [
    ...(twist === null ? ['Twist not told: taken as none.'] : []),
    ...(grip === null ? ['Grip not told: taken as poor.'] : []),
    ...(pace === null ? ['Pace not told: taken as one lift in five minutes or fewer.'] : []),
    ...(duration === null ? ['Time not told: taken as up to 1 h in one go.'] : []),
  ]
  const ends = (['start', 'end'] as const).flatMap((end) => {
    const vertical = inLength(end === 'start' ? from : to)
    const low = compare(vertical, rational(system === 'inch' ? 30 : 75)) < 0
    const fm = frequencyMultiplier(pace ?? zero, (duration?.value ?? 'short') satisfies WorkDuration, low)
    if (!fm.ok) return []
    const cm = couplingMultiplier(grip ?? 'poor', low)
    const limit = recommendedWeight({
      system,
      mode: 'formula',
      horizontal: inLength(horizontal),
      vertical,
      travel: inLength(travelOf(from, to)),
      twist: multiply(twist ?? zero, rational(360)),
      frequencyMultiplier: fm.value,
      couplingMultiplier: cm,
    })
    return limit.ok ? [{ end, multipliers: { ...limit.value, fm: fm.value, cm } }] : []
  })
  const [start, end] = ends
  if (!start || !end) return null
  const harder = compare(end.multipliers.limit, start.multipliers.limit) < 0 ? end : start
  const limit = betweenUnits(harder.multipliers.limit, mass, 'kg')
  const together = teamLimit(limit, people)
  const enough = peopleNeeded(weight.most, limit)
  return {
    system,
    ...harder,
    limit,
    teamLimit: together,
    index: limit.numerator === 0n ? null : divide(weight.most, together),
    needed: enough.ok ? enough.value.people : null,
    taken,
  }
}

/** `2/min`, `2 per minute`, `30/h`. */
function liftsPerMinute(typed: string | null): Rational | null {
  const [, figure = '', unit = ''] =
    /^(\d+(?:\.\d+)?)\s*(?:lifts?\s*)?(?:\/|per|an?)\s*(min|h)/i.exec(typed ?? '') ?? []
  const count = fromDecimalText(figure)
  return count && (unit.toLowerCase() === 'h' ? divide(count, rational(60)) : count)
}

/** The form of the equation in the units of the author. */
function systemOf(reach: string): LengthSystem {
  const parsed = parseQuantity(reach, 'length')
  return parsed.ok && unitBySymbol(parsed.value.unit)?.system === 'inch' ? 'inch' : 'metric'
}
