import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyInstruction } from '../told-instructions.ts'

const reason = /\b(?:because(?: of)?|in order to|due to|the reason (?:is|for)|this is why|owing to)\b/i

/** Why it is so is learnt before the work, not with the spanner in the hand. */
export const reasonInStep: Check = {
  name: 'wording/reason-in-step',
  severity: 'advice',
  title: 'An instruction carries its reason with it.',
  rules: ['SG-19'],

  *run(subject: CheckSubject): Iterable<Fault> {
    for (const { step, text, at } of everyInstruction(subject)) {
      const found = reason.exec(text)?.[0]
      if (found === undefined) continue
      yield {
        at,
        message: `Step ${step.number} explains itself: "${text.slice(text.indexOf(found)).trim()}"`,
        advice:
          found.toLowerCase() === 'in order to'
            ? 'Write only "to", or put the reason in a bullet below the step.'
            : 'Put the reason in a bullet below the step, or in the text of the phase.',
      }
    }
  },
}
