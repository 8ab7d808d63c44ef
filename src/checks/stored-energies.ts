import type { Procedure, Step } from '../model/procedure.ts'
import type { State } from '../model/states.ts'
import { everyWrittenStep } from './every-step.ts'

/** Energies that stay in the machine when its supply is off, and are let out: what is under pressure, and what is under tension. */
const UNDER_PRESSURE: ReadonlySet<string> = new Set('hydraulic pneumatic pressure gas steam vacuum'.split(' '))
const UNDER_TENSION: ReadonlySet<string> = new Set('spring tension'.split(' '))

/** A step that lets a stored energy out: it brings a state of that energy from where it can hurt to where it cannot. */
export interface Release {
  readonly step: Step
  readonly state: State
  readonly isPressure: boolean
}

export function everyRelease(procedure: Procedure): readonly Release[] {
  return everyWrittenStep(procedure).flatMap(({ step }) =>
    step.sets.flatMap((change): readonly Release[] => {
      const state = procedure.states.find(({ id, name }) => id === change.state || name === change.state)
      const value = change.values.at(-1)
      if (!state || value === undefined || state.implied) return []
      const isPressure = UNDER_PRESSURE.has(state.energy ?? '')
      if (!isPressure && !UNDER_TENSION.has(state.energy ?? '')) return []
      const before = step.statesBefore[state.id]
      // Filled and shut, or set to a value that can hurt: no release.
      if (!state.safe.includes(value) || before === undefined || state.safe.includes(before)) return []
      return [{ step, state, isPressure }]
    }),
  )
}
