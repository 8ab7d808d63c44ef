import type { GraphNode } from '../model/graph.ts'
import type { Phase, Procedure } from '../model/procedure.ts'
import { type ConditionContext, compileCondition, cutReadings, type Question, type Standpoint } from './conditions.ts'
import { formulasOf, jobOf } from './job.ts'
import { type Keeping, keepsOf, withSlots } from './keeps.ts'
import { type Layout, layOut } from './layout.ts'
import { locksOfStates } from './locks.ts'
import { type ReadingTable, readExpression, trackReadings } from './readings.ts'
import { doorOf, type Spot, spotOf } from './spots.ts'
import { type SideBySide, sideBySide, standIn } from './strands.ts'
import {
  type CompactClaim,
  compactClaims,
  homeOf,
  positionsAt,
  type Subjects,
  subjectsOf,
  suffixOf,
  type Variants,
  valueNumber,
  valuesAmong,
  withSubSteps,
} from './subjects.ts'
import { type Clock, clockOf, longestWait } from './waits.ts'
import { edgeTable } from './ways.ts'

/** A procedure in one combination of variants, ready to be explored. */
export interface Plan extends Clock {
  readonly subjects: Subjects
  readonly readings: ReadingTable
  readonly questions: readonly Question[]
  /** By reading: questions whose answers are void when it is taken anew. */
  readonly questionsOn: readonly (readonly number[])[]
  readonly layout: Layout
  readonly spots: readonly Spot[]
  readonly start: number
  /** Phases worked `together`. */
  readonly together: readonly SideBySide[]
  /** By number of a spot: the phase worked `together` that it belongs to. */
  readonly sideBySide: ReadonlyMap<number, SideBySide>
  readonly never: readonly (readonly CompactClaim[])[]
  /** For each state with `held-by`, its alternatives. */
  readonly heldBy: ReadonlyMap<number, readonly (readonly CompactClaim[])[]>
  readonly keeps: readonly Keeping[]
  /** By state: bans, held states and keeps to look at when it changes. */
  readonly neverOf: readonly (readonly number[])[]
  readonly heldOf: readonly (readonly number[])[]
  readonly safe: readonly Uint8Array[]
  readonly end: readonly Uint8Array[]
  readonly unknown: readonly number[]
  /** States of which it matters, when they are set, whether that changes them. */
  readonly compared: readonly boolean[]
  readonly locksOf: readonly (readonly number[])[]
  /** States whose leaving a safe value asks for guards. */
  readonly drives: readonly boolean[]
  readonly guards: readonly { readonly state: number; readonly removed: number }[]
  /** Roles that admit to each zone. */
  readonly entry: readonly (number | null)[]
}

const GUARD_WORDS = /guard|fence|gate|barrier|railing|interlock/
/** What a guard keeps hands away from: what turns, or makes turn. */
const BEHIND_GUARDS = new Set(['motion', 'electrical', 'mechanical', 'rotation'])

