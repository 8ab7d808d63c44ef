import type { Rational } from '../../quantities/quantity-types.ts'
import {
  absolute,
  add,
  compare,
  divide,
  fromDecimalText,
  multiply,
  one,
  rational,
  subtract,
  zero,
} from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'

/*
 * Multipliers of the revised NIOSH lifting equation.
 *
 * Source: Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, rev. 9/2021, section 1.3 and tables 1 to 4
 * (tables taken from public transcriptions; rows not seen there are marked "from memory" below).
 *
 *     HM = 10/H                  or 25/H cm
 *     VM = 1 - 0.0075 |V - 30|   or 1 - 0.003 |V - 75| cm
 *     DM = 0.82 + 1.8/D          or 0.82 + 4.5/D cm
 *     AM = 1 - 0.0032 A
 *
 * Formulas are worked out exactly. The tables print two decimals and differ from the formulas in places: the horizontal table in
 * inches prints .46 and .44 at 22 and 23 in where the formula gives .45 and .43; the distance table in centimetres prints .86 at
 * 130 cm where the formula gives .85. Which one is used is always said.
 */

/** Lengths in inches or centimetres; the two forms of the equation differ by up to 1 % by design. */
export type LengthSystem = 'inch' | 'metric'

/** `formula`: exact; `table`: the printed two decimals of the next row that is not more favourable. */
export type MultiplierMode = 'formula' | 'table'

export type MultiplierName = 'horizontal' | 'vertical' | 'distance' | 'asymmetry'

/** Rows `place multiplier`, comma between. A place between two rows takes the smaller multiplier of the two. */
const printed: Readonly<Record<MultiplierName, Readonly<Record<LengthSystem, string>>>> = {
  horizontal: {
    inch: '10 1, 11 .91, 12 .83, 13 .77, 14 .71, 15 .67, 16 .63, 17 .59, 18 .56, 19 .53, 20 .50, 21 .48, 22 .46, 23 .44, 24 .42, 25 .40',
    metric:
      '25 1, 28 .89, 30 .83, 32 .78, 34 .74, 36 .69, 38 .66, 40 .63, 42 .60, 44 .57, 46 .54, 48 .52, 50 .50, 52 .48, 54 .46, 56 .45, 58 .43, 60 .42, 63 .40',
  },
  // Rows between 0, 30, 50 and 70 in and the metric column are from memory.
  vertical: {
    inch: '0 .78, 5 .81, 10 .85, 15 .89, 20 .93, 25 .96, 30 1, 35 .96, 40 .93, 45 .89, 50 .85, 55 .81, 60 .78, 65 .74, 70 .70',
    metric:
      '0 .78, 10 .81, 20 .84, 30 .87, 40 .90, 50 .93, 60 .96, 70 .99, 80 .99, 90 .96, 100 .93, 110 .90, 120 .87, 130 .84, 140 .81, 150 .78, 160 .75, 170 .72, 175 .70',
  },
  // From memory.
  distance: {
    inch: '10 1, 15 .94, 20 .91, 25 .89, 30 .88, 35 .87, 40 .87, 45 .86, 50 .86, 55 .85, 60 .85, 70 .85',
    metric: '25 1, 40 .93, 55 .90, 70 .88, 85 .87, 100 .87, 115 .86, 130 .86, 145 .85, 160 .85, 175 .85',
  },
  asymmetry: {
    inch: '0 1, 15 .95, 30 .90, 45 .86, 60 .81, 75 .76, 90 .71, 105 .66, 120 .62, 135 .57',
    metric: '0 1, 15 .95, 30 .90, 45 .86, 60 .81, 75 .76, 90 .71, 105 .66, 120 .62, 135 .57',
  },
}

const mostAsymmetry = rational(135)

/** Per system: the smallest H and D that count, the largest of H, V, D, and the best height. */
const limits: Readonly<
  Record<LengthSystem, Readonly<Record<'least' | 'mostH' | 'mostV' | 'mostD' | 'best', Rational>>>
> = {
  inch: { least: rational(10), mostH: rational(25), mostV: rational(70), mostD: rational(70), best: rational(30) },
  metric: { least: rational(25), mostH: rational(63), mostV: rational(175), mostD: rational(175), best: rational(75) },
}

