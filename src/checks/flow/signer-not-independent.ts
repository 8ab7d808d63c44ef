import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { doersOf, everyWrittenStep } from '../every-step.ts'
import { told } from '../from-flow.ts'

/** Nobody sees his own mistake: a hold or a second look that the doer signs alone is no second look. */
export const signerNotIndependent: Check = {
  name: 'flow/signer-not-independent',
  severity: 'error',
  title: 'Whoever did the work signs for it.',
  rules: ['HP-03', 'HP-05'],

  *run({ procedure, flow }: CheckSubject): Iterable<Fault> {
    const toldOf = new Set<string>()
    for (const { step } of everyWrittenStep(procedure)) {
      const doers = doersOf(step)
      for (const kind of ['hold', 'verify'] as const) {
        const signers = step.holds.filter((hold) => hold.kind === kind)
        const [first] = signers
        if (first === undefined || !signers.every((hold) => doers.includes(hold.role))) continue
        toldOf.add(step.id)
        yield {
          at: first.at,
          message: `Step ${step.number} is done by ${doers.join(' and ')} and its ${kind} is signed by ${signers.map((hold) => hold.role).join(' and ')}.`,
          advice: 'Let another role sign, or give the step to those who do the work.',
        }
      }
    }
    // Signed by another than the doer of the step, but by the one who made the change that it proves.
    for (const fault of flow?.faults ?? [])
      if (fault.fault === 'signer-not-independent' && !toldOf.has(fault.step ?? '')) yield told(fault)
  },
}
