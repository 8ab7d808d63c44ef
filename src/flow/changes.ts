import type { Rational } from '../quantities/quantity-types.ts'
import type { Job, Moment } from './job.ts'
import { LAPSED, PROVED, SPENT, WATCHED } from './layout.ts'
import { lookAtPeopleRestingOn, lookAtPerson, lookAtThingsWith } from './looks.ts'
import { type Run, report } from './run.ts'
import { OUT, placeOf, valueNumber } from './subjects.ts'

/** A state gets a value: its proof is spent, and everybody and everything that rests on it is looked at. */
export function change(run: Run, row: Uint8Array, state: number, value: number, actors: readonly number[]): void {
  const { plan } = run
  const before = row[plan.layout.value[state] ?? 0] ?? 0
  // What a state was is only kept where it makes a difference; elsewhere looking once more does no harm.
  if (before === value && plan.compared[state]) return
  settle(run, row, state, value, actors)
  if (plan.safe[state]?.[before] === 1 && plan.safe[state]?.[value] !== 1) lookAtGuardsAndLocks(run, row, state)
  lookAtPeopleRestingOn(run, row, state)
  lookAtThingsWith(run, row, state)
}

function lookAtGuardsAndLocks(run: Run, row: Uint8Array, state: number): void {
  const { plan } = run
  if (plan.drives[state] && plan.guards.some((guard) => row[plan.layout.value[guard.state] ?? 0] === guard.removed))
    report(run, 'guard-off-at-start', state)
  // Whoever takes the last lock off and switches on in one step, and leaves it on, does the one before the other.
  const moments = run.spot.job?.moments ?? []
  const isLeftOn = plan.safe[state]?.[lastValue(moments, state)] !== 1
  const isUnlockedHere = (thing: number): boolean =>
    isLeftOn &&
    moments.some(
      (moment) =>
        moment.is === 'unlock' && moment.thing === thing && othersOn(run, row, thing, moment.roles).length === 0,
    )
  for (const thing of plan.locksOf[state] ?? [])
    if (isLocked(run, row, thing) && !isUnlockedHere(thing)) report(run, 'lockout-order', thing, state)
}

function lastValue(moments: readonly Moment[], state: number): number {
  const changes = moments.flatMap((moment) => {
    if (moment.is === 'change') return [moment]
    return moment.is === 'any-order' ? moment.lists.flat() : []
  })
  return changes.findLast((one) => one.state === state)?.value ?? -1
}

/** Roles but these whose lock is on the thing. */
function othersOn(run: Run, row: Uint8Array, thing: number, roles: readonly number[]): readonly number[] {
  return run.plan.layout.locks.flatMap((lock) =>
    lock.thing === thing && row[lock.slot] === 1 && !roles.includes(lock.role) ? [lock.role] : [],
  )
}

export function isLocked(run: Run, row: Uint8Array, thing: number): boolean {
  return run.plan.layout.locks.some((lock) => lock.thing === thing && row[lock.slot] === 1)
}

/** One moment of a step but its beginning and its end. */
export function doMoment(run: Run, row: Uint8Array, moment: Moment, job: Job): void {
  switch (moment.is) {
    case 'change':
      change(run, row, moment.state, moment.value, job.actors)
      return
    case 'any-order':
      changeInAnyOrder(run, row, moment.lists, job.actors)
      return
    case 'lock':
    case 'unlock':
      lockOrUnlock(run, row, moment, job.actors)
      return
    case 'locked':
      for (const { thing, state } of moment.pairs)
        if (run.plan.safe[state]?.[row[run.plan.layout.value[state] ?? 0] ?? 0] !== 1)
          report(run, 'lockout-order', thing, state)
      return
    case 'wait':
      wait(run, row, moment.minutes, moment.isLong)
      return
    default:
      return
  }
}

/** Every set of states that may be done already, and each that may come next. */
function changeInAnyOrder(
  run: Run,
  row: Uint8Array,
  lists: (Moment & { is: 'any-order' })['lists'],
  actors: readonly number[],
): void {
  if (lists.length > MOST_AT_ONCE) run.isTooLarge = true
  const count = Math.min(lists.length, MOST_AT_ONCE)
  const settleList = (here: Uint8Array, list: number): void => {
    for (const one of lists[list] ?? []) settle(run, here, one.state, one.value, actors)
  }
  for (let done = 0; done < (1 << count) - 1; done++) {
    const here = row.slice()
    for (let list = 0; list < count; list++) if (done & (1 << list)) settleList(here, list)
    for (let list = 0; list < count; list++) {
      if (done & (1 << list)) continue
      const next = here.slice()
      for (const one of lists[list] ?? []) change(run, next, one.state, one.value, actors)
    }
  }
  for (const list of lists.keys()) settleList(row, list)
}

const MOST_AT_ONCE = 10

/** A change without a look: every order of it was looked at already. */
function settle(run: Run, row: Uint8Array, state: number, value: number, actors: readonly number[]): void {
  const { layout } = run.plan
  const slot = layout.value[state] ?? 0
  if (row[slot] === value) return
  row[slot] = value
  const proof = layout.proof[state] ?? -1
  if (proof >= 0 && (row[proof] === PROVED || row[proof] === WATCHED)) row[proof] = SPENT
  setIf(row, layout.age[state], 0)
  setIf(row, layout.touched[state], 1)
  for (const own of layout.ownWork) if (own.state === state) row[own.slot] = actors.includes(own.role) ? 1 : 0
}

