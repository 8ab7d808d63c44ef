import type { Fault } from '../../findings/finding.ts'
import { valueAt } from '../../syntax/block-node.ts'
import type { WrittenPhase } from '../../syntax/written.ts'
import type { Check, CheckSubject } from '../check.ts'

/** A heading with prose or bullets below it prints no box to tick and no line to sign: the work is not on the sheet. */
export const phaseWithoutSteps: Check = {
  name: 'document/phase-without-steps',
  severity: 'error',
  title: 'A phase has no numbered step.',
  rules: ['SG-18'],

  *run({ written }: CheckSubject): Iterable<Fault> {
    for (const phase of written.phases.flatMap((main) => [main, ...main.branches])) {
      if (phase.steps.length > 0 || getsSteps(phase)) continue
      const bullets = phase.prose.some((piece) => piece.kind === 'list')
      yield {
        at: phase.at,
        message: `"${phase.title}" has no numbered step${bullets ? ', only bullets' : ''}, so nothing of it can be ticked.`,
        advice: bullets ? 'Number the bullets: 1. 2. 3.' : 'Write its steps as 1. 2. 3., or take the heading out.',
      }
    }
  },
}

/** Steps may come from a refit in reverse, or from a fragment. */
const getsSteps = ({ block }: WrittenPhase): boolean =>
  ['reverse', 'include'].some((key) => valueAt(block?.map, key) !== undefined)
