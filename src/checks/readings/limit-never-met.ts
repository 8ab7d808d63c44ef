import type { Fault } from '../../findings/finding.ts'
import type { PrintedLimit } from '../../quantities/quantity-types.ts'
import type { Check, CheckSubject } from '../check.ts'
import { compareExact } from '../exact-number.ts'
import { everyJudgedLimit } from '../judged-limits.ts'

/** A limit that nothing measurable can meet: the step can never be signed honestly. */
export const limitNeverMet: Check = {
  name: 'readings/limit-never-met',
  severity: 'error',
  title: 'No reading can be within this limit.',
  rules: ['NU-13'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { name, limit, at } of everyJudgedLimit(procedure)) {
      const why = whyNeverMet(limit)
      if (why === null) continue
      yield { at, message: `"${name}", ${limit.typed}: ${why}.`, advice: 'Write a limit that a good part meets.' }
    }
  },
}

/** Kinds of quantity that have no negative values. */
const neverNegative = ['mass', 'time', 'area', 'volume', 'rotational-speed', 'frequency', 'resistance']

function whyNeverMet({ lower, upper, kind }: PrintedLimit): string | null {
  if (lower && upper && compareExact(lower.exact, upper.exact) === 0 && !(lower.inclusive && upper.inclusive))
    return 'its two ends are the same value and one of them does not count'
  if (upper === null || !neverNegative.includes(kind)) return null
  const side = compareExact(upper.exact, '0')
  if (side < 0) return 'it asks for less than nothing'
  return side === 0 && !upper.inclusive ? 'it asks for less than nothing' : null
}
