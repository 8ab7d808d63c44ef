import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { wordsOfStepAndBelow } from '../job-words.ts'
import { everyLetOut } from '../let-out.ts'

const places =
  /\b(?:stand(?:s|ing)?|stay(?:s|ing)?|keep(?:s|ing)? (?:clear|away|back|out)|(?:is|are) (?:clear|away|back|out)|clear of|out of the (?:way|line|path|swing)|nobody|no one|away from|from the (?:side|cab|platform|walkway|seat)|beside)\b/i

/** What is let out moves something or blows. Who opens the valve must know where to be, and the mate too. */
export const peopleUnplaced: Check = {
  name: 'pressure/people-unplaced',
  severity: 'warning',
  title: 'A stored energy is let out, and the step does not say where people stand.',
  rules: ['LO-04'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { study, step, phase } of everyLetOut(procedure)) {
      if (study.typed('stand') !== null || step.where.length + phase.where.length + step.clear.length > 0) continue
      if (places.test(wordsOfStepAndBelow(step))) continue
      yield {
        at: study.at,
        message: `Step ${step.number} lets out "${study.name}", and does not say where people stand meanwhile.`,
        advice: 'Say it: stand at the lever, out of the way of the body; or give the step its place: where: out.',
      }
    }
  },
}
