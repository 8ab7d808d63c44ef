import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyClaim } from '../every-claim.ts'
import { choices, unknownName } from '../unknown-name.ts'
import { placeOfValue } from '../written-words.ts'

/** A state is set to, needed at, or declared safe in a value that is not one of its values. */
export const unknownStateValue: Check = {
  name: 'references/unknown-state-value',
  severity: 'error',
  title: 'A state is said to have a value that it cannot have.',
  rules: ['BR-07'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const declared = procedure.states
      .filter((state) => !state.implied)
      .map((state) => ({ state: state.id, values: [state.start, ...state.end, ...state.safe], at: state.at }))
    for (const claim of [...declared, ...everyClaim(procedure)]) {
      const state = procedure.states.find((known) => known.id === claim.state)
      // Without values the state itself is incomplete, which its schema reports.
      if (state === undefined || state.values.length === 0) continue
      for (const value of new Set(claim.values)) {
        if (state.values.includes(value) || mayBeUnknown(value, state)) continue
        const at = placeOfValue(written, claim.at, value)
        const message = `"${state.name}" is never "${value}"; it is ${choices(state.values)}.`
        yield unknownName(at, message, value, state.values, `Write one of its values, or add "${value}" to them.`)
      }
    }
  },
}

/** An energy that nobody can see may start `unknown`. */
const mayBeUnknown = (value: string, state: { readonly start: string }): boolean =>
  value === 'unknown' && state.start === 'unknown'
