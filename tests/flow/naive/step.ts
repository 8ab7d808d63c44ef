import type { Step, Whereabouts } from '../../../src/model/procedure.ts'
import type { Claim } from '../../../src/model/states.ts'
import { canFail, formulasOf, hereOf, readingsLookedAt, takeReadings } from './conditions.ts'
import {
  actorsOf,
  applies,
  type Facts,
  idHere,
  minutesOfLimit,
  minutesOfWaits,
  positionsOf,
  statesLockedBy,
} from './facts.ts'
import { changed, holds, type Tell } from './look.ts'
import { type Situation, without } from './situation.ts'

/** What is known while one step is worked, beside the situation. */
export interface Walk {
  readonly situation: Situation
  /** Where those who `enters` came from. */
  readonly entered: Readonly<Record<string, readonly string[]>>
  readonly passes: boolean | null
  /** States whose proof, as it stood when the step began, is no more: changed or proved afresh. */
  readonly renewed: readonly string[]
}

/** One moment of a step: what happens, in how many ways, and whether one looks. */
export interface Moment {
  readonly does: (walk: Walk, tell: Tell) => readonly Walk[]
  readonly look: 'move' | 'change' | null
  /** No other step's moment comes between this and the next. */
  readonly isJoined?: true
}

const HOUR = 60

/** Every order in which a step may be worked, each a row of moments; numbers are those of the rules. */
export function waysToWork(step: Step, tracked: ReadonlySet<string>, facts: Facts): readonly (readonly Moment[])[] {
  const orders = step.acts.length > 0 ? permutations(step.sets) : [step.sets]
  return orders.map((order) => [
    clearing(step),
    needing(step, facts),
    moving(step, facts),
    ...puttingOff(step, facts),
    ...settings(order, step, facts),
    // A lock belongs on a state that is safe by the time the step's changes are made.
    ...step.locks.map((thing) => lookingAtLock(step, thing.id, facts)),
    ...puttingBack(step, facts),
    waiting(step, facts),
    reading(step, tracked, facts),
    proving(step, facts),
    goingBack(step, facts),
  ])
}

/** 1. */
function clearing(step: Step): Moment {
  return {
    look: null,
    does: (walk) => [withSituation(walk, (s) => cleared(s, step.clear))],
  }
}

export function cleared(s: Situation, zones: readonly string[]): Situation {
  return { ...s, people: mapped(s.people, (inside) => inside.filter((zone) => !zones.includes(zone))) }
}

/** 2. */
function needing(step: Step, facts: Facts): Moment {
  return {
    look: null,
    does: (walk, tell) => {
      for (const claim of needsOf(step, facts)) if (!holds(claim, walk.situation)) tell('need-unmet', claim.state)
      return [walk]
    },
  }
}

export function needsOf(step: Step, facts: Facts) {
  return [...step.needs, ...(facts.phaseOf.get(step.id)?.needs ?? [])]
}

/** 3. */
function moving(step: Step, facts: Facts): Moment {
  return {
    look: 'move',
    does: (walk) => {
      const settled = moved(walk.situation, step.where, actorsOf(step, facts))
      const inside = moved(settled, step.enters, actorsOf(step, facts))
      const entering = step.enters.flatMap(({ role }) => (role === null ? actorsOf(step, facts) : [role]))
      const entered = Object.fromEntries(entering.map((role) => [role, settled.people[role] ?? []]))
      return [{ ...walk, situation: inside, entered }]
    },
  }
}

/** Moves the roles named, or all of those acting. */
export function moved(s: Situation, where: readonly Whereabouts[], actors: readonly string[]): Situation {
  const people = { ...s.people }
  for (const { role, zones } of where)
    for (const one of role === null ? actors : [role]) people[one] = zones.filter((zone) => zone !== 'out').sort()
  return { ...s, people }
}

/** 4. */
function puttingOff(step: Step, facts: Facts): readonly Moment[] {
  return [
    ...step.removes.map((thing) => setting(thingHere(thing.id, step, facts), 'removed', step, facts)),
    ...step.locks.map((thing) => locking(thingHere(thing.id, step, facts), step, facts)),
    ...step.putsOn.map((thing) => setting(thingHere(thing.id, step, facts), 'on', step, facts)),
  ]
}

