import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'

/** A second person who only ticks what the first one wrote has read nothing. */
export const verifyWithoutReading: Check = {
  name: 'holds/verify-without-reading',
  severity: 'warning',
  title: 'A second person verifies, and has no blank for what he found.',
  rules: ['HP-05'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) {
      const verify = step.holds.find(({ kind }) => kind === 'verify')
      if (verify === undefined || step.readings.length > 0 || step.torques.length > 0) continue
      yield {
        at: verify.at,
        message: `The ${verify.role} verifies step ${step.number} by himself, and the step has no blank for what he found.`,
        advice:
          'Give the step a measure or check of its own that the second person fills in, or write hold where looking is enough.',
      }
    }
  },
}
