import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import type { ReadSentence } from '../instruction.ts'
import { everyInstruction } from '../told-instructions.ts'
import { particles } from '../word-kinds.ts'

const mostActions = 3

/** One tick for four actions: whoever is called away after the second does not know where to go on. */
export const severalActions: Check = {
  name: 'wording/several-actions',
  severity: 'warning',
  title: 'A step asks for more than three actions under one tick.',
  rules: ['SG-01'],

  *run(subject: CheckSubject): Iterable<Fault> {
    for (const { step, sentences, at } of everyInstruction(subject)) {
      const actions = sentences.flatMap(actionsIn)
      if (actions.length <= mostActions) continue
      yield {
        at,
        message: `Step ${step.number} asks for ${actions.length} actions under one tick: ${actions.join(', ')}.`,
        advice: 'Make several steps of it, each with its own number, or sub-steps `1.` `2.` below it.',
      }
    }
  },
}

/** `take off`, `let`, `look at`: the verb with the small word that belongs to it. */
function actionsIn({ words, actions }: ReadSentence): readonly string[] {
  return actions.map((at) => {
    const next = words[at + 1]
    const verb = words[at]?.low ?? ''
    const belongs =
      words[at]?.mark === '' &&
      next &&
      particles.has(next.low) &&
      /^(?:off|out|on|up|down|in|away|back|over|at)$/.test(next.low)
    return belongs ? `${verb} ${next.low}` : verb
  })
}
