import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** Figures that fit more than one lift are no help to the one who picks the sling. What is missing altogether is told by lifting/data-incomplete. */
export const legsUndetermined: Check = {
  name: 'lifting/legs-undetermined',
  severity: 'advice',
  title: 'Sling legs have figures that do not settle how they stand, so their pull is not worked out.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, problem } of loadsOf(procedure).lifts) {
      if (problem?.what !== 'open') continue
      yield { at: block.at, message: `Lift "${block.name}": ${problem.message}`, advice: problem.advice }
    }
  },
}
