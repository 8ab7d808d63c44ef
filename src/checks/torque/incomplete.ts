import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'

/** A torque means nothing without the thread it turns: dry or oiled, the same torque gives a very different clamp. */
export const torqueIncomplete: Check = {
  name: 'torque/incomplete',
  severity: 'warning',
  title: 'A torque does not say which fastener it is for, or how its thread is lubricated.',
  rules: ['NU-20'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) {
      for (const torque of step.torques) {
        const missing = [
          ...(torque.fastener === null ? ['the fastener (4 × M20 8.8)'] : []),
          ...(torque.lubrication === null ? ['the lubrication (dry, oiled, …)'] : []),
        ]
        if (missing.length === 0) continue
        yield {
          at: torque.at,
          message: `The torque "${torque.name}" does not say ${missing.map((part) => part.split(' (')[0]).join(' or ')}.`,
          advice: `Add ${missing.join(' and ')} behind the torque.`,
        }
      }
    }
  },
}
