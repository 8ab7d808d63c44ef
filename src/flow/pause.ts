import type { Step } from '../model/procedure.ts'
import { type Job, movesOf } from './job.ts'
import { PROVED } from './layout.ts'
import { fulfils } from './looks.ts'
import type { Plan } from './plan.ts'
import { type Run, report } from './run.ts'
import type { Spot } from './spots.ts'
import { actorsOf, type CompactClaim, withSubSteps } from './subjects.ts'

/** A step that takes a proof again after a pause, with what must be so for it to be doable. */
interface ProofAgain {
  readonly proves: CompactClaim
  readonly wants: readonly CompactClaim[]
}

/** For each state that nobody can simply look at and sign for: the steps that prove it. */
export type Resuming = ReadonlyMap<number, readonly ProofAgain[]>

export function resumingOf(plan: Plan): Resuming {
  const { subjects } = plan
  const jobs = new Map(plan.spots.flatMap((spot) => (spot.job ? [[spot.job.step.id, spot.job] as const] : [])))
  return new Map(
    subjects.states.flatMap((state, number) => {
      const isSigned = state.provedBy.some((prover) => subjects.roleNumber.has(prover))
      if (isSigned || state.provedBy.length === 0) return []
      const steps = [...jobs.values()].flatMap((job) =>
        job.isInVariant
          ? job.proves.filter((proof) => proof.state === number && proof.isMeasured).map((proof) => ({ job, proof }))
          : [],
      )
      return [[number, steps.map(({ job, proof }) => ({ proves: proof, wants: wantedBy(job, plan) }))] as const]
    }),
  )
}

/** Its needs met, the zones it is done in safe, each of its changes already made. */
function wantedBy(job: Job, plan: Plan): readonly CompactClaim[] {
  const { subjects } = plan
  const made = new Map<number, number>()
  for (const moment of job.moments) {
    if (moment.is === 'change') made.set(moment.state, moment.value)
    if (moment.is === 'any-order') for (const { state, value } of moment.lists.flat()) made.set(state, value)
  }
  return [
    ...job.needs,
    ...zonesOfWork(job, plan).flatMap((zone) => subjects.safeWhen[zone] ?? []),
    ...[...made].map(([state, value]) => {
      const ok = new Uint8Array(subjects.values[state]?.length ?? 0)
      ok[value] = 1
      return { state, ok }
    }),
  ]
}

/** Where its people are while it is done: what it says, else what the last step of the phase said, else the phase. */
function zonesOfWork(job: Job, plan: Plan): readonly number[] {
  const { subjects } = plan
  const order = withSubSteps(job.phase.steps)
  const before = order.slice(0, order.indexOf(job.step) + 1).reverse()
  const places = job.actors.map((role) => {
    const entered = job.enters.find((move) => move.role === role)
    if (entered) return entered.place
    const told = (step: Step) =>
      movesOf(step.where, actorsOf(step, subjects), subjects).find((move) => move.role === role)
    const last = before.map(told).find((move) => move !== undefined)
    const byPhase = movesOf(job.phase.where, [role], subjects).find((move) => move.role === role)
    return (last ?? byPhase)?.place ?? 0
  })
  return [...new Set(places.flatMap((place) => subjects.places.zones[place] ?? []))]
}

/** A pause before this step: what only a reading or a test proves can be proved again. */
export function lookAtResuming(run: Run, row: Uint8Array, spot: Spot, resuming: Resuming): void {
  const { layout } = run.plan
  for (const [state, again] of resuming) {
    const proof = layout.proof[state] ?? -1
    if (proof < 0 || row[proof] !== PROVED || run.live[spot.number * layout.width + proof] === 0) continue
    const isDoable = again.some(
      ({ proves, wants }) => fulfils(run, row, proves) && wants.every((claim) => fulfils(run, row, claim)),
    )
    if (!isDoable) report(run, 'resume-unproved', state)
  }
}
