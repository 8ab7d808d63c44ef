import type { Rational } from '../../quantities/quantity-types.ts'
import { absolute, compare, divide, multiply, one, rational, subtract, zero } from '../../quantities/rational.ts'
import { type Answer, answer, firstRefused, refuse } from '../answer.ts'
import {
  asymmetryMultiplier,
  distanceMultiplier,
  horizontalMultiplier,
  type LengthSystem,
  type MultiplierMode,
  verticalMultiplier,
} from './multipliers.ts'

/*
 * Recommended weight limit and lifting index of the revised NIOSH lifting equation.
 *
 *     RWL = LC HM VM DM AM FM CM        LC = 51 lb or 23 kg
 *     LI = load / RWL                   FILI = load / FIRWL, where FIRWL leaves FM out
 *
 * Source: Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, rev. 9/2021, section 1.3; composite: section 3.
 * 51 lb is 23.13 kg: results in pounds and kilograms differ by 0.6 % by design.
 * Valid for two-handed lifting without slipping, jerking, sitting or kneeling, between 19 and 26 °C (66 and 79 °F), up to 8 hours.
 * It says nothing for one hand, for people lifting together, for shovels or barrows. Exact; a negative input is refused.
 * The manual rounds each multiplier to two decimals first, so its printed results differ by up to 0.2 lb.
 */

export interface HandLift {
  readonly system: LengthSystem
  readonly mode: MultiplierMode
  readonly horizontal: Rational
  readonly vertical: Rational
  readonly travel: Rational
  readonly twist: Rational
  readonly frequencyMultiplier: Rational
  readonly couplingMultiplier: Rational
}

export interface WeightLimit {
  readonly hm: Rational
  readonly vm: Rational
  readonly dm: Rational
  readonly am: Rational
  /** In pounds for inches, in kilograms for centimetres. */
  readonly limit: Rational
  /** The limit if the lift were done now and then: without FM. */
  readonly frequencyIndependent: Rational
}

/** D between the heights of the hands at the start and at the end, up or down. */
export function travelOf(start: Rational, end: Rational): Rational {
  return absolute(subtract(end, start))
}

/** LC in pounds or kilograms. */
export function loadConstant(system: LengthSystem): Rational {
  return rational(system === 'inch' ? 51 : 23)
}

export function recommendedWeight(lift: HandLift): Answer<WeightLimit> {
  const hm = horizontalMultiplier(lift.horizontal, lift.system, lift.mode)
  const vm = verticalMultiplier(lift.vertical, lift.system, lift.mode)
  const dm = distanceMultiplier(lift.travel, lift.system, lift.mode)
  const am = asymmetryMultiplier(lift.twist, lift.mode)
  if (!hm.ok) return hm
  if (!vm.ok) return vm
  if (!dm.ok) return dm
  if (!am.ok) return am
  const constant = loadConstant(lift.system)
  const rest = [hm.value, vm.value, dm.value, am.value, lift.couplingMultiplier]
  const independent = weightFromMultipliers(constant, rest)
  const limit = weightFromMultipliers(constant, [...rest, lift.frequencyMultiplier])
  if (!independent.ok) return independent
  if (!limit.ok) return limit
  return answer({
    hm: hm.value,
    vm: vm.value,
    dm: dm.value,
    am: am.value,
    limit: limit.value,
    frequencyIndependent: independent.value,
  })
}

/** The product of a load constant and multipliers, each from 0 to 1. */
export function weightFromMultipliers(constant: Rational, multipliers: readonly Rational[]): Answer<Rational> {
  const refused = firstRefused(
    compare(constant, zero) > 0 ? null : refuse('LC', 'The load constant must be above 0.', 'It is 51 lb or 23 kg.'),
    multipliers.every((each) => compare(each, zero) >= 0 && compare(each, one) <= 0)
      ? null
      : refuse('multipliers', 'A multiplier is below 0 or above 1.', 'Multipliers lie between 0 and 1.'),
  )
  return refused ?? answer(multipliers.reduce(multiply, constant))
}

/** LI of a load against a limit in the same unit. A limit of 0 means that the lift is not to be done at all, and is refused. */
export function liftingIndex(load: Rational, limit: Rational): Answer<Rational> {
  if (compare(load, zero) <= 0) return refuse('load', 'The load must be above 0.', 'Type the weight of the load.')
  if (compare(limit, zero) < 0) return refuse('RWL', 'The weight limit is negative.', 'Type a weight of 0 or more.')
  if (compare(limit, zero) === 0)
    return refuse(
      'RWL',
      'The weight limit is 0: a distance, twist or pace is outside what the equation allows for any weight.',
      'Change the lift, or use a hoist.',
    )
  return answer(divide(load, limit))
}

export type IndexVerdict = 'most people can do it' | 'some people are at risk' | 'nearly everyone is at risk'

/** Up to 1, up to 3, above 3: the manual's own marks. */
export function indexVerdict(index: Rational): IndexVerdict {
  if (compare(index, one) <= 0) return 'most people can do it'
  return compare(index, rational(3)) <= 0 ? 'some people are at risk' : 'nearly everyone is at risk'
}
