import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { placeInFrontMatter } from '../front-matter-place.ts'

/** "Hydraulic" tells nobody whether it drips or cuts a hand off. */
export const energyWithoutSize: Check = {
  name: 'lockout/energy-without-size',
  severity: 'warning',
  title: 'The file of the machine does not say how much of an energy there is.',
  rules: ['LO-02'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const { machine } = procedure
    for (const { id, kind, magnitude, because } of machine?.energies ?? []) {
      if (machine === null || magnitude !== null || because !== null) continue
      yield {
        at: placeInFrontMatter(written, 'machine'),
        message: `Nobody says how much of "${id}" (${kind}) ${machine.name} has.`,
        advice: `Write it in shared/machines/${machine.id}.yaml: ${id}: { kind: ${kind}, magnitude: … }, such as 400 V, 21 MPa or 9 t.`,
      }
    }
  },
}
