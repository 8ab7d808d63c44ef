import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { stepsBelow } from '../every-step.ts'

/**
 *     3. Decide …     ← reported: who takes a branch never comes to step 4
 *     4. Tighten …
 */
export const decideNotLast: Check = {
  name: 'flow/decide-not-last',
  severity: 'error',
  title: 'A decision has steps of its phase behind it.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { steps } of procedure.phases) {
      for (const step of stepsBelow(steps)) {
        if (step.decide === null || step === steps.at(-1)) continue
        const entry = step.entries.find(({ key }) => key === 'decide')
        yield {
          at: entry?.at ?? step.at,
          message: `Step ${step.number} decides where to go on, but it is not the last step of its phase.`,
          advice: 'Move the steps behind it into a branch (###) or into a phase of their own (##).',
        }
      }
    }
  },
}
