import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** A weight from a drawing, a plate or a guess is not the weight on the hook; how sure it is decides which gear is enough. */
export const weightWithoutAllowance: Check = {
  name: 'lifting/weight-without-allowance',
  severity: 'warning',
  title: 'A lift does not say how sure its weight is.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, weight } of loadsOf(procedure).lifts) {
      if (weight === null || weight.hasAllowance) continue
      yield {
        at: block.at,
        message: `"${block.name}" weighs ${weight.typed}, and it is not said how sure that is.`,
        advice: `Write ${weight.typed.replace(/\s*\(.*\)$/, '')} ± 10 %, or ± 0 % where it was weighed as it hangs.`,
      }
    }
  },
}
