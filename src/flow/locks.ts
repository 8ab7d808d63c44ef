import type { Step } from '../model/procedure.ts'
import { positionsAt, type Subjects, statesNamed, withSubSteps } from './subjects.ts'

/**
 * The states that a lock keeps safe: those of the energy of its isolation point; without a machine file, the states with
 * an energy that the same step, or the step just before it, made safe; else those that the phase next makes safe, for then
 * the lock came too early.
 */
export function statesLocked(thing: string, step: Step, subjects: Subjects): readonly number[] {
  const { machine } = subjects.procedure
  const point = machine?.isolationPoints.find((candidate) => candidate.id === thing)
  const energy = point && machine?.energies.find((candidate) => candidate.id === point.energy)
  if (energy?.state) {
    const { state } = energy
    return subjects.states.flatMap((candidate, number) =>
      candidate.id === state || candidate.name === state ? [number] : [],
    )
  }
  const phase = subjects.phaseOfStep.get(step.id)
  const order = withSubSteps(phase?.steps ?? [])
  const index = order.findIndex((candidate) => candidate.id === step.id)
  const found = [...new Set(order.slice(Math.max(0, index - 1), index + 1).flatMap((one) => madeSafe(one, subjects)))]
  if (found.length > 0) return found
  const later = order.slice(index + 1).find((one) => madeSafe(one, subjects).length > 0)
  return later ? madeSafe(later, subjects) : []
}

function madeSafe(step: Step, subjects: Subjects): readonly number[] {
  return step.sets.flatMap((change) => {
    const number = subjects.stateNumber.get(change.state)
    const state = number === undefined ? undefined : subjects.states[number]
    const last = change.values.at(-1)
    if (number === undefined || !state || state.energy === null || last === undefined) return []
    return state.safe.includes(last) ? [number] : []
  })
}

/** For each state, the things whose locks keep it safe, over all steps that lock them. */
export function locksOfStates(subjects: Subjects): readonly (readonly number[])[] {
  const things = subjects.states.map(() => new Set<number>())
  for (const step of subjects.order)
    for (const lock of step.locks)
      for (const thing of statesNamed(lock.id, positionsAt(step.id, subjects.phaseOfStep.get(step.id)), subjects))
        for (const state of statesLocked(lock.id, step, subjects)) things[state]?.add(thing)
  return things.map((set) => [...set])
}
