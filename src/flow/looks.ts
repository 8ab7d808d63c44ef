import { LAPSED, NEVER, PROVED, SPENT, WATCHED } from './layout.ts'
import { type Run, report } from './run.ts'
import { type CompactClaim, OUT } from './subjects.ts'

/**
 * What is looked at when somebody moves: every zone that he was not in before.
 * @param isNewPhase whoever admits people to a zone does so for each phase
 */
export function lookAtPerson(run: Run, row: Uint8Array, role: number, from: number, isNewPhase: boolean): void {
  const { plan } = run
  const { zones } = plan.subjects.places
  const place = row[plan.layout.place[role] ?? 0] ?? OUT
  for (const zone of zones[place] ?? []) {
    const wasIn = zones[from]?.includes(zone) ?? false
    if (isExcused(run, role, zone) || (wasIn && !isNewPhase)) continue
    if (!wasIn)
      for (const claim of plan.subjects.safeWhen[zone] ?? []) lookAtClaim(run, row, role, zone, claim, 'zone-unsafe')
    const admits = plan.entry[zone]
    if (admits == null) continue
    const slot = plan.layout.admitted.get(admits) ?? 0
    if (row[slot] !== 1 && !run.spot.job?.admits.includes(admits))
      report(run, 'proof-missing', zone, plan.subjects.states.length + admits, role)
  }
}

/** What is looked at when a state changes, or a proof ends: everyone in the zones that rest on it. */
export function lookAtPeopleRestingOn(run: Run, row: Uint8Array, state: number): void {
  const { plan } = run
  const zones = plan.subjects.restOn[state] ?? []
  if (zones.length === 0) return
  for (let role = 0; role < plan.subjects.roles.length; role++) {
    const place = row[plan.layout.place[role] ?? 0] ?? OUT
    if (place === OUT) continue
    for (const zone of plan.subjects.places.zones[place] ?? []) {
      if (!zones.includes(zone) || isExcused(run, role, zone)) continue
      for (const claim of plan.subjects.safeWhen[zone] ?? [])
        if (claim.state === state) lookAtClaim(run, row, role, zone, claim, 'zone-not-cleared')
    }
  }
}

/** Whether somebody stands where a proof that is watched keeps him safe. */
export function lookForReliance(run: Run, row: Uint8Array, state: number): void {
  if (row[run.plan.layout.proof[state] ?? 0] === WATCHED) lookAtPeopleRestingOn(run, row, state)
}

/** Bans, held loads and keeps in which a state has a part, after it changed. */
export function lookAtThingsWith(run: Run, row: Uint8Array, state: number): void {
  const { plan } = run
  for (const ban of plan.neverOf[state] ?? []) lookAtBan(run, row, ban)
  for (const held of plan.heldOf[state] ?? []) lookAtHeld(run, row, held)
  for (const keep of run.spot.keeps) lookAtKeep(run, row, keep, state)
  for (const [keep, keeping] of plan.keeps.entries())
    if (keeping.slot >= 0 && row[keeping.slot] === 1) lookAtKeep(run, row, keep, state)
}

/** Everything at once, as it stands at the start of the work. */
export function lookAtAllThings(run: Run, row: Uint8Array): void {
  for (const ban of run.plan.never.keys()) lookAtBan(run, row, ban)
  for (const held of run.plan.heldBy.keys()) lookAtHeld(run, row, held)
}

export function lookAtKeep(run: Run, row: Uint8Array, keep: number, changed: number | null): void {
  for (const claim of run.plan.keeps[keep]?.claims ?? [])
    if ((changed === null || claim.state === changed) && !fulfils(run, row, claim))
      report(run, 'span-broken', claim.state, keep)
}

function lookAtBan(run: Run, row: Uint8Array, ban: number): void {
  const claims = run.plan.never[ban] ?? []
  if (claims.length > 0 && claims.every((claim) => fulfils(run, row, claim))) report(run, 'forbidden-together', ban)
}

function lookAtHeld(run: Run, row: Uint8Array, held: number): void {
  const alternatives = run.plan.heldBy.get(held) ?? []
  if (!alternatives.some((claims) => claims.every((claim) => fulfils(run, row, claim)))) report(run, 'unheld', held)
}

export function fulfils(run: Run, row: Uint8Array, claim: CompactClaim): boolean {
  return claim.ok[row[run.plan.layout.value[claim.state] ?? 0] ?? 0] === 1
}

function isExcused(run: Run, role: number, zone: number): boolean {
  const key = role * run.plan.subjects.safeWhen.length + zone
  return run.spot.job?.excused.has(key) || run.beside.some((job) => job.excused.has(key))
}

function lookAtClaim(
  run: Run,
  row: Uint8Array,
  role: number,
  zone: number,
  claim: CompactClaim,
  unsafe: 'zone-unsafe' | 'zone-not-cleared',
): void {
  if (!fulfils(run, row, claim)) {
    report(run, unsafe, zone, claim.state, role)
    return
  }
  const slot = run.plan.layout.proof[claim.state] ?? -1
  if (slot < 0) return
  const proof = row[slot] ?? NEVER
  if (proof === PROVED) return
  if (proof === WATCHED) run.isReliedOn = true
  if (proof === NEVER) report(run, 'proof-missing', zone, claim.state, role)
  if (proof === SPENT) report(run, 'proof-stale', zone, claim.state, role)
  if (proof === LAPSED) report(run, 'proof-lapsed', zone, claim.state, role)
}
