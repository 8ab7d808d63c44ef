import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'

/** Words that say that somebody looked or agreed, and not at what. */
const empty =
  /\b(?:i|we|he|have|has|had|is|are|was|it|this|that|the|a|an|all|step|steps|work|job|everything|okay|ok|yes|good|fine|done|complete|completed|correct|in order|checked|check|inspected|looked|seen|saw|witnessed|verified|confirmed|approved|accepted|agreed|released|signed|sign|informed|called|notified|hold|point|here|and|now|to|for|by|supervisor|safety officer|inspector|foreman)\b/gi

/** A signature under "OK" is a signature for nothing. */
export const criterionMissing: Check = {
  name: 'holds/criterion-missing',
  severity: 'error',
  title: 'A signature does not say what was seen.',
  rules: ['HP-01'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const { roles } = procedure
    for (const { step } of everyWrittenStep(procedure)) {
      for (const { kind, role, says, at } of step.holds) {
        // Missing altogether, or still to be filled in: told by the schema.
        if (says.trim() === '' || says.includes('??')) continue
        const known = roles.reduce((text, { id }) => text.replaceAll(id, ' '), says)
        if (/[\p{L}\p{N}]/u.test(known.replace(empty, ' '))) continue
        yield {
          at,
          message: `The ${kind} of step ${step.number} is signed by ${role} under "${says}". It does not say what must be seen.`,
          advice: `Write what the ${role} looks at and how it must be, as a sentence to sign: ${role}: I saw …`,
        }
      }
    }
  },
}
