import type { Job, JobProof, JobThing, StepItem } from './job.ts'
import type { JobState } from './job-state.ts'

/** What each state is by the steps ticked, by its id. */
export function statesNow(job: Job, state: JobState): ReadonlyMap<string, string> {
  const values = new Map(job.states.map(({ id, start }) => [id, start]))
  for (const item of stepsTicked(job, state)) for (const [id, value] of item.sets) values.set(id, value)
  return values
}

/** A proof that nothing has ended since it was taken. */
export interface StandingProof extends JobProof {
  readonly item: StepItem
  /** When it was taken: of its last signature, else of the tick. */
  readonly at: string
}

/** The proofs that stand, in the order in which they were taken: a change of its state ends a proof. */
export function standingProofs(job: Job, state: JobState): readonly StandingProof[] {
  const standing = new Map<string, StandingProof>()
  for (const item of stepsTicked(job, state)) {
    for (const [id] of item.sets) standing.delete(id)
    for (const proof of item.proves) {
      const signatures = proof.holds.map((hold) => state.signatures.get(hold))
      if (signatures.some((signature) => signature === undefined || signature.waived)) continue
      const times = [state.ticks.get(item.id)?.at ?? '', ...signatures.flatMap((signature) => signature?.at ?? [])]
      standing.set(proof.state, { ...proof, item, at: times.at(-1) ?? '' })
    }
  }
  return [...standing.values()]
}

/** Proofs older than they may be. `now` in milliseconds since 1970. */
export function lapsedProofs(job: Job, state: JobState, now: number): readonly StandingProof[] {
  return standingProofs(job, state).filter(({ at, lapses }) => lapses !== null && now - Date.parse(at) >= lapses * 1000)
}

/** What proofs taken again do away with: their steps and all that signs for them. */
export function clearedByProving(job: Job, proofs: readonly StandingProof[]): readonly string[] {
  const steps = new Set(proofs.map(({ item }) => item.step))
  const holds = new Set(proofs.flatMap((proof) => proof.holds))
  return job.items
    .filter((item) => (item.kind === 'step' && steps.has(item.step)) || (item.kind === 'sign' && holds.has(item.hold)))
    .map(({ id }) => id)
}

/** A temporary thing that is on, off or open. */
export interface OpenThing extends JobThing {
  readonly item: StepItem
  /** Who did it. */
  readonly by: string
  readonly at: string
}

/** Running list of what must be undone before the end. */
export function openThings(job: Job, state: JobState): readonly OpenThing[] {
  const ticks = new Map(
    job.items.flatMap((item) =>
      item.kind === 'step' ? item.ticks.map(({ id, thing }) => [id, { item, thing }] as const) : [],
    ),
  )
  let open: readonly OpenThing[] = []
  for (const [id, { at, by }] of state.ticks) {
    const found = ticks.get(id)
    if (!found?.thing) continue
    const { item, thing } = found
    if (thing.does === 'opens') open = [...open, { ...thing, item, at, by: by.map(({ name }) => name).join(', ') }]
    else open = closed(open, thing)
  }
  return open
}

/** All of a thing unless a number was given, which takes off so many, the oldest first. */
function closed(open: readonly OpenThing[], { key, count }: JobThing): readonly OpenThing[] {
  let left = count ?? Number.POSITIVE_INFINITY
  return open.flatMap((thing) => {
    // What is closed outside a repeat closes every position.
    if (thing.key !== key && !thing.key.startsWith(`${key}@`)) return [thing]
    const there = thing.count ?? left
    const rest = there - left
    left = Math.max(0, left - there)
    return Number.isFinite(rest) && rest > 0 ? [{ ...thing, count: rest }] : []
  })
}

function stepsTicked(job: Job, state: JobState): readonly StepItem[] {
  const items = new Map(job.items.map((item) => [item.id, item]))
  return [...state.ticks.keys()].flatMap((id) => {
    const item = items.get(id)
    return item?.kind === 'step' ? [item] : []
  })
}
