import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { doersOf, everyWrittenStep } from '../every-step.ts'

/** Nobody sees his own mistake: a hold or a second look that the doer signs alone is no second look. */
export const signedByDoer: Check = {
  name: 'holds/signed-by-doer',
  severity: 'error',
  title: 'A hold is signed only by those who did the step.',
  rules: ['HP-03'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) {
      const doers = doersOf(step)
      for (const kind of ['hold', 'verify'] as const) {
        const signers = step.holds.filter((hold) => hold.kind === kind)
        const [first] = signers
        if (first === undefined || !signers.every((hold) => doers.includes(hold.role))) continue
        yield {
          at: first.at,
          message: `Step ${step.number} is done by ${doers.join(' and ')} and its ${kind} is signed by ${signers.map((hold) => hold.role).join(' and ')}.`,
          advice: 'Let another role sign, or give the step to those who do the work.',
        }
      }
    }
  },
}
