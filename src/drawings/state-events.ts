import type { StepFile } from '../step-file/step-file.ts'
import { stateInWords } from '../wording/state-text.ts'
import { allSteps, type PhaseSheet, type StateSheet } from '../wording/step-file-parts.ts'

/** What happens to the states, in the order of the print. */

export interface StateLane {
  readonly id: string
  readonly name: string
  readonly start: string
  /** Whether it hurts, for every value it may have. */
  readonly danger: (value: string) => Danger
}

/** `none`: no value of this state is told to be safe, so nothing is said. */
export type Danger = 'can-hurt' | 'safe' | 'none'

export interface StateColumn {
  /** Number of the step; empty where a phase begins. */
  readonly number: string
  /** `5 LEFT` where a phase begins; empty for a step. */
  readonly phase: string
  /** Value by state. Where a phase begins: those that stand otherwise than at the end of the one printed before. */
  readonly changes: ReadonlyMap<string, string>
  readonly proved: ReadonlySet<string>
}

export function stateLanes({ states }: StepFile): readonly StateLane[] {
  return states.filter(({ implied }) => !implied).map(laneOf)
}

function laneOf(state: StateSheet): StateLane {
  const danger = (value: string): Danger =>
    state.safe.length === 0 ? 'none' : state.safe.includes(value) ? 'safe' : 'can-hurt'
  return { id: state.id, name: stateInWords(state), start: state.start, danger }
}

/** A column for each step that changes or proves one of the lanes, and one for the beginning of each phase that has such a step. */
export function stateColumns(stepFile: StepFile, lanes: readonly StateLane[]): readonly StateColumn[] {
  const values = new Map(lanes.map(({ id, start }) => [id, start]))
  const isLane = (id: string): boolean => values.has(id)
  return stepFile.phases.flatMap((phase): readonly StateColumn[] => {
    const steps = allSteps(phase.steps).flatMap((step): readonly StateColumn[] => {
      const changes = new Map(
        step.sets.flatMap(({ state, values: through }) => {
          const last = through.at(-1)
          return last !== undefined && isLane(state) ? [[state, last] as const] : []
        }),
      )
      const proved = new Set(step.proves.map(({ state }) => state).filter(isLane))
      return changes.size + proved.size === 0 ? [] : [{ number: step.number, phase: '', changes, proved }]
    })
    if (steps.length === 0) return []
    const jumps = new Map(
      Object.entries(phase.statesBefore).filter(([state, value]) => isLane(state) && values.get(state) !== value),
    )
    for (const changes of [jumps, ...steps.map((step) => step.changes)])
      for (const [state, value] of changes) values.set(state, value)
    return [{ number: '', phase: phaseHead(phase), changes: jumps, proved: new Set() }, ...steps]
  })
}

function phaseHead({ number, position }: PhaseSheet): string {
  return position === null ? number : `${number} ${position.label}`
}
