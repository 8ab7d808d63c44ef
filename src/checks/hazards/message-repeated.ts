import type { Fault } from '../../findings/finding.ts'
import type { Procedure, Step } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { placeOfWord, writtenAt } from '../written-words.ts'

const MOST_STEPS = 4

/** What stands before every step is seen before none. */
export const messageRepeated: Check = {
  name: 'hazards/message-repeated',
  severity: 'advice',
  title: 'The same safety message stands before many steps of one phase.',
  rules: ['SM-17'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    for (const { id, number, steps } of namedInPhases(procedure)) {
      const [first, ...more] = steps
      if (first === undefined || steps.length <= MOST_STEPS) continue
      yield {
        at: placeOfWord(writtenAt(written, first.at)?.block, ['hazards'], id) ?? first.at,
        message: `The message of "${id}" stands before ${steps.length} steps of phase ${number}: ${steps.map((step) => step.number).join(', ')}.`,
        advice: `Name it once for the phase, hazards: [${id}], or at the one step that needs it.`,
        related: more
          .slice(0, 3)
          .map((step) => ({ at: step.at, message: `It stands before step ${step.number}, too.` })),
      }
    }
  },
}

/** For each phase and hazard the steps that print its message; those that a refit wrote are left out. */
function namedInPhases(procedure: Procedure) {
  const named = new Map<string, { readonly id: string; readonly number: string; readonly steps: Step[] }>()
  for (const { step, phase } of everyWrittenStep(procedure)) {
    if (step.undoes !== null) continue
    for (const id of step.hazards) {
      const key = `${phase.baseId} ${id}`
      const known = named.get(key) ?? { id, number: phase.number, steps: [] }
      known.steps.push(step)
      named.set(key, known)
    }
  }
  return named.values()
}
