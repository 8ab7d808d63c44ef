import type { GraphEdge, GraphNode } from '../../../src/model/graph.ts'
import type { Phase, Procedure, Step } from '../../../src/model/procedure.ts'
import type { State } from '../../../src/model/states.ts'
import { convertValue } from '../../../src/quantities/convert.ts'
import { parseLimit } from '../../../src/quantities/parse-limit.ts'
import type { Rational } from '../../../src/quantities/quantity-types.ts'
import { compare, fromExactText } from '../../../src/quantities/rational.ts'

/** What the naive explorer asks of a procedure, looked up afresh each time: obvious before fast. */
export interface Facts {
  readonly procedure: Procedure
  /** One value for each variant. */
  readonly chosen: Readonly<Record<string, string>>
  readonly steps: readonly Step[]
  readonly phaseOf: ReadonlyMap<string, Phase>
  readonly roles: readonly string[]
  readonly nodes: ReadonlyMap<string, GraphNode>
  readonly edgesFrom: ReadonlyMap<string, readonly GraphEdge[]>
  readonly stepById: ReadonlyMap<string, Step>
  readonly stateById: ReadonlyMap<string, State>
  /** States of things that come off and keep people away from what moves. */
  readonly guards: readonly string[]
  /** The states that each lock keeps safe, by the id of the locked thing. */
  readonly behindLocks: ReadonlyMap<string, readonly string[]>
}

type Written = Pick<Facts, 'procedure' | 'steps' | 'phaseOf'>

/** Who there is where a document names nobody. */
export const NOBODY_NAMED = '(somebody)'

export function factsOf(procedure: Procedure, chosen: Readonly<Record<string, string>>): Facts {
  const phaseOf = new Map<string, Phase>()
  for (const phase of procedure.phases) for (const step of flat(phase.steps)) phaseOf.set(step.id, phase)
  const steps = procedure.phases.flatMap((phase) => flat(phase.steps))
  const written = { procedure, steps, phaseOf }
  const edgesFrom = new Map(procedure.graph.nodes.map((node): [string, GraphEdge[]] => [node.id, []]))
  for (const edge of procedure.graph.edges) edgesFrom.get(edge.from)?.push(edge)
  return {
    ...written,
    chosen,
    nodes: new Map(procedure.graph.nodes.map((node) => [node.id, node])),
    edgesFrom,
    stepById: new Map(steps.map((step) => [step.id, step])),
    stateById: new Map(procedure.states.map((state) => [state.id, state])),
    guards: guardsOf(written),
    behindLocks: statesBehindLocks(written),
    roles: procedure.roles.length > 0 ? procedure.roles.map((role) => role.id) : [NOBODY_NAMED],
  }
}

export function flat(steps: readonly Step[]): readonly Step[] {
  return steps.flatMap((step) => [step, ...flat(step.steps)])
}

/** Every combination of variants, `{}` where there are none. */
export function combinations(procedure: Procedure): readonly Readonly<Record<string, string>>[] {
  return procedure.document.variants.reduce<readonly Readonly<Record<string, string>>[]>(
    (sofar, variant) => sofar.flatMap((one) => variant.values.map((value) => ({ ...one, [variant.name]: value }))),
    [{}],
  )
}

export function applies(only: Step['only'], chosen: Readonly<Record<string, string>>): boolean {
  return only === null || only.values.includes(chosen[only.variant] ?? '')
}

export function actorsOf(step: Step, facts: Facts): readonly string[] {
  const named = [...new Set([...step.by, ...step.acts.flatMap((act) => act.by)])]
  return named.length > 0 ? named : facts.roles
}

export function actorsOfPhase(phase: Phase, facts: Facts): readonly string[] {
  const named = [
    ...phase.by,
    ...flat(phase.steps).flatMap((step) => [...step.by, ...step.acts.flatMap((act) => act.by)]),
  ]
  return named.length > 0 ? [...new Set(named)] : facts.roles
}

/** Positions in whose pass a step stands: `left` of `wheel-off/x@left`, and of its phase. */
export function positionsOf(step: Step | null, phase: Phase | undefined): readonly string[] {
  const own = step?.id.includes('@') ? step.id.slice(step.id.indexOf('@') + 1).split('.') : []
  return [...own, ...(phase?.position?.values.map((value) => value.text) ?? [])]
}

