import { printQuantity } from '../../quantities/print-limit.ts'
import type { PrintedLimit, Rational } from '../../quantities/quantity-types.ts'
import { add, divide, fromDecimalText, fromExactText, multiply, rational } from '../../quantities/rational.ts'
import type { TorquePass } from '../readings.ts'

const HUNDRED = rational(100n, 1n)

/**
 * One line a pass. Shares are of `aim`, or of the middle of the band; the last share of 100 % is the band itself.
 *
 *     250 N·m ± 5 %, passes 50 100 %   →  50 % · 125 N·m (92 lbf·ft)   100 % · 238 to 262 N·m (…)
 *     release                          →  loosen fully before the next pass
 *     100 N·m                          →  that torque
 */
export function passesOfTorque(
  limit: PrintedLimit | null,
  passes: readonly string[],
  systems: readonly ('metric' | 'inch')[],
): readonly TorquePass[] {
  return passes.map((typed): TorquePass => {
    if (typed === 'release') return { share: null, text: 'release: loosen fully' }
    const percent = /^(\d+(?:\.\d+)?)\s*%$/.exec(typed)?.[1]
    if (percent === undefined) return { share: null, text: typed }
    if (percent === '100') return { share: '100 %', text: `100 % · ${limit?.text.split(', aim ')[0] ?? ''}` }
    const middle = middleOf(limit)
    if (middle === null || limit === null) return { share: `${percent} %`, text: `${percent} %` }
    const share = fromDecimalText(percent)
    if (share === null) return { share: typed, text: typed }
    const value = divide(multiply(middle, share), HUNDRED)
    const quantity = { typed: '', value, unit: limit.unit, ucum: limit.ucum, kind: limit.kind }
    return { share: `${percent} %`, text: `${percent} % · ${printQuantity(quantity, systems).text}` }
  })
}

function middleOf(limit: PrintedLimit | null): Rational | null {
  if (limit === null) return null
  if (limit.aim !== null) return fromExactText(limit.aim)
  if (limit.lower && limit.upper) return halfway(fromExactText(limit.lower.exact), fromExactText(limit.upper.exact))
  const only = limit.lower ?? limit.upper
  return only && fromExactText(only.exact)
}

function halfway(lower: Rational | null, upper: Rational | null): Rational | null {
  return lower && upper && divide(add(lower, upper), rational(2n, 1n))
}
