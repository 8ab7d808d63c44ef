import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep, everyWrittenStep } from '../every-step.ts'

/** Sent back, and from there sent back again: the reader loses the place to which he returns. */
export const chainedRedo: Check = {
  name: 'branching/chained-redo',
  severity: 'warning',
  title: 'Steps are done again that themselves send the reader to further steps.',
  rules: ['BR-09'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const byId = new Map(everyStep(procedure).map(({ step }) => [step.id, step]))
    for (const { step } of everyWrittenStep(procedure)) {
      const chained = step.redoes.map(({ id }) => byId.get(id)).find((again) => (again?.redoes.length ?? 0) > 0)
      if (chained === undefined) continue
      yield {
        at: step.at,
        message: `Step ${step.number} does step ${chained.number} again, and that one sends to further steps: ${chained.redoes.map(({ number }) => number).join(', ')}.`,
        advice: `Name the steps themselves under redo, in their order, in the place of ${chained.number}.`,
        related: [{ at: chained.at, message: `Step ${chained.number} stands here.` }],
      }
    }
  },
}
