import type { GraphEdge, GraphNode, Phase, Procedure } from '../model/procedure.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import { compare, multiply, rational } from '../quantities/rational.ts'
import {
  type ConditionContext,
  compileCondition,
  cutReadings,
  type Question,
  type ReadCondition,
  type Standpoint,
} from './conditions.ts'
import { formulasOf, type Job, jobOf, type Move, movesOf, zonesOf } from './job.ts'
import { type Layout, layOut } from './layout.ts'
import { locksOfStates } from './locks.ts'
import { type ReadingTable, readExpression, trackReadings } from './readings.ts'
import {
  actorsOf,
  type CompactClaim,
  compactClaims,
  isInVariant,
  positionsAt,
  type Subjects,
  subjectsOf,
  suffixOf,
  type Variants,
  valueNumber,
  valuesAmong,
  withSubSteps,
} from './subjects.ts'
import { longestWait, minutesOf } from './waits.ts'

/** One edge of the graph as the exploration takes it. */
export interface Way {
  readonly edge: number
  readonly kind: GraphEdge['kind']
  readonly to: number
  readonly condition: ReadCondition | null
  /** Byte that counts how often this bounded way was taken; −1 where it has no bound. */
  readonly counts: number
  readonly mostOften: number
  /** Byte of the bounded way that must be used up first, and when it is. */
  readonly after: number
  readonly afterCount: number
  /** Counts that begin anew. */
  readonly resets: readonly number[]
}

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

/** A phase worked `together`: its steps run side by side, each on its own strand. */
export interface SideBySide {
  /** Number of the spot that stands for the phase while it lasts. */
  readonly spot: number
  readonly phase: Phase
  readonly strands: readonly Strand[]
}

/** One step of such a phase, with the steps that are done again on the way back to it. */
export interface Strand {
  readonly home: Spot
  /** All moments in a row; a situation says which comes next, counted from 1. */
  readonly moments: readonly { readonly spot: Spot; readonly moment: number }[]
  /** By number of a spot: its first moment. */
  readonly starts: ReadonlyMap<number, number>
}

export interface Keeping {
  readonly name: string
  readonly claims: readonly CompactClaim[]
  readonly phase: Phase | null
  readonly step: string | null
  readonly through: string | null
  /** Byte that says whether it is on, for those that end with a step. */
  readonly slot: number
}

/** A procedure in one combination of variants, ready to be explored. */
export interface Plan {
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
  /** Times in whole ticks: `lapses` of each state, and how many ticks a minute is. */
  readonly lapses: readonly (number | null)[]
  readonly ticks: (minutes: Rational) => number
  /** Roles that admit to each zone. */
  readonly entry: readonly (number | null)[]
}

const GUARD_WORDS = /guard|fence|gate|barrier|railing|interlock|cover/
/** What a guard keeps hands away from; a load that hangs and a hot part are behind no guard. */
const NOT_BEHIND_GUARDS = new Set(['gravity', 'thermal'])
const MOST_COUNTED = 250

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
  const drives = states.map(({ energy, safe }) => energy !== null && !NOT_BEHIND_GUARDS.has(energy) && safe.length > 0)
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

function sideBySide(procedure: Procedure, spots: readonly Spot[]): readonly SideBySide[] {
  return procedure.phases
    .filter((phase) => phase.together && phase.steps.length > 0)
    .map((phase, index) => ({
      spot: spots.length + index,
      phase,
      strands: withSubSteps(phase.steps).flatMap((step) => {
        const own = spots.filter((spot) => spot.job !== null && homeOf(spot.node.id) === step.id)
        const home = own.find((spot) => spot.node.id === step.id)
        return home ? [strandOf(home, own)] : []
      }),
    }))
}

function strandOf(home: Spot, own: readonly Spot[]): Strand {
  const moments: { spot: Spot; moment: number }[] = []
  const starts = new Map<number, number>()
  for (const spot of [home, ...own.filter((other) => other !== home)]) {
    starts.set(spot.number, moments.length + 1)
    for (const moment of spot.job?.moments.keys() ?? []) moments.push({ spot, moment })
  }
  return { home, moments, starts }
}