function locking(thing: string, step: Step, facts: Facts): Moment {
  return {
    look: 'change',
    does: (walk, tell) => {
      const on = walk.situation.locks[thing] ?? []
      const actors = actorsOf(step, facts)
      if (actors.some((role) => on.includes(role))) tell('lock-unpaired', thing)
      return [
        withChange(withLocks(walk, thing, [...new Set([...on, ...actors])].sort()), thing, 'locked', step, tell, facts),
      ]
    },
  }
}

function lookingAtLock(step: Step, thing: string, facts: Facts): Moment {
  return {
    look: null,
    does: (walk, tell) => {
      for (const state of statesLockedBy(step, thing, facts))
        if (!isSafe(state, walk.situation, facts)) tell('lockout-order', thingHere(thing, step, facts))
      return [walk]
    },
  }
}

function isSafe(id: string, s: Situation, facts: Facts): boolean {
  const state = facts.stateById.get(id)
  return state === undefined || state.safe.includes(s.values[id] ?? '')
}

/** 5. In a step of several people, in one go. */
function settings(order: Step['sets'], step: Step, facts: Facts): readonly Moment[] {
  const moments = order.flatMap((change) => change.values.map((value) => setting(change.state, value, step, facts)))
  if (step.acts.length === 0) return moments
  return moments.map((moment, index) => (index < moments.length - 1 ? { ...moment, isJoined: true } : moment))
}

function setting(state: string, value: string, step: Step, facts: Facts): Moment {
  return { look: 'change', does: (walk, tell) => [withChange(walk, state, value, step, tell, facts)] }
}

function withChange(walk: Walk, state: string, value: string, step: Step, tell: Tell, facts: Facts): Walk {
  const before = walk.situation
  const after = changed(before, state, value, actorsOf(step, facts), tell, facts)
  if (isSafe(state, before, facts) && !isSafe(state, after, facts))
    for (const [thing, states] of facts.behindLocks)
      if (states.includes(state) && isLocked(thing, before) && !isHandedBack(thing, state, before, step, facts))
        tell('lockout-order', thing)
  const isRenewed = before.values[state] !== after.values[state]
  return { ...walk, situation: after, renewed: isRenewed ? [...walk.renewed, state] : walk.renewed }
}

const isLocked = (thing: string, { locks }: Situation): boolean => (locks[thing] ?? []).length > 0

/** Who takes the lock off and switches on in one step does the one before the other. */
function isHandedBack(thing: string, state: string, s: Situation, step: Step, facts: Facts): boolean {
  const isTakenOff = step.unlocks.some((one) => thingHere(one.id, step, facts) === thing)
  const isLastOne = (s.locks[thing] ?? []).every((role) => actorsOf(step, facts).includes(role))
  const last = step.sets.find((change) => change.state === state)?.values.at(-1)
  return isTakenOff && isLastOne && !facts.stateById.get(state)?.safe.includes(last ?? '')
}

/** 6. */
function puttingBack(step: Step, facts: Facts): readonly Moment[] {
  const torqued = step.torques.filter((torque) => applies(torque.only, facts.chosen))
  const snugged = facts.procedure.states.filter((state) => state.values.includes('snug') && state.implied)
  const finished = torqued.flatMap((torque) => {
    const thing = thingHere(torque.name, step, facts)
    return snugged.some((state) => state.id === thing) ? [thing] : []
  })
  return [
    ...step.snug.map((thing) => setting(thingHere(thing.id, step, facts), 'snug', step, facts)),
    ...finished.map((thing) => setting(thing, 'final', step, facts)),
    ...step.refits.map((thing) => setting(thingHere(thing.id, step, facts), 'fitted', step, facts)),
    ...step.unlocks.map((thing) => unlocking(thingHere(thing.id, step, facts), step, facts)),
    ...step.takesOff.map((thing) => setting(thingHere(thing.id, step, facts), 'off', step, facts)),
  ]
}

