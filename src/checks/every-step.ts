import type { Phase, Procedure, Step } from '../model/procedure.ts'
import { oncePer } from '../text/once-per.ts'

export interface StepInPhase {
  readonly step: Step
  readonly phase: Phase
}

/** Every step with its phase, sub-steps after their step, in the order of the print. */
export const everyStep = oncePer((procedure: Procedure): readonly StepInPhase[] =>
  procedure.phases.flatMap(everyStepOfPhase),
)

const everyStepOfPhase = oncePer((phase: Phase): readonly StepInPhase[] =>
  stepsBelow(phase.steps).map((step) => ({ step, phase })),
)

export function stepsBelow(steps: readonly Step[]): readonly Step[] {
  return steps.flatMap((step) => [step, ...stepsBelow(step.steps)])
}

/** Steps that are written once but stand in several positions are given once. */
export const everyWrittenStep = oncePer((procedure: Procedure): readonly StepInPhase[] => {
  const seen = new Set<string>()
  return everyStep(procedure).filter(({ step }) => {
    if (seen.has(step.baseId)) return false
    seen.add(step.baseId)
    return true
  })
})

/** Who works on a step: its own people and those who act beside them. */
export function doersOf(step: Step): readonly string[] {
  return [...new Set([...step.by, ...step.acts.flatMap((act) => act.by)])]
}
