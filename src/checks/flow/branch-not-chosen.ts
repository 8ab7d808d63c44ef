import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'

/** A branch that no decision leads to is printed and never done. */
export const branchNotChosen: Check = {
  name: 'flow/branch-not-chosen',
  severity: 'error',
  title: 'No answer of a decision leads to a branch.',
  rules: ['BR-10'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const aimedAt = everyStep(procedure).flatMap(({ step }) => [
      ...(step.decide?.branches ?? []).map((branch) => branch.target?.id),
      ...step.consequences.flatMap((consequence) => consequence.targets.map((target) => target.id)),
    ])
    const reached = new Set(aimedAt)
    for (const branch of procedure.phases) {
      if (branch.kind !== 'branch' || reached.has(branch.id)) continue
      // Whatever is aimed at inside a branch is within it: a step reached by number reaches its branch.
      if (branch.steps.some((step) => reached.has(step.id))) continue
      const phase = procedure.phases.find(({ id }) => id === branch.under)
      const decides = phase?.steps.at(-1)?.decide != null
      yield {
        at: branch.at,
        message: decides
          ? `No answer of the decision in "${phase?.title}" leads to "${branch.title}".`
          : `"${branch.title}" is a branch of "${phase?.title}", whose last step decides nothing.`,
        advice: decides
          ? `Add an answer to the decision: { answer: …, go: ${branch.baseId} }`
          : 'Add a decide to the last step of the phase, or make this a phase of its own with ##.',
      }
    }
  },
}
