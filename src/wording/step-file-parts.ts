import type { StepFile } from '../step-file/step-file.ts'

/** Names for the parts of a step file, so that outputs need not spell out the way to them. */
export type PhaseSheet = StepFile['phases'][number]
export type StepSheet = PhaseSheet['steps'][number]
export type StateSheet = StepFile['states'][number]
export type ZoneSheet = StepFile['zones'][number]
export type HazardSheet = StepFile['hazards'][number]
export type HoldSheet = StepSheet['holds'][number]
export type ReadingSheet = StepSheet['readings'][number]
export type TorqueSheet = StepSheet['torques'][number]
export type ConsequenceSheet = StepSheet['consequences'][number]
export type ClaimSheet = StepSheet['needs'][number]
export type CountedSheet = StepSheet['removes'][number]
export type OnlySheet = NonNullable<StepSheet['only']>

/** Every step of a phase with its sub-steps, in the order of the print. */
export function allSteps(steps: readonly StepSheet[]): readonly StepSheet[] {
  return steps.flatMap((step) => [step, ...allSteps(step.steps)])
}
