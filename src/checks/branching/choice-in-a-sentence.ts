import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everySentence } from '../spoken-sentences.ts'

/** Orders that are work of their own; pairs that belong to one adjustment, such as "tighten or slacken", are not among them. */
const other =
  /\bor (?:else )?(heat|use|fit|replace|renew|clean|weld|grind|press|pull|drive|drill|machine|polish|scrap|send|repair|wash|drain|fill) (?:the|it|them|both|a|an|all|each|every|another)\b/i

/** Two ways in one sentence: the sheet has one box, and afterwards nobody knows which of the two was done. */
export const choiceInASentence: Check = {
  name: 'branching/choice-in-a-sentence',
  severity: 'advice',
  title: 'A sentence leaves the choice between two ways of working.',
  rules: ['BR-06'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { text, step, at } of everySentence(procedure)) {
      const found = other.exec(text)
      if (found === null || step.decide !== null) continue
      yield {
        at,
        message: `Step ${step.number} leaves the choice: "… ${text.slice(found.index).replace(/[.!;]$/, '')}". The sheet does not show which was done.`,
        advice:
          'Say which one and when, give each its own step with when: …, or let a decide send the work to one of two branches.',
      }
    }
  },
}
