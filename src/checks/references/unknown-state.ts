import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyClaim } from '../every-claim.ts'
import { choices, unknownName } from '../unknown-name.ts'

/** What nobody declared cannot be proved: a claim about an unknown state guards nothing. */
export const unknownState: Check = {
  name: 'references/unknown-state',
  severity: 'error',
  title: 'A state is named that the document does not have.',
  rules: ['BR-07'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const ids = procedure.states.map((state) => state.id)
    for (const { state, at } of everyClaim(procedure)) {
      if (ids.includes(state)) continue
      const positions = procedure.states.filter((known) => known.name === state && known.position !== null)
      if (positions.length > 0) {
        const names = [...positions.map((known) => known.id), `${state}.all`]
        yield {
          at,
          message: `"${state}" stands once for each position, and this is outside a repeat.`,
          advice: `Say which: ${choices(names)}.`,
        }
        continue
      }
      const names = [...new Set(procedure.states.flatMap((known) => [known.name, known.id]))]
      const otherwise = `Declare it at the top: states: { ${state}: { values: […], start: …, end: … } }`
      yield unknownName(at, `No state is called "${state}".`, state, names, otherwise)
    }
  },
}
