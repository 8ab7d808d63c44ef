import type { Fault } from '../../findings/finding.ts'
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
    const steps = everyWrittenStep(procedure)
    const phases = new Map(steps.map(({ phase }) => [phase.baseId, phase]))
    for (const phase of phases.values()) {
      for (const { id } of procedure.hazards) {
        const named = steps.filter(
          ({ step, phase: { baseId } }) => baseId === phase.baseId && step.hazards.includes(id) && step.undoes === null,
        )
        const [first, ...more] = named
        if (first === undefined || named.length <= MOST_STEPS) continue
        yield {
          at: placeOfWord(writtenAt(written, first.step.at)?.block, ['hazards'], id) ?? first.step.at,
          message: `The message of "${id}" stands before ${named.length} steps of phase ${phase.number}: ${named.map(({ step }) => step.number).join(', ')}.`,
          advice: `Name it once for the phase, hazards: [${id}], or at the one step that needs it.`,
          related: more
            .slice(0, 3)
            .map(({ step }) => ({ at: step.at, message: `It stands before step ${step.number}, too.` })),
        }
      }
    }
  },
}
