import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { compareExact } from '../exact-number.ts'
import { everyJudgedLimit } from '../judged-limits.ts'

/** The lower end stands above the upper: whatever is read is out of limit, or the two were typed the wrong way round. */
export const limitsCrossed: Check = {
  name: 'readings/limits-crossed',
  severity: 'error',
  title: 'A limit has its lower end above its upper end.',
  rules: ['NU-13'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { name, limit, at } of everyJudgedLimit(procedure)) {
      const { lower, upper } = limit
      if (lower === null || upper === null || compareExact(lower.exact, upper.exact) <= 0) continue
      const message = `"${name}" runs from ${lower.exact} ${limit.unit} up to ${upper.exact} ${limit.unit}: no reading can be both.`
      yield { at, message, advice: 'Write the smaller value first.' }
    }
  },
}
