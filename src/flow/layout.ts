import type { Procedure, Step } from '../model/procedure.ts'
import type { Question } from './conditions.ts'
import type { TrackedReading } from './readings.ts'
import { actorsOf, positionsAt, type Subjects, statesNamed } from './subjects.ts'

/** How far the proof of a state stands. */
export const NEVER = 0
export const SPENT = 1
export const LAPSED = 2
export const PROVED = 3
/** Proved, and watched: does anybody rely on it later? */
export const WATCHED = 4

/** What is known of a reading; from `FIRST_CELL` on, the cell it lies in. */
export const NOT_TAKEN = 0
export const SPOILED = 1
export const FIRST_CELL = 2

/** Answers to a question. */
export const UNANSWERED = 0
export const NO = 1
export const YES = 2

/** A lock that one role puts on one thing. */
export interface Lock {
  readonly thing: number
  readonly role: number
  readonly slot: number
}

/** A role that signs for a state which it may itself have changed. */
export interface OwnWork {
  readonly state: number
  readonly role: number
  readonly slot: number
}

/** Where each part of a situation stands among its bytes; −1 where nothing has to be kept. */
export interface Layout {
  readonly width: number
  readonly value: readonly number[]
  readonly proof: readonly number[]
  readonly age: readonly number[]
  /** Whether a state was changed on this way: asked at a stop, of states that start neither safe nor as at the end. */
  readonly touched: readonly number[]
  readonly place: readonly number[]
  /** Where somebody was before `enters`, while that step lasts. */
  readonly before: readonly number[]
  readonly reading: readonly number[]
  readonly answer: readonly number[]
  readonly taken: ReadonlyMap<string, number>
  readonly locks: readonly Lock[]
  readonly ownWork: readonly OwnWork[]
  /** Whether a role that admits to zones has signed in this phase. */
  readonly admitted: ReadonlyMap<number, number>
  /** 1 until the first step has begun: nothing has been looked at yet. */
  readonly fresh: number
  /** For each role told where to be by a doorway: where he was when last looked at, counted from 1. */
  readonly lookedAt: readonly number[]
  /** Keeps that end with a step: whether each is on. */
  readonly keeping: readonly number[]
  /** How far each step of a phase worked `together` is. */
  readonly progress: readonly number[]
}

export interface LayoutNeeds {
  readonly readings: readonly TrackedReading[]
  readonly questions: readonly Question[]
  readonly keeps: number
  readonly sideBySide: number
  readonly hasWaits: boolean
}

export function layOut(subjects: Subjects, needs: LayoutNeeds): Layout {
  let width = 0
  const slot = (): number => width++
  const slotIf = (wanted: boolean): number => (wanted ? slot() : -1)
  const { states, roles, procedure } = subjects
  const entryRoles = new Set(
    procedure.zones.flatMap((zone) => (zone.entry === null ? [] : (subjects.roleNumber.get(zone.entry) ?? []))),
  )
  return {
    value: states.map(slot),
    proof: states.map((state) => slotIf(state.provedBy.length > 0)),
    age: states.map((state) => slotIf(needs.hasWaits && state.provedBy.length > 0 && state.lapses !== null)),
    touched: states.map((state) =>
      slotIf(!state.implied && !state.safe.includes(state.start) && !state.end.includes(state.start)),
    ),
    place: roles.map(slot),
    before: roles.map(() => slotIf(subjects.order.some((step) => step.enters.length > 0))),
    reading: needs.readings.map(slot),
    answer: needs.questions.map(slot),
    taken: new Map(waysOf(procedure).map((way) => [way, slot()])),
    locks: locksOf(subjects).map((lock) => ({ ...lock, slot: slot() })),
    ownWork: ownWorkOf(subjects).map((own) => ({ ...own, slot: slot() })),
    admitted: new Map([...entryRoles].map((role) => [role, slot()])),
    fresh: slot(),
    lookedAt: roles.map(slot),
    keeping: Array.from({ length: needs.keeps }, slot),
    progress: Array.from({ length: needs.sideBySide }, slot),
    width: (width + 3) & ~3,
  }
}

function waysOf(procedure: Procedure): readonly string[] {
  return [...new Set(procedure.graph.edges.flatMap((edge) => edge.way ?? []))]
}

function locksOf(subjects: Subjects): readonly Omit<Lock, 'slot'>[] {
  const seen = new Set<number>()
  return subjects.order.flatMap((step) =>
    [...step.locks, ...step.unlocks].flatMap((thing) =>
      statesNamed(thing.id, positionsAt(step.id, subjects.phaseOfStep.get(step.id)), subjects).flatMap((state) =>
        actorsOf(step, subjects).flatMap((role) => {
          const key = state * 256 + role
          if (seen.has(key)) return []
          seen.add(key)
          return [{ thing: state, role }]
        }),
      ),
    ),
  )
}

/** Pairs of a state and a role where the role signs for the state and also changes it somewhere. */
function ownWorkOf(subjects: Subjects): readonly Omit<OwnWork, 'slot'>[] {
  return subjects.states.flatMap((state, number) =>
    state.provedBy.flatMap((prover) => {
      const role = subjects.roleNumber.get(prover)
      if (role === undefined) return []
      const changes = (step: Step): boolean =>
        step.sets.some((change) => change.state === state.id) && actorsOf(step, subjects).includes(role)
      return subjects.order.some(changes) ? [{ state: number, role }] : []
    }),
  )
}
