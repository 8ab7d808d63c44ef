import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyJudgedLimit } from '../judged-limits.ts'

/** "45 mm" and nothing else: 45.1 mm is then right to one fitter and wrong to the next. */
export const nominalWithoutTolerance: Check = {
  name: 'readings/nominal-without-tolerance',
  severity: 'error',
  title: 'A value is given without saying how far from it is still good.',
  rules: ['NU-05'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { name, limit, at } of everyJudgedLimit(procedure)) {
      // A limit that could not be read at all has no kind and is reported as that.
      if (limit.form !== 'nominal' || limit.kind === '') continue
      const value = limit.typed
      yield {
        at,
        message: `"${name}" shall be ${value}, but nothing says how far from it is still good.`,
        advice: `Write a range, one side, or a tolerance: ${value} ± …, max ${value}, or min ${value}.`,
      }
    }
  },
}
