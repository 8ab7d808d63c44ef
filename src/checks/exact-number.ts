import { compare, fromExactText, zero } from '../quantities/rational.ts'

/** Compares two exact numbers of a printed limit, `7` or `-3/8`: below zero where the first is smaller. */
export function compareExact(a: string, b: string): number {
  return compare(fromExactText(a) ?? zero, fromExactText(b) ?? zero)
}
