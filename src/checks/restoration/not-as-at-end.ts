import type { Fault } from '../../findings/finding.ts'
import type { Phase, Procedure } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'
import { choices } from '../unknown-name.ts'

/**
 * The straight way through the job ends with a state that is not one it may end in: the machine is handed back
 * isolated, open, or with its brake off. What happens on other ways is not looked at here.
 */
export const notAsAtEnd: Check = {
  name: 'restoration/not-as-at-end',
  severity: 'error',
  title: 'The job ends with the equipment not in the state that it shall end in.',
  rules: ['RC-01'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const last = lastOnStraightWay(procedure)
    if (last === undefined) return
    const { statesAfter } = last
    for (const { id, values, end, implied, at } of procedure.states) {
      const value = statesAfter[id]
      // What is removed, locked or put on has checks of its own, which say it in those words.
      if (implied || value === undefined || !values.includes(value) || end.includes(value)) continue
      const change = everyStep(procedure).findLast(({ step }) => step.sets.some(({ state }) => state === id))
      const put = change?.step.sets.find(({ state }) => state === id)
      yield {
        at,
        message: `"${id}" shall end ${choices(end)}, but the last step leaves it ${value}.`,
        advice: `Add a step that puts it back (sets: { ${id}: ${end[0] ?? ''} }), or change its end.`,
        ...(put ? { related: [{ at: put.at, message: `Step ${change?.step.number} is the last to change it.` }] } : {}),
      }
    }
  },
}

/** The last phase, or where it ends in a decision, the branch of the first answer. */
function lastOnStraightWay({ phases }: Procedure): Phase | undefined {
  const last = phases.findLast((phase) => phase.kind === 'phase')
  const first = last?.steps.at(-1)?.decide?.branches[0]?.target
  return phases.find((phase) => phase.id === first?.id && phase.under === last?.id) ?? last
}
