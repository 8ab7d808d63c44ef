import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { placeInFrontMatter } from '../front-matter-place.ts'

/** The machine's own file knows of an energy that this document never mentions. */
export const energyUndeclared: Check = {
  name: 'flow/energy-undeclared',
  severity: 'error',
  title: 'The machine has an energy that the document neither follows nor dismisses.',
  rules: ['LO-02', 'LO-03'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const { machine, states } = procedure
    if (machine === null) return
    for (const { id, kind, magnitude, state, because } of machine.energies) {
      const at = placeInFrontMatter(written, 'machine')
      if (state !== null && !states.some((known) => known.id === state || known.name === state)) {
        yield {
          at,
          message: `The energy "${id}" of ${machine.name} is said to be the state "${state}", and the document has no such state.`,
          advice: `Declare it under states: ${state}: { values: […], start: …, end: …, energy: ${kind}, safe: … }`,
        }
      } else if (state === null && because === null) {
        const much = magnitude === null ? '' : ` (${magnitude})`
        yield {
          at,
          message: `${machine.name} has "${id}", ${kind}${much}, and this document says nothing about it.`,
          advice: `Declare a state "${id}" with its safe value and its proof, or dismiss it with a reason: machine: { id: ${machine.id}, dismissed: { ${id}: why it cannot hurt anyone here } }`,
        }
      }
    }
  },
}
