import { PAIRED_KEYS } from '../model/passes/declare-states.ts'
import type { CountedThing, Phase, Step, Whereabouts } from '../model/procedure.ts'
import type { Reading } from '../model/readings.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import { type ConditionContext, compileCondition, type ReadCondition, readingsRead } from './conditions.ts'
import { statesLocked } from './locks.ts'
import { type ProofTaken, proofsOf } from './proofs.ts'
import { cellCount, cellsInLimit, isJudged, readExpression } from './readings.ts'
import {
  actorsOf,
  type CompactClaim,
  compactClaims,
  isInVariant,
  placeOf,
  positionsAt,
  rolesNamed,
  type Subjects,
  statesNamed,
  suffixOf,
  valueNumber,
} from './subjects.ts'
import { isLong, longestWait } from './waits.ts'

/** One change of one state to one value. */
export interface Change {
  readonly state: number
  readonly value: number
}

/** What happens at once, and is looked at as it stands then. */
export type Moment =
  | { readonly is: 'begin' }
  | { readonly is: 'change'; readonly state: number; readonly value: number }
  /** States changed by people acting at the same time: each runs through its list, in every order. */
  | { readonly is: 'any-order'; readonly lists: readonly (readonly Change[])[] }
  | { readonly is: 'lock' | 'unlock'; readonly thing: number; readonly roles: readonly number[] }
  /** Each thing locked here, with a state that must be safe by now. */
  | { readonly is: 'locked'; readonly pairs: readonly { readonly thing: number; readonly state: number }[] }
  | { readonly is: 'wait'; readonly minutes: Rational; readonly isLong: boolean }
  | { readonly is: 'end' }

export interface Move {
  readonly role: number
  readonly place: number
}

/** A reading taken in a step, that some condition reads. */
export interface Taking {
  readonly reading: number
  /** Its cells that are in limit. */
  readonly inLimit: Uint8Array
  readonly isJudged: boolean
}

/** A step as the exploration works it, in one combination of variants. */
export interface Job {
  readonly step: Step
  readonly phase: Phase
  readonly isInVariant: boolean
  readonly when: ReadCondition | null
  readonly clear: readonly number[]
  readonly needs: readonly (CompactClaim & { readonly isOfPhase: boolean })[]
  readonly actors: readonly number[]
  readonly moves: readonly Move[]
  readonly enters: readonly Move[]
  /** `role × zones + zone` of people who are there on purpose. */
  readonly excused: ReadonlySet<number>
  readonly excusedRoles: readonly number[]
  /** Roles whose permit, or signature before it begins, admits people here. */
  readonly admits: readonly number[]
  readonly signsHere: readonly number[]
  readonly moments: readonly Moment[]
  readonly takes: readonly Taking[]
  /** Something that nobody tracks can be out. */
  readonly hasOtherJudged: boolean
  readonly canFail: boolean
  /** A side or a reading that nothing answers when it is out. */
  readonly hasNoAnswer: boolean
  readonly spoils: readonly number[]
  /** Readings that formulas of this step look at. */
  readonly reads: readonly number[]
  readonly proves: readonly ProofTaken[]
}

export function jobOf(step: Step, phase: Phase, context: ConditionContext): Job {
  const { subjects } = context
  const here = { suffix: suffixOf(step.id), positions: positionsAt(step.id, phase) }
  const actors = actorsOf(step, subjects)
  const readings = step.readings.filter((reading) => isInVariant(reading.only, subjects.variants))
  const takes = takingsOf(readings, context)
  const judged = readings.filter(isJudged)
  return {
    step,
    phase,
    isInVariant: isInVariant(step.only, subjects.variants),
    when: step.when === null ? null : compileCondition(step.when, here, context),
    clear: zonesOf(step.clear, subjects),
    needs: [
      ...compactClaims(step.needs, subjects).map((claim) => ({ ...claim, isOfPhase: false })),
      ...compactClaims(phase.needs, subjects).map((claim) => ({ ...claim, isOfPhase: true })),
    ],
    actors,
    moves: movesOf(step.where, actors, subjects),
    enters: movesOf(step.enters, actors, subjects),
    excused: excusedBy([...step.exposed, ...phase.exposed], subjects),
    excusedRoles: rolesNamed(
      [...step.exposed, ...phase.exposed].flatMap((exposed) => exposed.who),
      subjects,
    ),
    admits: rolesNamed(
      [
        ...[...step.permits, ...phase.permits].flatMap((permit) => permit.by ?? []),
        ...step.holds.filter((hold) => hold.kind === 'hold' && hold.timing === 'before').map((hold) => hold.role),
      ],
      subjects,
    ),
    signsHere: rolesNamed(
      step.holds.filter((hold) => hold.kind === 'hold').map((hold) => hold.role),
      subjects,
    ),
    moments: momentsOf(step, actors, here.positions, subjects),
    takes,
    hasOtherJudged: judged.some((reading) => !takes.some((taking) => idOf(taking, context) === reading.id)),
    canFail: judged.length > 0,
    hasNoAnswer: judged.some((reading) => !isAnswered(reading, step)),
    spoils: step.spoils.flatMap((name) => indexesOf(name, here.suffix, context)),
    reads: readings.flatMap((reading) =>
      formulasOf(reading).flatMap((formula) => {
        const expression = readExpression(formula)
        const own = new Set(readings.map((taken) => taken.id))
        return expression
          ? readingsRead(expression, here, context.readings).filter(
              (read) => !own.has(context.readings.tracked[read]?.id ?? ''),
            )
          : []
      }),
    ),
    proves: proofsOf(step, readings, actors, subjects),
  }
}

function idOf(taking: Taking, context: ConditionContext): string {
  return context.readings.tracked[taking.reading]?.id ?? ''
}

