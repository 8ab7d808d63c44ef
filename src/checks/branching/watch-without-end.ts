import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everySentence } from '../spoken-sentences.ts'

const watching =
  /\b(?:keep (?:watching|checking|reading|monitoring|an eye on)|(?:monitor|watch|check)\b[^.!?]{0,60}?\b(?:continuously|throughout|at all times|the whole time|all the time)|continuously (?:watch|monitor|check|read))\b/i

/** "Keep watching" begins somewhere and ends nowhere, and nobody is told to do it. */
export const watchWithoutEnd: Check = {
  name: 'branching/watch-without-end',
  severity: 'warning',
  title: 'Something is to be watched the whole time, and nothing says from where to where and by whom.',
  rules: ['BR-14'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    let runsOn = false
    const spans = new Map<string, boolean>()
    for (const phase of procedure.phases) {
      const keeps = [...phase.keeps, ...phase.steps.flatMap((step) => step.keeps)]
      spans.set(phase.id, runsOn || keeps.length > 0)
      runsOn ||= keeps.some(({ through }) => through !== null)
    }
    for (const { text, step, phase, at } of everySentence(procedure)) {
      const found = watching.exec(text)
      if (found === null || spans.get(phase.id)) continue
      yield {
        at,
        message: `Step ${step.number} says "${found[0]}", but not until when, how often or who.`,
        advice: 'Write it as a span: keep: { name: { says: …, by: …, every: 5 min, through: id of the last step } }',
      }
    }
  },
}
