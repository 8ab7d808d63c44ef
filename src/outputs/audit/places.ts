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
  /** Its place in the order of the print, from 0. */
  readonly order: number
}

const known = new WeakMap<StepFile, readonly PlacedStep[]>()

/** Every step with its sub-steps, each position by itself, in the order of the print. */
export function placedSteps(stepFile: StepFile): readonly PlacedStep[] {
  const before = known.get(stepFile)
  if (before !== undefined) return before
  const placed = stepFile.phases
    .flatMap((phase) => {
      const position = phase.position === null ? '' : inWords(phase.position.label)
      return allSteps(phase.steps).map((step) => ({
        phase,
        step,
        position,
        place: placeInWords(step.number, position),
      }))
    })
    .map((one, order) => ({ ...one, order }))
  known.set(stepFile, placed)
  return placed
}

/** `6.5 left`; `6.5` where nothing repeats. */
export function placeInWords(number: string, position: string | null): string {
  return position === null || position === '' ? number : `${number} ${inWords(position)}`
}

/** `6.5 left, 6.5 right`, each once. */
export function placesInWords(steps: readonly PlacedStep[]): string {
  return [...new Set(steps.map(({ place }) => place))].join(', ')
}

/** The same with steps that follow one another drawn together: `6.1 to 6.8 left, 7.1 left`. */
export function placesInShort(steps: readonly PlacedStep[]): string {
  const ordered = steps.toSorted((a, b) => a.order - b.order)
  const runs: PlacedStep[][] = []
  for (const one of ordered) {
    const last = runs.at(-1)?.at(-1)
    if (last !== undefined && last.phase === one.phase && one.order - last.order === 1) runs.at(-1)?.push(one)
    else if (last?.order !== one.order) runs.push([one])
  }
  return runs
    .map((run) => {
      const [first, last] = [run[0], run.at(-1)]
      if (first === undefined || last === undefined) return ''
      return run.length < 3 ? placesInWords(run) : `${first.step.number} to ${last.place}`
    })
    .join(', ')
}
