import { idsFor, type Names } from '../names.ts'
import type { CountedThing, Step } from '../procedure.ts'
import type { StateValues } from '../states.ts'
import { PAIRED_KEYS } from './declare-states.ts'

type Mutable<T> = { -readonly [Key in keyof T]: T[Key] }

/** Steps with the states of the equipment before and after each, and what holds after the last. */
export interface Walked {
  readonly steps: readonly Step[]
  readonly after: StateValues
}

/** Names of the states, and the values that each may have. */
export interface StateTable extends Names {
  readonly values: ReadonlyMap<string, readonly string[]>
}

/** Follows the states through steps in the order written: everything in limit, every step done. */
export function walkStates(
  steps: readonly Step[],
  before: StateValues,
  positions: readonly string[],
  states: StateTable,
): Walked {
  let current = before
  const walked = steps.map((step): Step => {
    const statesBefore = current
    const own = effectOf(step, current, positions, states)
    const sub = walkStates(step.steps, own, positions, states)
    current = sub.after
    return { ...step, statesBefore, statesAfter: current, steps: sub.steps }
  })
  return { steps: walked, after: current }
}

function effectOf(step: Step, before: StateValues, positions: readonly string[], states: StateTable): StateValues {
  let after: Mutable<StateValues> | null = null
  const become = (state: string, value: string): void => {
    if ((after ?? before)[state] === value) return
    after ??= { ...before }
    after[state] = value
  }
  const put = (things: readonly CountedThing[], value: string): void => {
    for (const thing of things)
      for (const id of idsFor(thing.id, positions, states))
        if (states.values.get(id)?.includes(value)) become(id, value)
  }
  put(step.removes, PAIRED_KEYS.removes.to)
  put(step.locks, PAIRED_KEYS.locks.to)
  put(step.putsOn, PAIRED_KEYS['puts-on'].to)
  for (const change of step.sets) {
    const last = change.values.at(-1)
    if (last !== undefined && change.state in (after ?? before)) become(change.state, last)
  }
  put(step.snug, PAIRED_KEYS.snug.to)
  put(
    step.torques.map((torque) => ({ id: torque.name, count: null, at: torque.at })),
    'final',
  )
  put(step.refits, PAIRED_KEYS.refits.to)
  put(step.unlocks, PAIRED_KEYS.unlocks.to)
  put(step.takesOff, PAIRED_KEYS['takes-off'].to)
  return after ?? before
}
