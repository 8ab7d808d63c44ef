import { idsFor, type Names, namesOf } from '../model/names.ts'
import type { Phase, Procedure, Step } from '../model/procedure.ts'
import type { Claim, State } from '../model/states.ts'
import type { Only } from '../model/variants.ts'

/** A claim as tables: whether each value of the state fulfils it. */
export interface CompactClaim {
  readonly state: number
  /** By number of the value: 1 where it is one of those claimed. */
  readonly ok: Uint8Array
}

/** One combination of variants, by name. */
export type Variants = ReadonlyMap<string, string>

/** Sets of zones that somebody can be in at once, numbered as they turn up; 0 is out. */
export interface Places {
  readonly zones: (readonly number[])[]
  readonly byKey: Map<string, number>
}

/** Everything that has a name, numbered; what the exploration runs on. */
export interface Subjects {
  readonly procedure: Procedure
  readonly variants: Variants
  readonly states: readonly State[]
  readonly stateNames: Names
  readonly stateNumber: ReadonlyMap<string, number>
  /** Values of each state, `unknown` and every value set among them. */
  readonly values: readonly (readonly string[])[]
  readonly roles: readonly string[]
  readonly roleNumber: ReadonlyMap<string, number>
  readonly zoneNumber: ReadonlyMap<string, number>
  /** What makes each zone safe. */
  readonly safeWhen: readonly (readonly CompactClaim[])[]
  /** Zones that rest on each state. */
  readonly restOn: readonly (readonly number[])[]
  readonly places: Places
  readonly phaseOfStep: ReadonlyMap<string, Phase>
  readonly phaseById: ReadonlyMap<string, Phase>
  /** Steps in the order of the print. */
  readonly order: readonly Step[]
}

export const OUT = 0

export function subjectsOf(procedure: Procedure, variants: Variants): Subjects {
  const { states, zones } = procedure
  const stateNumber = new Map(states.map((state, index) => [state.id, index]))
  const values = states.map((state) => [...new Set([...state.values, state.start, ...state.end])])
  const phaseOfStep = new Map<string, Phase>()
  const order: Step[] = []
  for (const phase of procedure.phases)
    for (const step of withSubSteps(phase.steps)) {
      phaseOfStep.set(step.id, phase)
      order.push(step)
      for (const change of step.sets) {
        const known = values[stateNumber.get(change.state) ?? -1]
        for (const value of change.values) if (known && !known.includes(value)) known.push(value)
      }
    }
  // A document without roles has one nameless person.
  const roles = procedure.roles.length > 0 ? procedure.roles.map((role) => role.id) : ['']
  const half = { states, stateNumber, values }
  const safeWhen = zones.map((zone) => compactClaims(zone.safeWhen, half))
  return {
    ...half,
    procedure,
    variants,
    stateNames: namesOf(states),
    roles,
    roleNumber: new Map(roles.map((role, index) => [role, index])),
    zoneNumber: new Map(zones.map((zone, index) => [zone.id, index])),
    safeWhen,
    restOn: states.map((_, state) =>
      zones.flatMap((_zone, zone) => (safeWhen[zone]?.some((claim) => claim.state === state) ? [zone] : [])),
    ),
    places: { zones: [[]], byKey: new Map([['', OUT]]) },
    phaseOfStep,
    phaseById: new Map(procedure.phases.map((phase) => [phase.id, phase])),
    order,
  }
}

export function withSubSteps(steps: readonly Step[]): readonly Step[] {
  return steps.flatMap((step) => [step, ...withSubSteps(step.steps)])
}

export function compactClaims(
  claims: readonly Claim[],
  subjects: Pick<Subjects, 'stateNumber' | 'values'>,
): readonly CompactClaim[] {
  return claims.flatMap((claim) => {
    const state = subjects.stateNumber.get(claim.state)
    return state === undefined ? [] : [{ state, ok: valuesAmong(state, claim.values, subjects) }]
  })
}

/** By number of the value: 1 where it is among those named. `unknown` is never meant by a name of another value. */
export function valuesAmong(state: number, named: readonly string[], subjects: Pick<Subjects, 'values'>): Uint8Array {
  return Uint8Array.from(subjects.values[state] ?? [], (value) => (named.includes(value) ? 1 : 0))
}

export function valueNumber(subjects: Pick<Subjects, 'values'>, state: number, value: string): number {
  return subjects.values[state]?.indexOf(value) ?? -1
}

/** The number of a set of zones. */
export function placeOf(places: Places, zones: readonly number[]): number {
  const sorted = [...new Set(zones)].sort((a, b) => a - b)
  const key = sorted.join()
  const known = places.byKey.get(key)
  if (known !== undefined) return known
  places.zones.push(sorted)
  places.byKey.set(key, places.zones.length - 1)
  return places.zones.length - 1
}

export function isInVariant(only: Only | null, variants: Variants): boolean {
  if (only === null) return true
  const chosen = variants.get(only.variant)
  return chosen === undefined || only.values.includes(chosen)
}

/** Everyone who works on a step: its own people and those of its bullets; where nobody is named, everybody. */
export function actorsOf(step: Step, subjects: Pick<Subjects, 'roles' | 'roleNumber'>): readonly number[] {
  const named = [...step.by, ...step.acts.flatMap((act) => act.by)]
  const numbers = [...new Set(named)].flatMap((role) => subjects.roleNumber.get(role) ?? [])
  return numbers.length > 0 ? numbers : subjects.roles.map((_, index) => index)
}

/** Positions that names mean at a step or phase: those of its repeats. */
export function positionsAt(id: string, phase: Phase | undefined): readonly string[] {
  const suffix = suffixOf(id)
  const ofPhase = (phase?.position?.values ?? []).map((value) => value.text)
  return [...new Set([...ofPhase, ...(suffix === '' ? [] : [suffix, ...suffix.split('.')])])]
}

export function suffixOf(id: string): string {
  return id.includes('@') ? id.slice(id.indexOf('@') + 1) : ''
}

/** States that a name of a thing or state stands for at a step. */
export function statesNamed(
  name: string,
  positions: readonly string[],
  subjects: Pick<Subjects, 'stateNames' | 'stateNumber'>,
): readonly number[] {
  return idsFor(name, positions, subjects.stateNames).flatMap((id) => subjects.stateNumber.get(id) ?? [])
}

/** The step in whose course a node of the graph stands: `pump~read` stands before `read`. */
export function homeOf(node: string): string {
  const parts = node.split('~').filter((part) => part !== 'after')
  return parts.at(-1) ?? node
}

export function rolesNamed(ids: readonly string[], subjects: Subjects): readonly number[] {
  return [...new Set(ids.flatMap((id) => subjects.roleNumber.get(id) ?? []))]
}