export function planOf(procedure: Procedure, variants: Variants): Plan {
  const subjects = subjectsOf(procedure, variants)
  const { states, zones, graph, never } = { ...procedure }
  const conditions = conditionsOf(procedure)
  const formulas = subjects.order.flatMap((step) => step.readings.flatMap(formulasOf))
  const texts = [...conditions.map(({ text }) => text), ...formulas]
  const readings = trackReadings(subjects, texts.map(readExpression))
  for (const { text, here } of conditions) cutReadings(text, here, readings)
  const questions: Question[] = []
  const conditionContext: ConditionContext = { subjects, readings, questions }
  const jobs = new Map(
    subjects.order.map((step) => [step.id, jobOf(step, phaseOf(step.id, subjects), conditionContext)]),
  )
  const keeps = keepsOf(subjects)
  const spotNumber = new Map(graph.nodes.map((node, number) => [node.id, number]))
  const nodeById = new Map(graph.nodes.map((node) => [node.id, node]))
  const edgeConditions = graph.edges.map((edge) =>
    edge.when === null
      ? null
      : compileCondition(edge.when, standpoint(nodeById.get(edge.from), subjects), conditionContext),
  )
  const doors = graph.nodes.map((node) => (node.kind === 'phase' ? doorOf(node, subjects, conditionContext) : null))
  const layout = layOut(subjects, {
    readings: readings.tracked,
    questions,
    keeps: keeps.filter((keep) => keep.through !== null).length,
    sideBySide: Math.max(
      0,
      ...procedure.phases.map((phase) => (phase.together ? withSubSteps(phase.steps).length : 0)),
    ),
    hasWaits: subjects.order.some((step) => longestWait(step) !== null),
  })
  const keepings = withSlots(keeps, layout)
  const locksOf = locksOfStates(subjects)
  const drives = states.map(({ energy, safe }) => energy !== null && BEHIND_GUARDS.has(energy) && safe.length > 0)
  const guards = states.flatMap((state, number) => {
    const removed = state.implied && GUARD_WORDS.test(state.name) ? valueNumber(subjects, number, 'removed') : -1
    return removed < 0 ? [] : [{ state: number, removed }]
  })
  const context = {
    procedure,
    jobs,
    doors,
    keepings,
    layout,
    spotNumber,
    edgeConditions,
    edges: edgeTable(procedure),
    subjects,
  }
  const nodes = graph.nodes.map((node, number) => spotOf(node, number, context))
  const together = sideBySide(procedure, nodes)
  return {
    subjects,
    readings,
    questions,
    questionsOn: readings.tracked.map((_, reading) =>
      questions.flatMap((question, number) => (question.readings.includes(reading) ? [number] : [])),
    ),
    layout,
    spots: [...nodes, ...together.map((phase) => spotOf(standIn(phase), phase.spot, context))],
    start: spotNumber.get(graph.start) ?? 0,
    together,
    sideBySide: new Map(
      together.flatMap((phase) => [
        [phase.spot, phase] as const,
        ...phase.strands.flatMap((strand) => [...strand.starts.keys()].map((spot) => [spot, phase] as const)),
      ]),
    ),
    never: never.map((ban) => compactClaims(ban.when, subjects)),
    heldBy: new Map(
      states.flatMap((state, number) =>
        state.heldBy.length === 0
          ? []
          : [[number, state.heldBy.map((claims) => compactClaims(claims, subjects))] as const],
      ),
    ),
    keeps: keepings,
    neverOf: states.map((state) => never.flatMap((ban, index) => (mentions(ban.when, state.id) ? [index] : []))),
    heldOf: states.map((state) =>
      states.flatMap((held, number) =>
        held.heldBy.length > 0 && (held.id === state.id || held.heldBy.some((claims) => mentions(claims, state.id)))
          ? [number]
          : [],
      ),
    ),
    safe: states.map((state, number) => valuesAmong(number, state.safe, subjects)),
    end: states.map((state, number) => valuesAmong(number, state.end, subjects)),
    unknown: states.map((_, number) => valueNumber(subjects, number, 'unknown')),
    compared: states.map(
      (_, state) =>
        (layout.proof[state] ?? -1) >= 0 ||
        (layout.touched[state] ?? -1) >= 0 ||
        (subjects.restOn[state] ?? []).length > 0 ||
        (locksOf[state] ?? []).length > 0 ||
        (drives[state] === true && guards.length > 0) ||
        layout.ownWork.some((own) => own.state === state),
    ),
    locksOf,
    drives,
    guards,
    ...clockOf(subjects),
    entry: zones.map((zone) => (zone.entry === null ? null : (subjects.roleNumber.get(zone.entry) ?? null))),
  }
}

const mentions = (claims: readonly { readonly state: string }[], state: string): boolean =>
  claims.some((claim) => claim.state === state)

function phaseOf(step: string, subjects: Subjects): Phase {
  const phase = subjects.phaseOfStep.get(step)
  if (phase === undefined) throw new Error(`no phase of ${step}`)
  return phase
}

/** Every condition that stands somewhere, with what names mean there. */
function conditionsOf(procedure: Procedure): readonly { readonly text: string; readonly here: Standpoint }[] {
  return procedure.phases.flatMap((phase) => {
    const ofPhase = [phase.when, phase.until?.condition ?? null].flatMap((text) => text ?? [])
    const here = { suffix: suffixOf(phase.id), positions: positionsAt(phase.id, phase) }
    return [
      ...ofPhase.map((text) => ({ text, here })),
      ...withSubSteps(phase.steps).flatMap((step) => {
        const texts = [step.when, ...(step.decide?.branches.map((branch) => branch.when) ?? [])]
        const there = { suffix: suffixOf(step.id), positions: positionsAt(step.id, phase) }
        return texts.flatMap((text) => (text === null ? [] : [{ text, here: there }]))
      }),
    ]
  })
}

function standpoint(node: GraphNode | undefined, subjects: Subjects): Standpoint {
  const id = node?.step ?? node?.phase ?? homeOf(node?.id ?? '')
  const phase = subjects.phaseOfStep.get(id) ?? subjects.phaseById.get(id)
  return { suffix: suffixOf(id), positions: positionsAt(id, phase) }
}
