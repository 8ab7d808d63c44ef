import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'

const most = 25

/** In a list without an end the place is lost, and a page that is turned twice is not missed. */
export const phaseTooLong: Check = {
  name: 'place-keeping/phase-too-long',
  severity: 'advice',
  title: 'A phase has more than 25 steps.',
  rules: ['PK-03'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const told = new Set<string>()
    for (const phase of procedure.phases) {
      if (phase.steps.length <= most || phase.reverseOf !== null || told.has(phase.baseId)) continue
      told.add(phase.baseId)
      yield {
        at: phase.at,
        message: `Phase ${phase.number} "${phase.title}" has ${phase.steps.length} steps in one row.`,
        advice: 'Part it with ## headings by what is worked on; from 7 to 15 steps each are easily kept in view.',
      }
    }
  },
}
