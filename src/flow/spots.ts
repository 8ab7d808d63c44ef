import type { GraphEdge, GraphNode } from '../model/graph.ts'
import type { Phase, Procedure } from '../model/procedure.ts'
import { type ConditionContext, compileCondition, type ReadCondition } from './conditions.ts'
import { type Job, type Move, movesOf, zonesOf } from './job.ts'
import type { Keeping } from './keeps.ts'
import {
  actorsOf,
  type CompactClaim,
  compactClaims,
  homeOf,
  isInVariant,
  positionsAt,
  type Subjects,
  suffixOf,
  withSubSteps,
} from './subjects.ts'
import { type Way, type WayContext, waysOut } from './ways.ts'

/** The doorway of a phase: who goes where. */
export interface Door {
  readonly when: ReadCondition | null
  readonly isInVariant: boolean
  readonly moves: readonly Move[]
  readonly clear: readonly number[]
  readonly keeps: readonly number[]
}

/** A node of the graph with everything that happens there. */
export interface Spot {
  readonly node: GraphNode
  readonly number: number
  readonly job: Job | null
  readonly door: Door | null
  /** The phase in whose course it stands: for steps done again, that of the reading they lead back to. */
  readonly home: Phase | null
  readonly passed: readonly Way[]
  readonly failed: readonly Way[]
  readonly skipped: readonly Way[]
  /** Bounded ways out of limit that nothing follows once they are used up. */
  readonly endsOpen: readonly Way[]
  /** Keeps that hold here for as long as the spot lasts. */
  readonly keeps: readonly number[]
  readonly keepsBegun: readonly number[]
  readonly keepsEnded: readonly number[]
  /** For a stop: what may be left as it is. */
  readonly leave: readonly CompactClaim[]
}

export function doorOf(node: GraphNode, subjects: Subjects, context: ConditionContext): Door | null {
  const phase = subjects.phaseById.get(node.phase ?? '')
  if (phase === undefined) return null
  const here = { suffix: suffixOf(phase.id), positions: positionsAt(phase.id, phase) }
  const steps = withSubSteps(phase.steps)
  const named = phase.by.flatMap((role) => subjects.roleNumber.get(role) ?? [])
  const actors = [...new Set([...named, ...steps.flatMap((step) => actorsOf(step, subjects))])]
  return {
    when: phase.when === null ? null : compileCondition(phase.when, here, context),
    isInVariant: isInVariant(phase.only, subjects.variants),
    moves: movesOf(phase.where, actors, subjects),
    clear: zonesOf(phase.clear, subjects),
    keeps: [],
  }
}

/** What the spots of one plan are made from. */
export interface SpotContext extends WayContext {
  readonly procedure: Procedure
  readonly jobs: ReadonlyMap<string, Job>
  readonly doors: readonly (Door | null)[]
  readonly keepings: readonly Keeping[]
  readonly subjects: Subjects
}

export function spotOf(node: GraphNode, number: number, context: SpotContext): Spot {
  const { procedure, subjects, keepings } = context
  const ways = waysOut(node, context)
  const outcome = (wanted: GraphEdge['outcome']): readonly Way[] =>
    ways.filter((way) => procedure.graph.edges[way.edge]?.outcome === wanted)
  const failed = outcome('failed')
  const homeStep = homeOf(node.id)
  const home = subjects.phaseOfStep.get(homeStep) ?? subjects.phaseById.get(node.phase ?? '') ?? null
  const numbersOf = (test: (keep: Keeping) => boolean): readonly number[] =>
    keepings.flatMap((keep, index) => (test(keep) ? [index] : []))
  return {
    node,
    number,
    job: (node.step === null ? null : context.jobs.get(node.step)) ?? null,
    door: context.doors[number] ?? null,
    home,
    passed: outcome('passed'),
    failed,
    skipped: outcome('skipped'),
    endsOpen: failed.filter((way) => way.counts >= 0 && !failed.some((other) => other.after === way.counts)),
    keeps: numbersOf((keep) => keep.slot < 0 && (keep.phase === null ? keep.step === node.step : keep.phase === home)),
    keepsBegun: numbersOf(
      (keep) =>
        keep.slot >= 0 && (keep.phase === null ? keep.step === node.step : `phase:${keep.phase.id}` === node.id),
    ),
    keepsEnded: numbersOf((keep) => keep.slot >= 0 && keep.through === node.step),
    leave: compactClaims(node.leave, subjects),
  }
}
