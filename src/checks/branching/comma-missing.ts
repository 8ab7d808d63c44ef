import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everySentence } from '../spoken-sentences.ts'

const conditional = /^(?:if|when|whenever|unless|as soon as|in case|once (?:the|it|all|both|every|each|they))\b/i

/** Without the comma nobody sees where the condition ends and the work begins. */
export const commaMissing: Check = {
  name: 'branching/comma-missing',
  severity: 'advice',
  title: 'Nothing parts a condition from what is to be done.',
  rules: ['BR-05'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { text, step, at } of everySentence(procedure)) {
      if (!conditional.test(text) || /[,:;–—]/.test(text) || text.split(/\s+/).length < 4) continue
      yield {
        at,
        message: `Step ${step.number} begins with a condition, and no comma shows where it ends: "${text}"`,
        advice: 'Put a comma between the condition and what is to be done.',
      }
    }
  },
}
