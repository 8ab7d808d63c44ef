import { convertValue } from '../quantities/convert.ts'
import type { Rational } from '../quantities/quantity-types.ts'

/** Exact, between two symbols of one kind that the program itself names. Throws Error for others: a slip of ours, never of an author. */
export function betweenUnits(value: Rational, from: string, to: string): Rational {
  const converted = convertValue(value, from, to)
  if (!converted.ok) throw new Error(`${from} to ${to}: ${converted.problem.message}`)
  return converted.value
}