/** A typed name of a state, zone or thing as the id that it means here. */
export function idHere(
  typed: string,
  positions: readonly string[],
  things: readonly { readonly id: string; readonly name: string; readonly position: string | null }[],
): string {
  if (things.some((thing) => thing.id === typed)) return typed
  const here = things.find((thing) => thing.name === typed && positions.includes(thing.position ?? ''))
  return here?.id ?? typed
}

/** Latest times of the waits together, earliest where no latest is given, in minutes. */
export function minutesOfWaits(step: Step): number {
  return step.waiting.reduce((sum, { earliest, latest }) => sum + numberOf(fromExactText(latest ?? earliest ?? '0')), 0)
}

function numberOf(value: Rational | null): number {
  return value === null ? 0 : Number(value.numerator) / Number(value.denominator)
}

export function minutesOfLimit(typed: string): number {
  const parsed = parseLimit(typed)
  if (!parsed.ok) return 0
  const { upper, lower, aim, unit } = parsed.value
  const value = upper?.value ?? lower?.value ?? aim
  if (value === null || value === undefined) return 0
  const minutes = convertValue(value, unit, 'min')
  return minutes.ok ? numberOf(minutes.value) : 0
}

interface PrintedEnds {
  readonly lower: { readonly exact: string; readonly inclusive: boolean } | null
  readonly upper: { readonly exact: string; readonly inclusive: boolean } | null
}

export function isWithin(value: Rational, { lower, upper }: PrintedEnds): boolean {
  const low = lower ? fromExactText(lower.exact) : null
  const high = upper ? fromExactText(upper.exact) : null
  if (low !== null && (compare(value, low) < 0 || (compare(value, low) === 0 && !lower?.inclusive))) return false
  return !(high !== null && (compare(value, high) > 0 || (compare(value, high) === 0 && !upper?.inclusive)))
}

const GUARD = /guard|fence|gate|barrier|railing|interlock/i

function guardsOf({ procedure, steps, phaseOf }: Written): readonly string[] {
  const things = steps.flatMap((step) =>
    step.removes.map((thing) => idHere(thing.id, positionsOf(step, phaseOf.get(step.id)), procedure.states)),
  )
  return [...new Set(things)].filter((id) => GUARD.test(id))
}

function statesBehindLocks(facts: Written): ReadonlyMap<string, readonly string[]> {
  const { procedure, steps, phaseOf } = facts
  const behind = new Map<string, Set<string>>()
  for (const step of steps) {
    const positions = positionsOf(step, phaseOf.get(step.id))
    for (const thing of step.locks) {
      const id = idHere(thing.id, positions, procedure.states)
      const states = behind.get(id) ?? new Set()
      for (const state of statesLockedBy(step, thing.id, facts)) states.add(state)
      behind.set(id, states)
    }
  }
  return new Map([...behind].map(([id, states]) => [id, [...states]]))
}

/** The states that one locking step's lock is for. */
export function statesLockedBy(step: Step, thing: string, facts: Written): readonly string[] {
  const { procedure, phaseOf } = facts
  const point = procedure.machine?.isolationPoints.find((candidate) => candidate.id === thing)
  const energy = procedure.machine?.energies.find((candidate) => candidate.id === point?.energy)
  if (energy?.state) {
    const { state } = energy
    return procedure.states
      .filter((candidate) => candidate.name === state || candidate.id === state)
      .map(({ id }) => id)
  }
  const siblings = flat(phaseOf.get(step.id)?.steps ?? [])
  const at = siblings.findIndex((other) => other.id === step.id)
  const madeSafe = (makers: readonly Step[]): readonly string[] =>
    makers.flatMap((maker) =>
      maker.sets
        .filter((change) => {
          const state = procedure.states.find((candidate) => candidate.id === change.state)
          return state?.energy && state.safe.includes(change.values.at(-1) ?? '')
        })
        .map((change) => change.state),
    )
  const nearby = madeSafe(siblings.slice(Math.max(0, at - 1), at + 1))
  if (nearby.length > 0) return nearby
  const later = siblings.slice(at + 1).find((other) => madeSafe([other]).length > 0)
  return later ? madeSafe([later]) : []
}