/** Formulas of a reading: what it is worked out by, and what its limit rests on. */
export function formulasOf(reading: Reading): readonly string[] {
  const { workedLimit } = reading
  return [
    reading.expression,
    workedLimit?.lower?.expression,
    workedLimit?.upper?.expression,
    workedLimit?.table?.row,
  ].flatMap((formula) => formula ?? [])
}

function takingsOf(readings: readonly Reading[], context: ConditionContext): readonly Taking[] {
  return readings.flatMap((reading): readonly Taking[] => {
    const number = context.readings.tracked.findIndex((tracked) => tracked.id === reading.id)
    const tracked = context.readings.tracked[number]
    if (tracked === undefined) return []
    const isReadingJudged = isJudged(reading)
    const inLimit = isReadingJudged ? cellsInLimit(tracked, reading) : new Uint8Array(cellCount(tracked)).fill(1)
    return [{ reading: number, inLimit, isJudged: isReadingJudged }]
  })
}

function indexesOf(name: string, suffix: string, context: ConditionContext): readonly number[] {
  const all = context.readings.byName.get(name.split('.')[0] ?? '') ?? []
  const here = all.filter((reading) => reading.suffix === suffix || reading.suffix === name.split('.')[1])
  return (here.length > 0 ? here : all).map((reading) => context.readings.tracked.indexOf(reading))
}

/** Whether every side on which a reading can be out has an answer of its own. */
function isAnswered(reading: Reading, step: Step): boolean {
  const answers = step.consequences.filter(
    (consequence) => consequence.reading === null || consequence.reading === reading.name,
  )
  const has = (side: 'low' | 'high'): boolean => answers.some((answer) => answer.on === 'out' || answer.on === side)
  if (reading.kind === 'check') return answers.some((answer) => answer.on === 'out') || (has('low') && has('high'))
  const ends = reading.limit ?? reading.workedLimit
  const isTable = reading.workedLimit?.table != null
  return (has('low') || (ends?.lower == null && !isTable)) && (has('high') || (ends?.upper == null && !isTable))
}

export function zonesOf(ids: readonly string[], subjects: Subjects): readonly number[] {
  return ids.flatMap((id) => subjects.zoneNumber.get(id) ?? [])
}

export function movesOf(where: readonly Whereabouts[], actors: readonly number[], subjects: Subjects): readonly Move[] {
  return where.flatMap((entry) => {
    const place = placeOf(subjects.places, zonesOf(entry.zones, subjects))
    const roles = entry.role === null ? actors : rolesNamed([entry.role], subjects)
    return roles.map((role) => ({ role, place }))
  })
}

export function excusedBy(exposed: Step['exposed'], subjects: Subjects): ReadonlySet<number> {
  const zones = subjects.safeWhen.length
  return new Set(
    exposed.flatMap((one) =>
      rolesNamed(one.who, subjects).flatMap((role) => zonesOf(one.zones, subjects).map((zone) => role * zones + zone)),
    ),
  )
}

function momentsOf(
  step: Step,
  actors: readonly number[],
  positions: readonly string[],
  subjects: Subjects,
): readonly Moment[] {
  const change = (things: readonly { readonly id: string }[], value: string): readonly Moment[] =>
    things.flatMap((thing) =>
      statesNamed(thing.id, positions, subjects).flatMap((state): readonly Moment[] => {
        const number = valueNumber(subjects, state, value)
        return number < 0 ? [] : [{ is: 'change', state, value: number }]
      }),
    )
  const lock = (things: readonly CountedThing[], is: 'lock' | 'unlock'): readonly Moment[] =>
    things.flatMap((thing) =>
      statesNamed(thing.id, positions, subjects).map((state): Moment => ({ is, thing: state, roles: actors })),
    )
  const torques = step.torques.filter((torque) => isInVariant(torque.only, subjects.variants))
  const tightened = [...new Set(torques.map((torque) => torque.name))].map((id) => ({ id }))
  return [
    { is: 'begin' },
    ...change(step.removes, PAIRED_KEYS.removes.to),
    ...lock(step.locks, 'lock'),
    ...change(step.putsOn, PAIRED_KEYS['puts-on'].to),
    ...setsOf(step, subjects),
    ...lockedOf(step, positions, subjects),
    ...change(step.snug, PAIRED_KEYS.snug.to),
    ...change(tightened, 'final'),
    ...change(step.refits, PAIRED_KEYS.refits.to),
    ...lock(step.unlocks, 'unlock'),
    ...change(step.takesOff, PAIRED_KEYS['takes-off'].to),
    ...waitOf(step),
    { is: 'end' },
  ]
}

function lockedOf(step: Step, positions: readonly string[], subjects: Subjects): readonly Moment[] {
  const pairs = step.locks.flatMap((thing) =>
    statesNamed(thing.id, positions, subjects).flatMap((number) =>
      statesLocked(thing.id, step, subjects).map((state) => ({ thing: number, state })),
    ),
  )
  return pairs.length === 0 ? [] : [{ is: 'locked', pairs }]
}

function waitOf(step: Step): readonly Moment[] {
  const minutes = longestWait(step)
  return minutes === null ? [] : [{ is: 'wait', minutes, isLong: isLong(minutes) }]
}

function setsOf(step: Step, subjects: Subjects): readonly Moment[] {
  const lists = step.sets.flatMap((set): readonly (readonly Change[])[] => {
    const state = subjects.stateNumber.get(set.state)
    if (state === undefined) return []
    return [set.values.map((value) => ({ state, value: valueNumber(subjects, state, value) }))]
  })
  if (step.acts.length > 1 && lists.length > 1) return [{ is: 'any-order', lists }]
  return lists.flat().map((change): Moment => ({ is: 'change', ...change }))
}
