import { shown } from '../model/passes/worked-figures.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import { multiply, one, rational, roundNearest } from '../quantities/rational.ts'
import type { Joint } from '../trade/fasteners/joint.ts'
import type { LoadedFastener } from './fastener-load.ts'

/** How findings speak of a fastener and what it takes. */

/** `an M16 10.9, oiled` as the author typed it. */
export function fastenerText({ torque }: LoadedFastener): string {
  const one = (torque.fastener ?? '').replace(/^\d+\s*[×x]\s*/, '')
  return `${one}, ${torque.lubrication ?? ''}`
}

/** `136 %` */
export function percentText(share: Rational): string {
  return `${roundNearest(multiply(share, rational(100)), one).numerator} %`
}

/** `An oiled M20 8.8 takes about 330 N·m (75 % of its proof load).` */
export function takesText(loaded: LoadedFastener): string {
  return `${fastenerText(loaded)} usually gets about ${usualText(loaded.joint, loaded)} (75 % of proof load).`
}

/** The usual torque of a joint in the unit that the author typed. */
export function usualText(joint: Joint, { torque }: LoadedFastener): string {
  return shown(joint.usualTorque, torque.limit.unit)
}