function unlocking(thing: string, step: Step, facts: Facts): Moment {
  return {
    look: 'change',
    does: (walk, tell) => {
      const { situation } = walk
      const on = situation.locks[thing] ?? []
      const actors = actorsOf(step, facts)
      if (actors.some((role) => !on.includes(role))) tell('lock-unpaired', thing)
      const states = facts.behindLocks.get(thing) ?? []
      const inside = Object.values(situation.people).flat()
      const rests = facts.procedure.zones.filter((zone) => zone.safeWhen.some((claim) => states.includes(claim.state)))
      if (rests.some((zone) => inside.includes(zone.id))) tell('lockout-order', thing)
      const left = on.filter((role) => !actors.includes(role))
      const off = withLocks(walk, thing, left)
      return [left.length > 0 ? off : withChange(off, thing, 'unlocked', step, tell, facts)]
    },
  }
}

function withLocks(walk: Walk, thing: string, roles: readonly string[]): Walk {
  return withSituation(walk, (s) => ({
    ...s,
    locks: roles.length > 0 ? { ...s.locks, [thing]: roles } : without(s.locks, (key) => key === thing),
  }))
}

/** 7. */
function waiting(step: Step, facts: Facts): Moment {
  const minutes = minutesOfWaits(step)
  return {
    look: minutes > 0 ? 'move' : null,
    does: (walk, tell) => {
      if (minutes >= HOUR)
        for (const state of facts.procedure.states)
          if (state.energy !== null && state.safe.length > 0 && isLoose(state.id, walk.situation, facts))
            tell('stop-unsafe', state.id)
      return [withSituation(walk, (s) => ({ ...s, proofs: aged(s, minutes, facts) }))]
    },
  }
}

/** Neither safe, nor as at the end, nor untouched. */
export function isLoose(id: string, s: Situation, facts: Facts): boolean {
  const state = facts.stateById.get(id)
  const value = s.values[id] ?? ''
  if (state === undefined || state.implied || (state.energy === null && state.safe.length === 0)) return false
  return !state.safe.includes(value) && !state.end.includes(value) && s.touched.includes(id)
}

function aged({ proofs }: Situation, minutes: number, { procedure }: Facts): Situation['proofs'] {
  return Object.fromEntries(
    Object.entries(proofs).map(([id, proof]) => {
      const lapses = procedure.states.find((state) => state.id === id)?.lapses ?? null
      if (proof.status !== 'proved' || lapses === null) return [id, proof]
      const age = proof.age + minutes
      return [id, age >= minutesOfLimit(lapses) ? { status: 'lapsed', age: 0 } : { status: 'proved', age }]
    }),
  )
}

/** 8. */
function reading(step: Step, tracked: ReadonlySet<string>, facts: Facts): Moment {
  const here = hereOf(step, facts.phaseOf.get(step.id))
  const formulas = step.readings.filter(({ only }) => applies(only, facts.chosen)).flatMap(formulasOf)
  return {
    look: null,
    does: (walk, tell) =>
      takeReadings(step, walk.situation, tracked, facts).map(({ situation, passes }) => {
        for (const formula of formulas)
          for (const id of readingsLookedAt(formula, here, facts)) tellOfReading(id, situation, tell)
        return { ...walk, situation, passes }
      }),
  }
}

export function tellOfReading(id: string, { readings }: Situation, tell: Tell): void {
  if (readings[id] === undefined) tell('reading-missing', id)
  if (readings[id] === 'spoiled') tell('reading-stale', id)
}

/** 9, where everything passes. */
function proving(step: Step, facts: Facts): Moment {
  return {
    look: null,
    does: (walk, tell) => {
      if (!walk.passes) return [walk]
      let after = walk
      for (const claim of step.proves) after = proved(after, claim, step, tell, facts)
      return [admitted(after, step, facts)]
    },
  }
}

