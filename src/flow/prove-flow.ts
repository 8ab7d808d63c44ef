import type { Procedure } from '../model/procedure.ts'
import { endlessIn, unreachableIn } from './dead-ends.ts'
import { type ExploreBounds, explore } from './explore.ts'
import { hasKnownNames } from './known-names.ts'
import { liveBytes } from './live.ts'
import { resumingOf } from './pause.ts'
import { planOf } from './plan.ts'
import type { FlowFault, FlowFaultName, FlowProof } from './proof.ts'
import { notModelled, provedProperties } from './proved.ts'
import type { Run } from './run.ts'
import type { Variants } from './subjects.ts'
import { tellFaults } from './tell.ts'
import { tooLarge } from './too-large.ts'
import { variantsOf } from './variants.ts'
import { whereaboutsOf } from './whereabouts.ts'

export interface FlowBounds extends ExploreBounds {
  /** Combinations of variants that are followed. */
  readonly variants: number
}

export const ORDINARY_BOUNDS: FlowBounds = { situations: 400_000, variants: 64 }

/** Faults that somebody must know of, but that contradict no proof. */
const MILD: ReadonlySet<FlowFaultName> = new Set(['exposed', 'unreachable'])

/** Follows every way through a procedure, and says what holds on all of them; the rules are in `semantics.md`. */
export function proveFlow(procedure: Procedure, bounds: FlowBounds = ORDINARY_BOUNDS): FlowProof {
  const beside = notModelled(procedure)
  const nothing = { situations: 0, variants: 0, faults: [], properties: [], notModelled: beside }
  if (!hasKnownNames(procedure)) return { ...nothing, verdict: 'not-proved' }
  const combinations = variantsOf(procedure)
  const runs = combinations.slice(0, bounds.variants).map((variants) => exploreOne(procedure, variants, bounds))
  const large = tooLarge(procedure, runs, combinations.length - runs.length)
  const told = [
    ...tellFaults(runs),
    ...endlessIn(procedure, runs),
    ...(large ? [large] : unreachableIn(procedure, runs)),
  ].sort(inOrder)
  const isFaulty = told.some((fault) => !MILD.has(fault.fault) && fault.fault !== 'not-proved')
  return {
    verdict: isFaulty
      ? 'faulty'
      : large
        ? 'not-proved'
        : hasSomethingToProve(procedure)
          ? 'proved'
          : 'nothing-to-prove',
    situations: runs.reduce((sum, run) => sum + run.all.count, 0),
    variants: runs.length,
    faults: told,
    properties: large ? [] : provedProperties(procedure, runs, told),
    notModelled: beside,
  }
}

function exploreOne(procedure: Procedure, variants: Variants, bounds: FlowBounds): Run {
  const plan = planOf(procedure, variants)
  const resuming = resumingOf(plan)
  const mayBe = whereaboutsOf(plan)
  const run = explore(plan, liveBytes(plan, mayBe, resuming, new Set()), resuming, bounds)
  if (run.unproved.size === 0) return run
  return explore(plan, liveBytes(plan, mayBe, resuming, run.unproved), resuming, bounds)
}

/** States, zones, bans and keeps: without any of them there is nothing that could be wrong. */
function hasSomethingToProve(procedure: Procedure): boolean {
  return procedure.states.length > 0 || procedure.zones.length > 0 || procedure.never.length > 0
}

/** In the order of the text, and always the same. */
function inOrder(a: FlowFault, b: FlowFault): number {
  return (
    a.at.start - b.at.start ||
    (a.fault < b.fault ? -1 : a.fault > b.fault ? 1 : 0) ||
    (a.subject < b.subject ? -1 : a.subject > b.subject ? 1 : 0) ||
    a.length - b.length
  )
}
