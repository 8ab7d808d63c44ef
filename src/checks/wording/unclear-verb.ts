import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { findExpressions } from '../find-expressions.ts'
import { everyInstruction, wordsFor } from '../told-instructions.ts'

/** "Make sure the valve is closed": is it looked at, or closed? */
export const unclearVerb: Check = {
  name: 'wording/unclear-verb',
  severity: 'advice',
  title: 'An order does not say what the hands or eyes do.',
  rules: ['SG-13'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const { unclear } = wordsFor(subject)
    for (const { step, sentences, at } of everyInstruction(subject))
      for (const { words, actions } of sentences)
        for (const found of findExpressions(words, unclear)) {
          if (!actions.includes(found.at)) continue
          yield {
            at,
            message: `"${found.typed}" in step ${step.number} does not say what is done.`,
            advice: `Write ${found.says}.`,
          }
        }
  },
}
