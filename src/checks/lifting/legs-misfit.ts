import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** Lengths that do not meet, an angle beyond upright, a weight outside the hook points: such a lift cannot be rigged as written. */
export const legsMisfit: Check = {
  name: 'lifting/legs-misfit',
  severity: 'error',
  title: 'The figures of the sling legs contradict one another, or cannot be rigged.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, problem } of loadsOf(procedure).lifts) {
      if (problem?.what !== 'misfit') continue
      yield { at: block.at, message: `Lift "${block.name}": ${problem.message}`, advice: problem.advice }
    }
  },
}
