import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyInstruction } from '../told-instructions.ts'

/** What ends it, how often, or on what else it is done. */
const ends =
  /\b(?:until|till|times?|twice|once|each|every|both|other|another|on|at|for|with|from|if|as long as|while|\d+)\b/i

/** "Repeat the bleeding": how often, and when is it enough? */
export const repeatWithoutEnd: Check = {
  name: 'numbers/repeat-without-end',
  severity: 'warning',
  title: 'A step says to repeat something and not how often or until when.',
  rules: ['NU-18'],

  *run(subject: CheckSubject): Iterable<Fault> {
    for (const { step, sentences, at } of everyInstruction(subject)) {
      if (step.redoes.length > 0 || step.consequences.length > 0) continue
      for (const { words, order, typed } of sentences) {
        if (words[order]?.low !== 'repeat' || ends.test(typed)) continue
        yield {
          at,
          message: `Step ${step.number} has no end: "${typed}"`,
          advice:
            'Say until when and at most how often: `else: { redo: …, at-most: 3 }` at the reading that ends it, or `repeat:`.',
        }
      }
    }
  },
}
