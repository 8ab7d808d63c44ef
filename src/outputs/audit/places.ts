import type { StepFile } from '../../step-file/step-file.ts'
import { inWords } from '../../wording/state-text.ts'
import { allSteps, type PhaseSheet, type StepSheet } from '../../wording/step-file-parts.ts'

/** A step with the phase it stands in. */
export interface PlacedStep {
  readonly phase: PhaseSheet
  readonly step: StepSheet
  /** `left`, or empty where nothing repeats. */
  readonly position: string
  /** `6.5 left` */
  readonly place: string
}

/** Every step with its sub-steps, each position by itself, in the order of the print. */
export function placedSteps(stepFile: StepFile): readonly PlacedStep[] {
  return stepFile.phases.flatMap((phase) => {
    const position = phase.position === null ? '' : inWords(phase.position.label)
    return allSteps(phase.steps).map((step) => ({
      phase,
      step,
      position,
      place: placeInWords(step.number, position),
    }))
  })
}

/** `6.5 left`; `6.5` where nothing repeats. */
export function placeInWords(number: string, position: string | null): string {
  return position === null || position === '' ? number : `${number} ${inWords(position)}`
}

/** `6.5 left, 6.5 right`, each once. */
export function placesInWords(steps: readonly PlacedStep[]): string {
  return [...new Set(steps.map(({ place }) => place))].join(', ')
}
