import type { Phase, Procedure, Step } from '../model/procedure.ts'
import { type RulesStudy, rulesOf } from '../model/published-rules/rules-study.ts'
import type { CheckConfiguration } from './check.ts'
import { everyStep, everyWrittenStep } from './every-step.ts'

interface RuledStep {
  readonly study: RulesStudy
  readonly step: Step
  readonly phase: Phase
}

/** Every step that tells heights, noise or air, each once however often it is repeated, held against the rules of the site. */
export function ruledSteps(procedure: Procedure, { ruleSet }: CheckConfiguration): readonly RuledStep[] {
  const readings = everyStep(procedure).flatMap(({ step }) => step.readings)
  return everyWrittenStep(procedure).flatMap(({ step, phase }) => {
    const study = rulesOf(step, readings, ruleSet ?? null)
    return study === null ? [] : [{ study, step, phase }]
  })
}

/** What is worn in a step, and what the step says, in words. */
export function wornAndSaid(procedure: Procedure, { step, phase }: Pick<RuledStep, 'step' | 'phase'>): string {
  const worn = [...new Set([...step.ppe, ...phase.ppe])]
  const names = procedure.resources.ppe.filter(({ id }) => worn.includes(id)).map(({ name }) => name)
  return [...worn, ...names, step.text.plain].join('\n')
}