/** The node that stands for a phase while its steps run side by side. */
function standIn(phase: SideBySide): GraphNode {
  return { id: `together:${phase.phase.id}`, kind: 'step', phase: phase.phase.id, step: null, reason: null, leave: [] }
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

/** The step in whose course a node of the graph stands: `pump~read` stands before `read`. */
export function homeOf(node: string): string {
  const parts = node.split('~').filter((part) => part !== 'after')
  return parts.at(-1) ?? node
}

function doorOf(node: GraphNode, subjects: Subjects, context: ConditionContext): Door | null {
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

function keepsOf(subjects: Subjects): readonly Omit<Keeping, 'slot'>[] {
  return subjects.procedure.phases
    .flatMap((phase) => [
      ...phase.keeps.map((keep) => ({ keep, phase, step: null })),
      ...withSubSteps(phase.steps).flatMap((step) => step.keeps.map((keep) => ({ keep, phase: null, step: step.id }))),
    ])
    .flatMap(({ keep, phase, step }) => {
      const claims = compactClaims(keep.states, subjects)
      return claims.length === 0 ? [] : [{ name: keep.name, claims, phase, step, through: keep.through?.id ?? null }]
    })
}

function withSlots(keeps: readonly Omit<Keeping, 'slot'>[], layout: Layout): readonly Keeping[] {
  let next = 0
  return keeps.map((keep) => ({ ...keep, slot: keep.through === null ? -1 : (layout.keeping[next++] ?? -1) }))
}

interface SpotContext {
  readonly procedure: Procedure
  readonly jobs: ReadonlyMap<string, Job>
  readonly doors: readonly (Door | null)[]
  readonly keepings: readonly Keeping[]
  readonly layout: Layout
  readonly spotNumber: ReadonlyMap<string, number>
  readonly edgeConditions: readonly (ReadCondition | null)[]
  readonly edges: EdgeTable
  readonly subjects: Subjects
}

function spotOf(node: GraphNode, number: number, context: SpotContext): Spot {
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

function waysOut(node: GraphNode, context: SpotContext): readonly Way[] {
  const { layout, spotNumber, edgeConditions, edges } = context
  const out = edges.from.get(node.id) ?? []
  const here = [...new Set(out.flatMap(({ edge }) => edge.way ?? []))]
  const isLoop = (way: string): boolean => way.startsWith('until:')
  const count = (way: string | null): number => (way === null ? -1 : (layout.taken.get(way) ?? -1))
  const most = (way: string | null): number => Math.min(edges.bounds.get(way ?? '') ?? 1, MOST_COUNTED) - 1
  return out.map(({ edge, number }): Way => {
    const { way, usedUp } = edge
    const left = way !== null && !isLoop(way) ? [] : here.filter((other) => other !== way)
    const entered = (edges.loops.get(edge.to) ?? []).filter((loop) => loop !== way)
    return {
      edge: number,
      kind: edge.kind,
      to: spotNumber.get(edge.to) ?? 0,
      condition: edgeConditions[number] ?? null,
      counts: count(way),
      mostOften: way === null ? 0 : most(way),
      after: count(usedUp),
      afterCount: usedUp === null ? 0 : most(usedUp),
      resets: [...new Set([...left, ...entered])].map(count).filter((slot) => slot >= 0),
    }
  })
}

/** The edges of the graph, as they are asked for. */
interface EdgeTable {
  readonly from: ReadonlyMap<string, readonly { readonly edge: GraphEdge; readonly number: number }[]>
  /** How often each bounded way may be taken, the first time included. */
  readonly bounds: ReadonlyMap<string, number>
  /** By id of a doorway: ways back of the repeats that begin there. */
  readonly loops: ReadonlyMap<string, readonly string[]>
}

function edgeTable(procedure: Procedure): EdgeTable {
  const from = new Map<string, { edge: GraphEdge; number: number }[]>()
  const bounds = new Map<string, number>()
  const loops = new Map<string, string[]>()
  for (const [number, edge] of procedure.graph.edges.entries()) {
    from.set(edge.from, from.get(edge.from) ?? [])
    from.get(edge.from)?.push({ edge, number })
    if (edge.way !== null && edge.atMost !== null) bounds.set(edge.way, edge.atMost)
  }
  for (const { id, until } of procedure.phases) {
    const doorway = `phase:${until?.first ?? ''}`
    if (until) loops.set(doorway, [...(loops.get(doorway) ?? []), `until:${id}`])
  }
  return { from, bounds, loops }
}

/** All times as whole ticks, so that ages are added exactly. */
function clockOf(subjects: Subjects): Pick<Plan, 'lapses' | 'ticks'> {
  const limits = subjects.states.map((state) => minutesOf(state.lapses))
  const waits = subjects.order.map(longestWait)
  let perMinute = 1n
  for (const time of [...limits, ...waits]) if (time) perMinute = leastCommonMultiple(perMinute, time.denominator)
  const ticks = (minutes: Rational): number => Number(multiply(minutes, rational(perMinute)).numerator)
  return {
    ticks,
    lapses: limits.map((limit) => (limit && compare(limit, rational(0n)) > 0 ? ticks(limit) : null)),
  }
}

function leastCommonMultiple(a: bigint, b: bigint): bigint {
  let [x, y] = [a, b]
  while (y !== 0n) [x, y] = [y, x % y]
  return (a / x) * b
}