function lockOrUnlock(
  run: Run,
  row: Uint8Array,
  moment: Moment & { is: 'lock' | 'unlock' },
  actors: readonly number[],
): void {
  const { plan } = run
  const isOn = moment.is === 'lock' ? 1 : 0
  for (const lock of plan.layout.locks) {
    if (lock.thing !== moment.thing || !moment.roles.includes(lock.role)) continue
    if (row[lock.slot] === isOn) report(run, 'lock-unpaired', lock.thing, -1, lock.role)
    row[lock.slot] = isOn
  }
  const value = valueNumber(plan.subjects, moment.thing, isLocked(run, row, moment.thing) ? 'locked' : 'unlocked')
  if (value >= 0) change(run, row, moment.thing, value, actors)
  if (isOn === 0) lookForPeopleUnder(run, row, moment.thing)
}

/** Nobody is in a zone that rests on what a lock keeps safe when the lock comes off. */
function lookForPeopleUnder(run: Run, row: Uint8Array, thing: number): void {
  const { plan } = run
  for (const [state, things] of plan.locksOf.entries()) {
    if (!things.includes(thing)) continue
    const zones = plan.subjects.restOn[state] ?? []
    for (const [role, slot] of plan.layout.place.entries())
      if ((plan.subjects.places.zones[row[slot] ?? OUT] ?? []).some((zone) => zones.includes(zone)))
        report(run, 'lockout-order', thing, state, role)
  }
}

function wait(run: Run, row: Uint8Array, minutes: Rational, isLongWait: boolean): void {
  const { plan } = run
  const { layout } = plan
  const ticks = plan.ticks(minutes)
  for (const [state, slot] of layout.age.entries()) {
    const proof = layout.proof[state] ?? -1
    if (slot < 0 || proof < 0 || (row[proof] !== PROVED && row[proof] !== WATCHED)) continue
    const ages = run.ages[state] ?? []
    const age = (ages[row[slot] ?? 0] ?? 0) + ticks
    const limit = plan.lapses[state]
    if (limit != null && age >= limit) {
      row[proof] = LAPSED
      row[slot] = 0
      lookAtPeopleRestingOn(run, row, state)
    } else row[slot] = ageNumber(run, ages, age)
  }
  if (!isLongWait) return
  for (const [state, { energy, safe }] of plan.subjects.states.entries())
    if (energy !== null && safe.length > 0 && isLeftOpen(run, row, state)) report(run, 'stop-unsafe', state)
}

/** Neither safe, nor as at the end, nor untouched since the start; of states that can hurt somebody. */
export function isLeftOpen(run: Run, row: Uint8Array, state: number): boolean {
  const { plan } = run
  const declared = plan.subjects.states[state]
  if (!declared || declared.implied || (declared.energy === null && declared.safe.length === 0)) return false
  const value = row[plan.layout.value[state] ?? 0] ?? 0
  if (plan.safe[state]?.[value] === 1 || plan.end[state]?.[value] === 1) return false
  const touched = plan.layout.touched[state] ?? -1
  return touched < 0 || row[touched] === 1
}

function ageNumber(run: Run, ages: number[], age: number): number {
  const known = ages.indexOf(age)
  if (known >= 0) return known
  if (ages.length > MOST_AGES) {
    run.isTooLarge = true
    return 0
  }
  return ages.push(age) - 1
}

const MOST_AGES = 250

function setIf(row: Uint8Array, slot: number | undefined, value: number): void {
  if (slot !== undefined && slot >= 0) row[slot] = value
}

/** Everyone in these zones comes out of them. */
export function clearZones(run: Run, row: Uint8Array, zones: readonly number[]): void {
  if (zones.length === 0) return
  for (const slot of run.plan.layout.place) row[slot] = clearedPlace(run, row[slot] ?? OUT, zones)
}

export function clearedPlace(run: Pick<Run, 'plan'>, place: number, zones: readonly number[]): number {
  const { places } = run.plan.subjects
  const inside = places.zones[place] ?? []
  const left = inside.filter((zone) => !zones.includes(zone))
  return left.length === inside.length ? place : placeOf(places, left)
}

/** The first moment of a step: headcounts, needs, and everybody goes where he is told. */
export function begin(run: Run, row: Uint8Array, job: Job): void {
  const { plan } = run
  const { layout } = plan
  clearZones(run, row, job.clear)
  for (const need of job.needs)
    if (need.ok[row[layout.value[need.state] ?? 0] ?? 0] !== 1) report(run, 'need-unmet', need.state)
  const before = layout.place.map((slot) => row[slot] ?? OUT)
  for (const move of job.moves) row[layout.place[move.role] ?? 0] = move.place
  for (const move of job.enters) {
    setIf(row, layout.before[move.role], row[layout.place[move.role] ?? 0] ?? OUT)
    row[layout.place[move.role] ?? 0] = move.place
  }
  for (const [role, slot] of layout.lookedAt.entries()) {
    const looked = row[slot] ?? 0
    row[slot] = 0
    if (looked > 0) lookAtPerson(run, row, role, looked - 1, true)
    else if (row[layout.place[role] ?? 0] !== before[role]) lookAtPerson(run, row, role, before[role] ?? OUT, false)
  }
}
