import type { Fault } from '../../findings/finding.ts'
import type { Phase, Step } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { opensWithCondition } from '../spoken-sentences.ts'

const most = 2

/** Who stands in the third "if" no longer knows whether the first one held. */
export const nestedTooDeep: Check = {
  name: 'branching/nested-too-deep',
  severity: 'warning',
  title: 'A step lies below more than two conditions.',
  rules: ['BR-12'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const told = new Set<string>()
    for (const phase of procedure.phases) {
      for (const { step, conditions } of below(phase.steps, conditionsOf(phase))) {
        if (conditions.length <= most || told.has(step.baseId)) continue
        told.add(step.baseId)
        yield {
          at: step.at,
          message: `Step ${step.number} lies below ${conditions.length} conditions: ${conditions.join('; ')}.`,
          advice:
            'Let a decide before it sort the cases into branches, one line a case, so that each step has one condition.',
        }
      }
    }
  },
}

function conditionsOf({ kind, title, when }: Phase): readonly string[] {
  return [...(kind === 'branch' ? [`the branch "${title}"`] : []), ...(when === null ? [] : [when])]
}

function below(
  steps: readonly Step[],
  outer: readonly string[],
): readonly { readonly step: Step; readonly conditions: readonly string[] }[] {
  return steps.flatMap((step) => {
    const inherited = [...outer, ...(step.when === null ? [] : [step.when])]
    const said = opensWithCondition(step.text.plain) ? [step.text.plain.split(',')[0] ?? ''] : []
    return [
      { step, conditions: [...inherited, ...said.filter((one) => /^(?:if|unless|when)\b/i.test(one))] },
      ...below(step.steps, inherited),
    ]
  })
}
