import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { choices } from '../unknown-name.ts'

/** Where the document has dangerous places, each phase says where its people are: who is said to be nowhere is in no count. */
export const whereaboutsUnsaid: Check = {
  name: 'zones/whereabouts-unsaid',
  severity: 'error',
  title: 'A phase does not say where its people are, in a document with zones.',
  rules: ['SG-21'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    if (procedure.zones.length === 0) return
    for (const { where, steps, at, title } of procedure.phases) {
      if (where.length > 0 || steps.length === 0) continue
      const zones = [...new Set(procedure.zones.map((zone) => zone.name)), 'out']
      yield {
        at,
        message: `"${title}" does not say where its people are.`,
        advice: `Write in the block of the phase: where: ${choices(zones)}`,
      }
    }
  },
}
