import { endsOfTorque } from '../model/passes/torque-facts.ts'
import { jointOfTorque } from '../model/passes/torque-preload.ts'
import type { Procedure } from '../model/procedure.ts'
import type { Torque } from '../model/readings.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import { compare, multiply, one, rational, subtract } from '../quantities/rational.ts'
import { oncePer } from '../text/once-per.ts'
import { gradeChoices } from '../trade/fasteners/bolt-grades.ts'
import { frictionOfRow, type Joint, jointOf, shareAt } from '../trade/fasteners/joint.ts'
import { everyWrittenStep } from './every-step.ts'

/**
 * What a torque does to its fastener, by its middle and its upper end, and what would explain a figure that does not fit. One torque has one
 * verdict, so that no two checks tell the same.
 */
export type FastenerLoad =
  | { readonly is: 'fit' }
  /** Even with friction at the high end of its scatter the upper end goes beyond the proof load. */
  | { readonly is: 'beyond-proof' }
  /** The figure of the other lubrication: `dry` on an oiled thread, or the reverse. */
  | { readonly is: 'other-lubrication'; readonly other: Joint }
  /** The middle of the band is beyond the proof load; `stronger` is the lowest grade that takes it. */
  | { readonly is: 'too-much'; readonly stronger: string | null }

export interface LoadedFastener {
  readonly torque: Torque
  readonly joint: Joint
  /** Parts of the proof load. */
  readonly shareOfMiddle: Rational
  readonly shareOfUpper: Rational
  readonly load: FastenerLoad
}

/** Torques whose fastener, grade and lubrication the tables know, each once however often its step is repeated. */
export function everyLoadedFastener(procedure: Procedure): readonly LoadedFastener[] {
  return everyWrittenStep(procedure).flatMap(({ step }) => step.torques.flatMap(loadedByTorque))
}

const loadedByTorque = oncePer((torque: Torque): readonly LoadedFastener[] => {
  const joint = jointOfTorque(torque)
  const ends = endsOfTorque(torque)
  if (joint === null || ends === null) return []
  const shareOfMiddle = shareAt(joint, ends.middle)
  const shareOfUpper = shareAt(joint, ends.high)
  return [{ torque, joint, shareOfMiddle, shareOfUpper, load: loadOf(joint, ends.middle, ends.high) }]
})

const percent = (value: number): Rational => rational(value, 100)
/** From here the figure of a dry thread on an oiled one is told: 75 % of proof load times 0.20 / 0.15. */
const dryOnOiled = percent(99)
/** A figure that comes out here for the other lubrication was meant for it. */
const explainedFrom = percent(65)
const explainedTo = percent(85)
/** The reverse harms less and may be meant: told only where the figure is that of the oiled thread to a few percent. */
const closeFrom = percent(73)
const closeTo = percent(77)
/** A grade takes a torque that leaves it this much of its proof load. */
const wellWithin = percent(90)

function loadOf(joint: Joint, middle: Rational, upper: Rational): FastenerLoad {
  const least = multiply(shareAt(joint, upper), subtract(one, joint.friction.scatter))
  if (compare(least, one) > 0) return { is: 'beyond-proof' }
  const share = shareAt(joint, middle)
  const other = otherLubrication(joint)
  if (other !== null) {
    const isDry = joint.friction.state === 'dry'
    const [from, to] = isDry ? [closeFrom, closeTo] : [explainedFrom, explainedTo]
    const isExplained = isWithin(shareAt(other, middle), from, to)
    if (isExplained && (isDry || compare(share, dryOnOiled) >= 0)) return { is: 'other-lubrication', other }
  }
  return compare(share, one) > 0 ? { is: 'too-much', stronger: strongerGrade(joint, middle) } : { is: 'fit' }
}

/** The same fastener plain and dry, or oiled. A dry zinc thread and an oiled one are too near one another to tell them apart. */
function otherLubrication({ fastener, friction }: Joint): Joint | null {
  const row = { lubricated: 'plain and dry', 'plain and dry': 'lubricated' }[friction.row]
  const other = row === undefined ? null : frictionOfRow(row)
  return other && jointOf(fastener, other)
}

function isWithin(value: Rational, from: Rational, to: Rational): boolean {
  return compare(value, from) >= 0 && compare(value, to) <= 0
}

/** The weakest grade of the same system that takes the torque; null where none does. */
function strongerGrade({ fastener, friction }: Joint, torque: Rational): string | null {
  const takes = gradeChoices.flatMap((grade) => {
    const joint = jointOf({ ...fastener, grade }, friction)
    const isOfSystem = grade.startsWith('SAE ') === fastener.grade.startsWith('SAE ')
    return joint && isOfSystem && compare(shareAt(joint, torque), wellWithin) <= 0 ? [joint] : []
  })
  const [weakest] = takes.toSorted((a, b) => compare(a.proofLoad, b.proofLoad))
  return weakest?.fastener.grade ?? null
}