/** HM for hands `distance` in front of the ankles. Below 10 in (25 cm) counts as that; above 25 in (63 cm) it is 0. */
export function horizontalMultiplier(distance: Rational, system: LengthSystem, mode: MultiplierMode): Answer<Rational> {
  const { least, mostH } = limits[system]
  if (compare(distance, zero) < 0) return negative('H', 'distance of the hands in front of the ankles')
  if (compare(distance, mostH) > 0) return answer(zero)
  if (compare(distance, least) <= 0) return answer(one)
  return answer(mode === 'formula' ? divide(least, distance) : fromTable('horizontal', distance, system))
}

/** VM for hands `height` above the floor. Above 70 in (175 cm) it is 0. */
export function verticalMultiplier(height: Rational, system: LengthSystem, mode: MultiplierMode): Answer<Rational> {
  const { mostV, best } = limits[system]
  if (compare(height, zero) < 0) return negative('V', 'height of the hands above the floor')
  if (compare(height, mostV) > 0) return answer(zero)
  if (mode === 'table') return answer(fromTable('vertical', height, system))
  const slope = system === 'inch' ? rational(75, 10000) : rational(3, 1000)
  return answer(subtract(one, multiply(slope, absolute(subtract(height, best)))))
}

/** DM for a vertical travel. Below 10 in (25 cm) counts as that; above 70 in (175 cm) it is 0. */
export function distanceMultiplier(travel: Rational, system: LengthSystem, mode: MultiplierMode): Answer<Rational> {
  const { least, mostD } = limits[system]
  if (compare(travel, zero) < 0) return negative('D', 'vertical travel')
  if (compare(travel, mostD) > 0) return answer(zero)
  if (compare(travel, least) <= 0) return answer(one)
  if (mode === 'table') return answer(fromTable('distance', travel, system))
  const share = system === 'inch' ? rational(18, 10) : rational(45, 10)
  return answer(add(rational(82, 100), divide(share, travel)))
}

/** AM for a twist in degrees, 0 straight ahead. Above 135 degrees it is 0. */
export function asymmetryMultiplier(degrees: Rational, mode: MultiplierMode): Answer<Rational> {
  if (compare(degrees, zero) < 0) return negative('A', 'angle of twist')
  if (compare(degrees, mostAsymmetry) > 0) return answer(zero)
  if (mode === 'table') return answer(fromTable('asymmetry', degrees, 'inch'))
  return answer(subtract(one, multiply(rational(32, 10000), degrees)))
}

/**
 * H where it cannot be measured, from the depth `depth` of the box in the direction away from the body:
 * 8 + W/2 in (20 + W/2 cm) for V of 10 in (25 cm) and more, 10 + W/2 (25 + W/2) below. Same manual, section 1.3 (hand location).
 */
export function estimatedHorizontal(depth: Rational, height: Rational, system: LengthSystem): Answer<Rational> {
  if (compare(depth, zero) < 0) return negative('W', 'depth of the load')
  if (compare(height, zero) < 0) return negative('V', 'height of the hands above the floor')
  const low = compare(height, limits[system].least) < 0
  const reach = system === 'inch' ? rational(low ? 10 : 8) : rational(low ? 25 : 20)
  return answer(add(reach, divide(depth, rational(2))))
}

function fromTable(name: MultiplierName, place: Rational, system: LengthSystem): Rational {
  const rows = printed[name][system].split(', ').map((row) => {
    const [at = '', value = ''] = row.split(' ')
    return { at: fromDecimalText(at) ?? zero, value: fromDecimalText(value) ?? zero }
  })
  const above = rows.findIndex(({ at }) => compare(at, place) >= 0)
  const upper = rows[above]
  if (!upper) return zero
  const lower = rows[above - 1]
  if (compare(upper.at, place) === 0 || !lower) return upper.value
  return compare(lower.value, upper.value) < 0 ? lower.value : upper.value
}

function negative(input: string, what: string): Answer<Rational> {
  return refuse(input, `The ${what} is negative.`, 'Type it as a length or angle of 0 or more.')
}
