import { isReliedOn } from './explore.ts'
import { NEVER } from './layout.ts'
import { pathTo } from './path.ts'
import type { FlowFault } from './proof.ts'
import type { Run, Sighting } from './run.ts'
import { storyOf } from './story.ts'
import { tellExposed, tellLockout, tellReading, tellStuck, tellUnpaired } from './tell-others.ts'
import {
  tellProofBypassed,
  tellProofLapsed,
  tellProofMissing,
  tellProofStale,
  tellResume,
  tellSigner,
} from './tell-proofs.ts'
import { tellForbidden, tellGuard, tellNeed, tellNotPutBack, tellSpan, tellStop, tellUnheld } from './tell-states.ts'
import { tellZoneNotCleared, tellZoneUnsafe } from './tell-zones.ts'
import { type Seen, stepBefore, type Told } from './telling.ts'
import { BEGUN, insideMark } from './together.ts'

const TELL: { readonly [fault in FlowFault['fault']]?: (seen: Seen) => Told } = {
  'zone-unsafe': tellZoneUnsafe,
  'zone-not-cleared': tellZoneNotCleared,
  'need-unmet': tellNeed,
  'proof-missing': tellProofMissing,
  'proof-stale': tellProofStale,
  'proof-bypassed': tellProofBypassed,
  'proof-lapsed': tellProofLapsed,
  'signer-not-independent': tellSigner,
  unheld: tellUnheld,
  'forbidden-together': tellForbidden,
  'not-put-back': tellNotPutBack,
  'left-snug': tellNotPutBack,
  'lock-unpaired': tellUnpaired,
  'lockout-order': tellLockout,
  'reading-missing': tellReading,
  'reading-stale': tellReading,
  endless: tellStuck,
  'span-broken': tellSpan,
  'guard-off-at-start': tellGuard,
  'stop-unsafe': tellStop,
  'resume-unproved': tellResume,
  exposed: tellExposed,
}

interface Heard {
  readonly seen: Seen
  readonly told: Told
  readonly fault: FlowFault['fault']
}

/** Every fault once, with the shortest way that shows it; other steps where it shows are named. */
export function tellFaults(runs: readonly Run[]): readonly FlowFault[] {
  const groups = new Map<string, Heard[]>()
  for (const run of runs) {
    const bypassed = bypassedProofs(run)
    for (const sightings of run.sightings.values())
      for (const sighting of reliedOn(run, sightings)) {
        const heard = hear(run, sighting, bypassed)
        if (heard === null) continue
        const key = `${heard.fault} ${heard.told.subject} ${heard.told.cause}`
        const same = groups.get(key)
        if (same) same.push(heard)
        else groups.set(key, [heard])
      }
  }
  return [...groups.values()].flatMap((heard) => {
    const [first] = [...heard].sort((a, b) => a.seen.path.length - b.seen.path.length)
    return first ? [faultOf(first, heard)] : []
  })
}

/** A proof that nobody relies on any more need not be taken again after a pause. */
function reliedOn(run: Run, sightings: readonly Sighting[]): readonly Sighting[] {
  const [first] = sightings
  if (first?.fault !== 'resume-unproved') return sightings
  const found = sightings.find(({ situation, about }) => isReliedOn(run, situation, about))
  return found ? [found] : []
}

function hear(run: Run, sighting: Sighting, bypassed: ReadonlySet<string>): Heard | null {
  const { plan } = run
  const spot = plan.spots[sighting.spot]
  if (spot === undefined) return null
  const path = pathTo(run, sighting.situation)
  // In a phase worked `together` a step that is only beginning is not on the way yet.
  const isOn = path.some((passed) => passed.spot === spot)
  const here = { spot, way: null, isSkipped: false, isOut: false }
  const seen: Seen = { run, plan, sighting, spot, path: isOn ? path : [...path, here] }
  const isBypassed =
    sighting.fault === 'proof-missing' && sighting.about >= 0 && bypassed.has(`${sighting.spot} ${sighting.other}`)
  const fault = isBypassed ? 'proof-bypassed' : sighting.fault
  const told = TELL[fault]?.(seen)
  return told ? { seen, told, fault } : null
}

/** Places and states of which some way there has a proof, or had one. */
function bypassedProofs(run: Run): ReadonlySet<string> {
  const { plan, all } = run
  const asked = [...run.sightings.values()].flatMap((sightings) => {
    const [first] = sightings
    return first && first.fault === 'proof-missing' && first.about >= 0 ? [first] : []
  })
  const found = new Set<string>()
  if (asked.length === 0) return found
  const bytes = new Uint8Array(all.rows.buffer)
  // In a phase worked `together` somebody comes to a step where he begins it.
  const comesTo = (number: number, spot: number): boolean =>
    all.node[number] === spot || all.via[number] === insideMark(spot, BEGUN)
  for (let number = 0; number < all.count; number++)
    for (const { spot, other } of asked) {
      const slot = plan.layout.proof[other] ?? -1
      if (slot < 0 || !comesTo(number, spot)) continue
      if (bytes[number * plan.layout.width + slot] !== NEVER) found.add(`${spot} ${other}`)
    }
  return found
}

function faultOf(first: Heard, all: readonly Heard[]): FlowFault {
  const { seen, told, fault } = first
  const step = seen.spot.job?.step ?? stepBefore(seen.path)
  const others = all.flatMap(({ seen: { spot, path } }) => (spot.job?.step ?? stepBefore(path))?.number ?? [])
  return {
    fault,
    subject: told.subject,
    at: told.at,
    step: seen.spot.job?.step.id ?? (seen.spot.node.kind === 'stop' ? (step?.id ?? null) : null),
    message: told.message,
    advice: told.advice,
    story: storyOf(seen, told),
    length: seen.path.length - 1,
    alsoAt: [...new Set(others)].filter((number) => number !== step?.number),
    related: told.related,
  }
}