/** A hold that has passed admits people into the zones that ask for it, as long as this phase lasts. */
function admitted(walk: Walk, step: Step, { procedure }: Facts): Walk {
  if (!procedure.zones.some((zone) => zone.entry)) return walk
  const roles = step.holds.filter((hold) => hold.kind === 'hold').map((hold) => hold.role)
  return withSituation(walk, (s) => ({ ...s, admitted: [...new Set([...s.admitted, ...roles])].sort() }))
}

function proved(walk: Walk, claim: Claim, step: Step, tell: Tell, facts: Facts): Walk {
  const state = facts.stateById.get(claim.state)
  if (state === undefined || state.provedBy.length === 0) return walk
  const s = walk.situation
  const value = s.values[state.id] ?? ''
  const becomes = value === 'unknown' && !claim.values.includes('unknown') ? (claim.values[0] ?? value) : value
  const signed = signersOf(step, state.provedBy)
  const carried = isProvedByReading(step, state.provedBy, facts)
  if (!claim.values.includes(becomes)) tell('need-unmet', state.id)
  if (signed.length === 0 && !carried) {
    tell('proof-missing', state.id)
    return walk
  }
  const makers = [...actorsOf(step, facts), ...(s.changedBy[state.id] ?? [])]
  if (!carried && signed.every((role) => makers.includes(role))) tell('signer-not-independent', state.id)
  if (!claim.values.includes(becomes)) return walk
  if (state.safe.includes(becomes)) {
    const locks = [...facts.behindLocks].filter(([, states]) => states.includes(state.id)).map(([thing]) => thing)
    if (locks.length > 0 && !locks.some((thing) => (s.locks[thing] ?? []).length > 0))
      for (const thing of locks) tell('lockout-order', thing)
  }
  return {
    ...walk,
    renewed: [...walk.renewed, state.id],
    situation: {
      ...s,
      values: { ...s.values, [state.id]: becomes },
      proofs: { ...s.proofs, [state.id]: { status: 'proved', age: 0 } },
    },
  }
}

/** Roles of `proved-by` whose signature closes the step. */
function signersOf(step: Step, provedBy: readonly string[]): readonly string[] {
  return step.holds
    .filter((hold) => (hold.kind === 'hold' || hold.kind === 'verify') && hold.timing === 'after')
    .map((hold) => hold.role)
    .filter((role) => provedBy.includes(role))
}

export function isProvedByReading(step: Step, provedBy: readonly string[], facts: Facts): boolean {
  const taken = step.readings.filter((one) => applies(one.only, facts.chosen))
  const figure = taken.some((one) => (one.kind === 'measure' || one.kind === 'derive') && canFail(one))
  const judged = taken.some((one) => one.kind === 'check')
  return (provedBy.includes('reading') && figure) || (provedBy.includes('test') && judged)
}

/** 10. */
function goingBack(step: Step, facts: Facts): Moment {
  return {
    look: step.enters.length > 0 || step.proves.length > 0 ? 'move' : null,
    does: (walk) =>
      [withSituation(walk, (s) => ({ ...s, people: { ...s.people, ...walk.entered } }))].map((back) => ({
        ...back,
        entered: {},
        situation: tidied(back.situation, facts),
      })),
  }
}

/** The same people in the same order, so that equal situations have equal keys. */
function tidied(s: Situation, { roles }: Facts): Situation {
  return { ...s, people: Object.fromEntries(roles.map((role) => [role, s.people[role] ?? []])) }
}

function thingHere(thing: string, step: Step, facts: Facts): string {
  return idHere(thing, positionsOf(step, facts.phaseOf.get(step.id)), facts.procedure.states)
}

function withSituation(walk: Walk, change: (s: Situation) => Situation): Walk {
  return { ...walk, situation: change(walk.situation) }
}

function mapped<Value>(record: Readonly<Record<string, Value>>, change: (value: Value) => Value) {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, change(value)]))
}

export function permutations<Item>(items: readonly Item[]): readonly (readonly Item[])[] {
  if (items.length <= 1) return [items]
  return items.flatMap((item, i) =>
    permutations(items.filter((_, other) => other !== i)).map((rest) => [item, ...rest]),
  )
}
