import type { Fault } from '../../findings/finding.ts'
import type { Step } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import type { ReadSentence } from '../instruction.ts'
import { everyInstruction } from '../told-instructions.ts'

/** What is written on a scrap of paper is not in the record. */
export const recordWithoutBlank: Check = {
  name: 'wording/record-without-blank',
  severity: 'warning',
  title: 'A step says to write something down, and the sheet has no blank for it.',
  rules: ['SG-13', 'NU-07'],

  *run(subject: CheckSubject): Iterable<Fault> {
    for (const { step, sentences, at } of everyInstruction(subject)) {
      if (hasBlank(step)) continue
      const told = sentences.map(recordedWith).find((verb) => verb !== null)
      if (!told) continue
      yield {
        at,
        message: `Step ${step.number} says "${told}", but it has no blank to write in.`,
        advice:
          'Add `measure:`, `count:` or `check:` to its block: each gives a blank, and what is written can be judged.',
      }
    }
  },
}

const hasBlank = (step: Step): boolean =>
  step.readings.length > 0 || step.holds.length > 0 || step.torques.length > 0 || step.steps.some(hasBlank)

/** `record`, `write down`, `note`: the order as typed. "Write the card" and "note that" write nothing on the sheet. */
function recordedWith({ words, actions }: ReadSentence): string | null {
  for (const at of actions) {
    const verb = words[at]?.low ?? ''
    const rest = words.slice(at + 1, at + 9).map(({ low }) => low)
    if (verb === 'record' || verb === 'log') return verb
    if (verb === 'note' && rest[0] !== 'that' && rest[0] !== 'how') return verb
    if (
      (verb === 'write' || verb === 'take') &&
      rest.slice(0, verb === 'take' ? 1 : 8).includes('down') &&
      verb === 'write'
    )
      return 'write down'
  }
  return null
}
