import { inBase } from '../model/passes/worked-figures.ts'
import type { Resource } from '../model/resources.ts'
import type { Bound, Rational } from '../quantities/quantity-types.ts'
import { compare } from '../quantities/rational.ts'
import { instrumentData } from './instruments.ts'

/** The range of a torque wrench in N·m; null ends where it is open or not given, null where it is no range of torques. */
export function wrenchRange(tool: Resource): { readonly low: Rational | null; readonly high: Rational | null } | null {
  const { range } = instrumentData(tool)
  if (range?.kind !== 'torque') return null
  const end = (bound: Bound | null) => bound && inBase(bound.value, range.unit)
  return { low: end(range.lower), high: end(range.upper) }
}

/** Whether a setting in N·m lies above the range of the wrench. */
export function isAboveRange(tool: Resource, setting: Rational): boolean {
  const high = wrenchRange(tool)?.high ?? null
  return high !== null && compare(setting, high) > 0
}

export function isBelowRange(tool: Resource, setting: Rational): boolean {
  const low = wrenchRange(tool)?.low ?? null
  return low !== null && compare(setting, low) < 0
}
