import type { Procedure, Step } from '../../../model/procedure.ts'
import type { State } from '../../../model/states.ts'
import { inWords, stateInWords } from '../../../wording/state-text.ts'
import type { StateCell, StateStrips } from '../wire.ts'

/** How each state of the equipment stands along the steps, or null where none is declared. */
export function stateStrips(procedure: Procedure): StateStrips | null {
  const states = procedure.states.filter(({ implied }) => !implied)
  const steps = procedure.phases.flatMap(({ steps }) => inOrder(steps))
  if (states.length === 0 || steps.length === 0) return null
  return {
    steps: steps.map((step) => ({
      number: step.number,
      title: step.text.plain,
      // A step of a fragment stands in another file.
      start: step.at.file === procedure.file ? step.at.start : -1,
    })),
    strips: states.map((state) => ({
      name: stateInWords(state),
      values: steps.map((step) => cellOf(step, state)),
    })),
  }
}

function inOrder(steps: readonly Step[]): readonly Step[] {
  return steps.flatMap((step) => [step, ...inOrder(step.steps)])
}

function cellOf(step: Step, state: State): StateCell {
  const value = step.statesAfter[state.id] ?? ''
  return {
    value: inWords(value),
    isSafe: state.safe.length === 0 ? null : state.safe.includes(value),
    happens: step.sets.some((change) => change.state === state.id)
      ? 'changes'
      : step.proves.some((claim) => claim.state === state.id)
        ? 'proves'
        : null,
  }
}
