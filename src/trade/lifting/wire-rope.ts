import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, fromDecimalText, multiply, rational, smaller, zero } from '../../quantities/rational.ts'
import { nearestName } from '../../text/nearest-name.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import { wireRopeShortTons } from './hitch.ts'

/**
 * Rated load of wire rope slings, one leg straight, in short tons: 6 × 19 and 6 × 36, extra improved plow steel, independent wire rope
 * core, mechanical splice, design factor 5. Table of wire rope sling makers after ASME B30.9, from memory.
 */
const shortTons = new Map(
  '1/4 0.65, 5/16 1.0, 3/8 1.4, 7/16 1.9, 1/2 2.5, 9/16 3.2, 5/8 3.9, 3/4 5.6, 7/8 7.6, 1 9.8'
    .split(', ')
    .map((row) => row.split(' ') as [string, string]),
)

/** `rule-of-thumb`: 8 D²; `stricter`: the smaller of table and rule. */
export type WireRopeMode = 'table' | 'rule-of-thumb' | 'stricter'

export const wireRopeSizes: readonly string[] = [...shortTons.keys()]

/** Rating of one straight leg in short tons. Refused for sizes that the table does not hold. The tag of the sling comes first. */
export function wireRopeRating(size: string, mode: WireRopeMode = 'stricter'): Answer<Rational> {
  const printed = fromDecimalText(shortTons.get(size) ?? '')
  if (!printed) {
    const near = nearestName(size, wireRopeSizes)
    return refuse(
      'size',
      `There is no wire rope sling of ${size} in in the table.`,
      near === null ? `Type one of: ${wireRopeSizes.join(', ')}.` : `Did you mean ${near}?`,
    )
  }
  if (mode === 'table') return answer(printed)
  const byRule = wireRopeShortTons(inchesOf(size))
  if (!byRule.ok) return byRule
  return answer(mode === 'rule-of-thumb' ? byRule.value : smaller(printed, byRule.value))
}

/** The temperatures between which a sling may be used as rated, in °F. From memory, 29 CFR 1910.184(f)(3), (h), (i)(8). */
export const temperatureLimits = {
  'wire rope, fibre core': { coldest: rational(-60), hottest: rational(200) },
  'wire rope, wire core': { coldest: rational(-60), hottest: rational(400) },
  'synthetic webbing': { coldest: rational(-40), hottest: rational(180) },
  'fibre rope': { coldest: rational(-20), hottest: rational(180) },
} as const

export type SlingMaterial = keyof typeof temperatureLimits

/** Whether a sling that is no chain may be used at a temperature in °F. Beyond it: ask the maker. */
export function mayBeUsedAt(fahrenheit: Rational, material: SlingMaterial): boolean {
  const { coldest, hottest } = temperatureLimits[material]
  return compare(fahrenheit, coldest) >= 0 && compare(fahrenheit, hottest) <= 0
}

function inchesOf(size: string): Rational {
  const [above = '0', below = '1'] = size.split('/')
  return below === '1'
    ? (fromDecimalText(above) ?? zero)
    : multiply(rational(BigInt(above)), rational(1n, BigInt(below)))
}
