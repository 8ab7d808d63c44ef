import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { unknownName } from '../unknown-name.ts'
import { placeOfWord, writtenAt } from '../written-words.ts'

/** A hazard is named that has no message anywhere: nothing would be printed before the step. */
export const unknownHazard: Check = {
  name: 'references/unknown-hazard',
  severity: 'error',
  title: 'A hazard is named that is neither defined here nor in the catalogue.',
  rules: ['SM-14'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const known = procedure.hazards.map((hazard) => hazard.id)
    const parts = [...procedure.phases, ...everyWrittenStep(procedure).map(({ step }) => step)]
    for (const part of parts) {
      for (const hazard of part.hazards) {
        if (known.includes(hazard)) continue
        const own = placeOfWord(writtenAt(written, part.at)?.block, ['hazards'], hazard)
        // The first step of a phase also carries the hazards of the phase, which are reported there.
        if (own === null && 'text' in part && procedure.phases.some((phase) => phase.hazards.includes(hazard))) continue
        const otherwise =
          'Define it: hazard, consequence, avoid, severity and likelihood, or take one from shared/hazards.'
        yield unknownName(own ?? part.at, `No hazard is called "${hazard}".`, hazard, known, otherwise)
      }
    }
  },
}
