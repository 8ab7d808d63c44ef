import type { StepFile } from '../../step-file/step-file.ts'
import { type ProofKind, proofKind } from '../../wording/how-proved.ts'
import { rolesInWords } from '../../wording/people-text.ts'
import { inWords, stateInWords } from '../../wording/state-text.ts'
import type { ClaimSheet, StateSheet } from '../../wording/step-file-parts.ts'
import { type PlacedStep, placedSteps, placesInWords } from './places.ts'

/**
 * How far a procedure deals with an energy: proved by a signature, reading or test; made safe by whoever does it (`word`); only
 * named; left out with a reason; or neither (`silent`).
 */
export type Dealt = ProofKind | 'named' | 'dismissed' | 'silent'

/** One energy, with one line a state that follows it. */
export interface EnergyLine {
  /** As the machine file names it, or the state where only this procedure does. */
  readonly id: string
  readonly ofMachine: boolean
  readonly dealt: Dealt
  /** Ids of the states that follow it. */
  readonly states: readonly string[]
  readonly magnitude: string
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
  /** Places that take it out of its safe values again. */
  readonly released: string
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
      id: energy.id,
      ofMachine: true,
      dealt: dealtWith(stepFile, followed, steps, energy.because !== null),
      states: followed.map((state) => state.id),
      magnitude: energy.magnitude ?? '',
      what: [inWords(energy.id), inWords(energy.kind), energy.magnitude ?? ''].filter(Boolean).join(', '),
      followed: followed.map((state) => followedState(state, steps)),
      dismissed: followed.length > 0 ? '' : (energy.because ?? 'No state follows it, and no reason is given.'),
    }
  })
  const named = new Set(energies.flatMap((energy) => statesOf(energy.state)))
  const ofProcedure = stepFile.states
    .filter((state) => state.energy !== null && !named.has(state))
    .map((state) => ({
      id: state.name,
      ofMachine: false,
      dealt: dealtWith(stepFile, [state], steps, false),
      states: [state.id],
      magnitude: '',
      what: `${stateInWords(state)}, ${inWords(state.energy ?? '')} (named by this procedure only)`,
      followed: [followedState(state, steps)],
      dismissed: '',
    }))
  return [...ofMachine, ...ofProcedure]
}

/** The weakest of its states counts; of one state the weakest of its proofs. */
function dealtWith(
  stepFile: StepFile,
  states: readonly StateSheet[],
  steps: readonly PlacedStep[],
  isDismissed: boolean,
): Dealt {
  if (states.length === 0) return isDismissed ? 'dismissed' : 'silent'
  const kinds = states.map((state): Dealt => {
    const proving = steps.filter(({ step }) => step.proves.some((claim) => provesSafe(state, claim)))
    const proofs = proving.map(({ step }) => proofKind(stepFile, step, state.id))
    const setting = steps.some(({ step }) => step.sets.some((change) => setsSafe(state, change)))
    return weakest.find((kind) => proofs.includes(kind)) ?? (setting || proving.length > 0 ? 'word' : 'named')
  })
  return (['named', 'word', ...weakest] as const).find((kind) => kinds.includes(kind)) ?? 'silent'
}

const weakest = ['test', 'reading', 'sight'] as const

const setsSafe = ({ id, safe }: StateSheet, change: ClaimSheet): boolean =>
  change.state === id && safe.includes(change.values.at(-1) ?? '')

const provesSafe = ({ id, safe }: StateSheet, claim: ClaimSheet): boolean =>
  claim.state === id && claim.values.every((value) => safe.includes(value))

function followedState(state: StateSheet, steps: readonly PlacedStep[]): FollowedState {
  const sets = steps.filter(({ step }) => step.sets.some((change) => setsSafe(state, change)))
  const proves = steps.filter(({ step }) => step.proves.some((claim) => provesSafe(state, claim)))
  const released = steps.filter(({ step }) =>
    step.sets.some((change) => change.state === state.id && !setsSafe(state, change)),
  )
  const safe = state.safe.length === 0 ? 'no value is named as safe' : `safe: ${state.safe.map(inWords).join(' or ')}`
  return {
    state: stateInWords(state),
    values: `${inWords(state.start)} at the start; ${safe}`,
    madeSafe: placesInWords(sets),
    proved: placesInWords(proves),
    released: placesInWords(released),
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
