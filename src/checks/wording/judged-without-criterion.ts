import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyInstruction } from '../told-instructions.ts'

const judging = new Set(['check', 'inspect', 'examine', 'verify', 'assess'])
/** Words that bring in what must be so, what is looked for, or what it is held against. */
const criteria = new Set('for that if whether against until between by to as how is are where with'.split(' '))

/** "Inspect the rod": and then? */
export const judgedWithoutCriterion: Check = {
  name: 'wording/judged-without-criterion',
  severity: 'warning',
  title: 'A step says to judge a thing and not by what.',
  rules: ['NU-15', 'SG-20'],

  *run(subject: CheckSubject): Iterable<Fault> {
    for (const { step, sentences, at } of everyInstruction(subject)) {
      const [only, more] = sentences
      if (!only || more || only.is !== 'order' || only.actions.length > 1) continue
      const verb = only.words[only.order]
      if (!verb || !judging.has(verb.low) || verb.mark !== '') continue
      if (only.words.slice(only.order + 1).some(({ low }) => criteria.has(low) || /\d/.test(low))) continue
      const says = [step.readings, step.torques, step.holds, step.consequences, step.details, step.acts, step.steps]
      if (step.decide !== null || says.some((list) => list.length > 0)) continue
      yield {
        at,
        message: `Step ${step.number} says to ${verb.low} and not by what: "${only.typed}"`,
        advice: 'Say what must be so in a `check:` or `measure:`, or what is looked for: "for cracks and dents".',
      }
    }
  },
}
