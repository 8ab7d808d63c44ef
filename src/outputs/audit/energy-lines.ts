import type { StepFile } from '../../step-file/step-file.ts'
import { rolesInWords } from '../../wording/people-text.ts'
import { inWords, stateInWords } from '../../wording/state-text.ts'
import type { StateSheet } from '../../wording/step-file-parts.ts'
import { type PlacedStep, placedSteps, placesInWords } from './places.ts'

/** One energy, with one line a state that follows it. */
export interface EnergyLine {
  readonly what: string
  readonly followed: readonly FollowedState[]
  /** Why no state follows it; empty where one does. */
  readonly dismissed: string
}

export interface FollowedState {
  readonly state: string
  /** `live at the start; safe: isolated` */
  readonly values: string
  /** Places that make it safe. */
  readonly madeSafe: string
  /** Places that prove it safe. */
  readonly proved: string
  /** Who or what may prove it, and how long that counts. */
  readonly by: string
}

/** The energies of the machine, then those that only this procedure names. */
export function energyLines(stepFile: StepFile): readonly EnergyLine[] {
  const steps = placedSteps(stepFile)
  const energies = stepFile.machine?.energies ?? []
  const statesOf = (name: string | null) =>
    name === null ? [] : stepFile.states.filter((state) => state.id === name || state.name === name)
  const ofMachine = energies.map((energy) => {
    const followed = statesOf(energy.state)
    return {
      what: [inWords(energy.id), inWords(energy.kind), energy.magnitude ?? ''].filter(Boolean).join(', '),
      followed: followed.map((state) => followedState(state, steps)),
      dismissed: followed.length > 0 ? '' : (energy.because ?? 'No state follows it, and no reason is given.'),
    }
  })
  const named = new Set(energies.flatMap((energy) => statesOf(energy.state)))
  const ofProcedure = stepFile.states
    .filter((state) => state.energy !== null && !named.has(state))
    .map((state) => ({
      what: `${stateInWords(state)}, ${inWords(state.energy ?? '')} (named by this procedure only)`,
      followed: [followedState(state, steps)],
      dismissed: '',
    }))
  return [...ofMachine, ...ofProcedure]
}

function followedState(state: StateSheet, steps: readonly PlacedStep[]): FollowedState {
  const isSafe = (value: string | undefined) => value !== undefined && state.safe.includes(value)
  const sets = steps.filter(({ step }) =>
    step.sets.some((change) => change.state === state.id && isSafe(change.values.at(-1))),
  )
  const proves = steps.filter(({ step }) =>
    step.proves.some((claim) => claim.state === state.id && claim.values.every(isSafe)),
  )
  const safe = state.safe.length === 0 ? 'no value is named as safe' : `safe: ${state.safe.map(inWords).join(' or ')}`
  return {
    state: stateInWords(state),
    values: `${inWords(state.start)} at the start; ${safe}`,
    madeSafe: placesInWords(sets),
    proved: placesInWords(proves),
    by: [
      state.provedBy.length === 0 ? 'no proof is asked for' : state.provedBy.map(inWords).join(' or '),
      state.lapses === null ? '' : `counts for ${state.lapses}`,
    ]
      .filter(Boolean)
      .join('; '),
  }
}

export interface LockLine {
  readonly what: string
  /** `2.2 by fitter and second`; empty where no step does it. */
  readonly on: readonly string[]
  readonly off: readonly string[]
}

/** Everything that is locked or unlocked, then the points of the machine that this procedure leaves alone. */
export function lockLines(stepFile: StepFile): readonly LockLine[] {
  const steps = placedSteps(stepFile)
  const points = stepFile.machine?.isolationPoints ?? []
  const locked = steps.flatMap(({ step }) => [...step.locks, ...step.unlocks].map(({ id }) => id))
  const things = [...new Set([...locked, ...points.map(({ id }) => id)])]
  return things.map((id) => {
    const point = points.find((one) => one.id === id)
    const where = (key: 'locks' | 'unlocks') =>
      steps
        .filter(({ step }) => step[key].some((thing) => thing.id === id))
        .map(({ step, place }) => (step.by.length === 0 ? place : `${place} by ${rolesInWords(step.by)}`))
    return {
      what: point === undefined ? inWords(id) : [point.what, point.where ?? ''].filter(Boolean).join(', '),
      on: where('locks'),
      off: where('unlocks'),
    }
  })
}
