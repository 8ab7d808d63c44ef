import type { Exposed, Phase, Step } from '../../../src/model/procedure.ts'
import type { Claim, NeverTogether } from '../../../src/model/states.ts'
import { applies, type Facts } from './facts.ts'
import type { Situation } from './situation.ts'

/** What tells: a fault and what it is about. */
export type Tell = (fault: string, subject: string) => void

export function holds(claim: Pick<Claim, 'state' | 'values'>, { values }: Situation): boolean {
  return claim.values.includes(values[claim.state] ?? '')
}

/** What is kept, and from where to where. */
export interface Kept {
  /** `<owner>:<name>`. */
  readonly id: string
  readonly owner: string
  readonly claims: readonly Claim[]
  /** Step after which it ends; null for the end of its owner. */
  readonly through: string | null
}

export function keptBy(owner: Step | Phase): readonly Kept[] {
  return owner.keeps
    .filter((keep) => keep.states.length > 0)
    .map((keep) => ({
      id: `${owner.id}:${keep.name}`,
      owner: owner.id,
      claims: keep.states,
      through: keep.through?.id ?? null,
    }))
}

/** Who may be where it is not safe while this step of this phase is done. */
export function exposuresAt(step: Step | null, phase: Phase | undefined): readonly Exposed[] {
  return [...(phase?.exposed ?? []), ...(step?.exposed ?? [])]
}

export interface Look {
  readonly moment: 'move' | 'change'
  /** The step that is worked. */
  readonly step: Step
  readonly phase: Phase | undefined
  readonly exposures: readonly Exposed[]
  readonly keeps: readonly Kept[]
  /** Told of each state whose proof somebody's life rests on at this moment. */
  readonly restsOn: (state: string) => void
  readonly tell: Tell
}

/** Looks at one moment: who is where, what must never be, what must be held. Gives back what is wrong now. */
export function lookAt(s: Situation, look: Look, facts: Facts): Situation {
  const { procedure } = facts
  const wrong: Record<string, string> = {}
  for (const [role, zones] of Object.entries(s.people)) {
    for (const id of zones) {
      const zone = procedure.zones.find((candidate) => candidate.id === id)
      if (zone?.entry && !(s.seen[role] ?? []).includes(id) && !isAdmitted(zone.entry, s, look))
        look.tell('proof-missing', `${id}/${zone.entry}`)
      if (look.exposures.some((one) => one.who.includes(role) && one.zones.includes(id))) continue
      for (const claim of zone?.safeWhen ?? []) {
        const what = wrongAbout(claim, s, look, facts)
        const key = `${role} ${id}/${claim.state}`
        if (what === null) continue
        wrong[key] = what
        // What stays wrong was told where it began.
        if (s.wrong[key] !== what) tellOf(what, `${id}/${claim.state}`, look)
      }
    }
  }
  for (const never of procedure.never)
    if (never.when.length > 0 && never.when.every((claim) => holds(claim, s)))
      look.tell('forbidden-together', subjectOf(never))
  for (const state of procedure.states)
    if (state.heldBy.length > 0 && !state.heldBy.some((way) => way.every((claim) => holds(claim, s))))
      look.tell('unheld', state.id)
  for (const keep of look.keeps)
    if (s.spans.includes(keep.id))
      for (const claim of keep.claims) if (!holds(claim, s)) look.tell('span-broken', claim.state)
  return { ...s, wrong, seen: procedure.zones.some((zone) => zone.entry) ? s.people : {} }
}

const subjectOf = (never: NeverTogether): string =>
  never.when
    .map((claim) => claim.state)
    .sort()
    .join('+')

function isAdmitted(role: string, s: Situation, { step, phase }: Look): boolean {
  const isSigned = step.holds.some((hold) => hold.timing === 'before' && hold.kind === 'hold' && hold.role === role)
  const isPermitted = [...step.permits, ...(phase?.permits ?? [])].some((permit) => permit.by === role)
  return isSigned || isPermitted || s.admitted.includes(role)
}

/** What is wrong with a state that a zone rests on; null where nothing is. */
function wrongAbout(claim: Claim, s: Situation, look: Look, facts: Facts): string | null {
  const state = facts.stateById.get(claim.state)
  if (state === undefined) return null
  if (!holds(claim, s)) return 'zone'
  if (state.provedBy.length === 0) return null
  look.restsOn(state.id)
  const status = s.proofs[state.id]?.status ?? 'never'
  return status === 'proved' ? null : status
}

function tellOf(what: string, subject: string, { moment, tell }: Look): void {
  if (what === 'zone') tell(moment === 'move' ? 'zone-unsafe' : 'zone-not-cleared', subject)
  // Whether another way takes the proof is known only at the end: `never` is settled there.
  else tell(what === 'never' ? 'proof-never' : what === 'spent' ? 'proof-stale' : 'proof-lapsed', subject)
}

/** A state that is changed, with everything that a change by itself brings about. */
export function changed(
  s: Situation,
  id: string,
  value: string,
  actors: readonly string[],
  tell: Tell,
  facts: Facts,
): Situation {
  const state = facts.stateById.get(id)
  const before = s.values[id]
  if (state === undefined || before === undefined || before === value) return s
  const becomesUnsafe = state.safe.includes(before) && !state.safe.includes(value)
  const isDriven = ['motion', 'electrical', 'mechanical', 'rotation'].includes(state.energy ?? '')
  if (becomesUnsafe && isDriven && facts.guards.some((guard) => s.values[guard] === 'removed'))
    tell('guard-off-at-start', id)
  const proof = s.proofs[id]
  return {
    ...s,
    values: { ...s.values, [id]: value },
    touched: [...new Set([...s.touched, id])].sort(),
    ...(proof ? { changedBy: { ...s.changedBy, [id]: [...actors].sort() } } : {}),
    ...(proof?.status === 'proved' ? { proofs: { ...s.proofs, [id]: { status: 'spent' as const, age: 0 } } } : {}),
  }
}

export function isChosen(step: Step, facts: Facts): boolean {
  return applies(step.only, facts.chosen)
}
