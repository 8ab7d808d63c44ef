import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** 30° from vertical are 60° from horizontal: taking one for the other nearly doubles the pull. */
export const angleBaseMissing: Check = {
  name: 'lifting/angle-base-missing',
  severity: 'error',
  title: 'The angle of sling legs does not say what it is measured from.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, problem } of loadsOf(procedure).lifts) {
      if (problem?.what !== 'convention') continue
      yield { at: block.at, message: `Lift "${block.name}": ${problem.message}`, advice: problem.advice }
    }
  },
}
