import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import type { ReadSentence } from '../instruction.ts'
import { everyInstruction } from '../told-instructions.ts'

const reckoning = new Set(['calculate', 'compute', 'average', 'divide', 'multiply', 'subtract', 'deduct'])

/** A sum on the back of the hand is checked by nobody. */
export const workedOutInHead: Check = {
  name: 'numbers/worked-out-in-head',
  severity: 'advice',
  title: 'A step asks for a sum, and the sheet has no blanks for it.',
  rules: ['NU-12'],

  *run(subject: CheckSubject): Iterable<Fault> {
    for (const { step, sentences, at } of everyInstruction(subject)) {
      if (step.readings.length > 0 || step.steps.length > 0) continue
      const told = sentences.map(sumIn).find((verb) => verb !== null)
      if (!told) continue
      yield {
        at,
        message: `Step ${step.number} says "${told}", but neither the sum nor its figures have a blank.`,
        advice:
          'Add `derive: { name: formula }`, such as `mean-wear: mean(wear)`: the print gives the sum with a blank for each figure.',
      }
    }
  },
}

function sumIn({ words, actions }: ReadSentence): string | null {
  for (const at of actions) {
    const verb = words[at]?.low ?? ''
    if (reckoning.has(verb)) return verb
    if (verb === 'work' && words[at + 1]?.low === 'out') return 'work out'
  }
  return null
}
