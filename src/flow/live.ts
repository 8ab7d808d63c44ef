import { clearedPlace } from './changes.ts'
import type { ReadCondition } from './conditions.ts'
import type { Job } from './job.ts'
import type { Resuming } from './pause.ts'
import type { Plan } from './plan.ts'
import type { Spot } from './spots.ts'
import type { Way } from './ways.ts'
import { besides, type MayBe } from './whereabouts.ts'

/** What is read at a node, and what is written there whatever it was before. */
interface Touch {
  readonly reads: ReadonlySet<number>
  /** Written whenever the step is done. */
  readonly done: ReadonlySet<number>
  /** Written besides when it passes. */
  readonly passed: ReadonlySet<number>
}

/**
 * By node and byte: 255 where something later still reads the byte before it is written again. Two situations that differ
 * in nothing else are one. Worked out backwards until nothing changes; where in doubt, a byte is kept.
 * @param unproved nodes where a proof was seen to change nothing
 */
export function liveBytes(plan: Plan, mayBe: MayBe, resuming: Resuming, unproved: ReadonlySet<number>): Uint8Array {
  const { width } = plan.layout
  const { spots } = plan
  const live = new Uint8Array(spots.length * width)
  const touches = spots.map((spot) => {
    const touch = touchOf(plan, spot, mayBe)
    // Where a proof may change nothing, what was proved before still counts.
    return unproved.has(spot.number) ? { ...touch, passed: new Set<number>() } : touch
  })
  const before: number[][] = spots.map(() => [])
  for (const spot of spots) {
    for (const way of waysOf(spot)) before[way.to]?.push(spot.number)
    for (const other of besides(plan, spot)) before[other]?.push(spot.number)
  }
  const again = resumingBytes(plan, resuming)
  const waiting = spots.map((spot) => spot.number)
  const isWaiting = new Uint8Array(spots.length).fill(1)
  for (let number = waiting.pop(); number !== undefined; number = waiting.pop()) {
    isWaiting[number] = 0
    const spot = spots[number]
    const touch = touches[number]
    if (spot === undefined || touch === undefined) continue
    if (!update(plan, live, spot, touch, again)) continue
    for (const other of before[number] ?? []) {
      if (isWaiting[other]) continue
      isWaiting[other] = 1
      waiting.push(other)
    }
  }
  return live
}

const waysOf = (spot: Spot): readonly Way[] => [...spot.passed, ...spot.failed, ...spot.skipped]

/** Takes over what is read behind the node; true where something is new. */
function update(
  plan: Plan,
  live: Uint8Array,
  spot: Spot,
  touch: Touch,
  again: ReadonlyMap<number, readonly number[]>,
): boolean {
  const { layout } = plan
  const here = spot.number * layout.width
  let isNew = false
  const keep = (byte: number): void => {
    if (byte < 0 || live[here + byte] === 255) return
    live[here + byte] = 255
    isNew = true
  }
  const behind = (way: Way, written: readonly ReadonlySet<number>[]): void => {
    const there = way.to * layout.width
    const isWritten = (byte: number): boolean => written.some((bytes) => bytes.has(byte))
    const read = (byte: number): void => {
      if (byte >= 0 && !isWritten(byte)) keep(byte)
    }
    for (let byte = 0; byte < layout.width; byte++)
      if (live[there + byte] === 255 && !way.resets.includes(byte)) read(byte)
    for (const byte of bytesOf(plan, way.condition)) read(byte)
    if (way.counts >= 0) read(way.counts)
    if (way.after >= 0) read(way.after)
  }
  for (const byte of touch.reads) keep(byte)
  // A step with something out may go on like one that passed, but then nothing is proved.
  // Where steps run side by side, one is left while others, and what they wrote, still stand.
  const isBeside = plan.sideBySide.has(spot.number)
  const done = isBeside ? [] : [touch.done]
  for (const way of spot.passed) behind(way, isBeside || spot.job?.canFail ? done : [touch.done, touch.passed])
  for (const way of spot.failed) behind(way, done)
  for (const way of spot.skipped) behind(way, [])
  for (const other of besides(plan, spot)) {
    const there = other * layout.width
    for (let byte = 0; byte < layout.width; byte++) if (live[there + byte] === 255) keep(byte)
  }
  for (const [state, proof] of layout.proof.entries()) {
    if (proof < 0 || live[here + proof] !== 255) continue
    keep(layout.age[state] ?? -1)
    for (const byte of again.get(state) ?? []) keep(byte)
  }
  return isNew
}

function bytesOf(plan: Plan, read: ReadCondition | null): readonly number[] {
  if (read === null) return []
  const { layout } = plan
  const bytes = read.reads.map((reading) => layout.reading[reading] ?? -1)
  const visit = (condition: ReadCondition['condition']): void => {
    switch (condition.is) {
      case 'state':
        bytes.push(layout.value[condition.state] ?? -1)
        return
      case 'cell':
      case 'question':
        bytes.push(layout.answer[condition.question] ?? -1)
        return
      case 'not':
        visit(condition.of)
        return
      default:
        visit(condition.left)
        visit(condition.right)
    }
  }
  visit(read.condition)
  return bytes
}

/** What decides whether a state can be proved again after a pause. */
function resumingBytes(plan: Plan, resuming: Resuming): ReadonlyMap<number, readonly number[]> {
  return new Map(
    [...resuming].map(([state, again]) => [
      state,
      again.flatMap(({ proves, wants }) => [proves, ...wants].map((claim) => plan.layout.value[claim.state] ?? -1)),
    ]),
  )
}

function touchOf(plan: Plan, spot: Spot, mayBe: MayBe): Touch {
  const { layout } = plan
  const reads = new Set<number>()
  const done = new Set<number>()
  const passed = new Set<number>()
  const value = (state: number): number => layout.value[state] ?? -1
  if (spot.node.kind === 'end')
    for (const byte of [...layout.value, ...layout.locks.map((lock) => lock.slot)]) reads.add(byte)
  if (spot.node.kind === 'stop') for (const byte of [...layout.value, ...layout.touched]) reads.add(byte)
  if (spot.door !== null) {
    for (const byte of bytesOf(plan, spot.door.when)) reads.add(byte)
    for (const move of spot.door.moves) done.add(layout.place[move.role] ?? -1)
    for (const slot of layout.admitted.values()) done.add(slot)
    for (const slot of [layout.fresh, ...layout.place, ...layout.lookedAt]) reads.add(slot)
  }
  if (spot.job !== null) touchOfJob(plan, spot, spot.job, mayBe, { reads, done, passed, value })
  for (const { slot } of plan.keeps) if (slot >= 0) reads.add(slot)
  if (plan.together.some((phase) => phase.spot === spot.number))
    for (const byte of [...layout.progress, ...layout.before]) reads.add(byte)
  return { reads, done, passed }
}

interface Touching {
  readonly reads: Set<number>
  readonly done: Set<number>
  readonly passed: Set<number>
  readonly value: (state: number) => number
}

function touchOfJob(plan: Plan, spot: Spot, job: Job, mayBe: MayBe, { reads, done, passed, value }: Touching): void {
  const { layout, subjects } = plan
  for (const byte of bytesOf(plan, job.when)) reads.add(byte)
  for (const need of job.needs) reads.add(value(need.state))
  reads.add(layout.fresh)
  for (const slot of [...layout.place, ...layout.lookedAt]) reads.add(slot)
  readZones(plan, zonesAround(plan, spot, job, mayBe), reads)
  for (const keep of [...spot.keeps, ...spot.keepsBegun])
    for (const claim of plan.keeps[keep]?.claims ?? []) reads.add(value(claim.state))
  for (const { slot, claims } of plan.keeps) if (slot >= 0) for (const claim of claims) reads.add(value(claim.state))
  for (const moment of job.moments) {
    if (moment.is === 'change') touchChange(plan, moment.state, reads, done)
    if (moment.is === 'any-order') for (const { state } of moment.lists.flat()) touchChange(plan, state, reads, done)
    if (moment.is === 'locked') for (const { state } of moment.pairs) reads.add(value(state))
    if (moment.is === 'lock' || moment.is === 'unlock') {
      touchChange(plan, moment.thing, reads, new Set())
      for (const lock of layout.locks) if (lock.thing === moment.thing) reads.add(lock.slot)
    }
    if (moment.is === 'wait' && moment.isLong)
      for (const [state, { energy, safe }] of subjects.states.entries())
        if (energy !== null && safe.length > 0)
          for (const byte of [value(state), layout.touched[state] ?? -1]) reads.add(byte)
  }
  for (const reading of job.reads) reads.add(layout.reading[reading] ?? -1)
  for (const taking of job.takes) {
    done.add(layout.reading[taking.reading] ?? -1)
    for (const [question, { readings }] of plan.questions.entries())
      if (readings.includes(taking.reading)) done.add(layout.answer[question] ?? -1)
  }
  for (const proof of job.proves) {
    reads.add(value(proof.state))
    if (proof.signedBy.length > 0 || proof.isMeasured)
      for (const byte of [layout.proof[proof.state] ?? -1, layout.age[proof.state] ?? -1]) passed.add(byte)
    for (const own of layout.ownWork) if (own.state === proof.state) reads.add(own.slot)
    for (const lock of layout.locks) if (plan.locksOf[proof.state]?.includes(lock.thing)) reads.add(lock.slot)
    // Proving what is unknown gives it a value.
    touchChange(plan, proof.state, reads, new Set())
  }
  for (const role of job.signsHere) passed.add(layout.admitted.get(role) ?? -1)
  for (const byte of reads) {
    done.delete(byte)
    passed.delete(byte)
  }
}

function touchChange(plan: Plan, state: number, reads: Set<number>, done: Set<number>): void {
  const { layout } = plan
  const value = (other: number): number => layout.value[other] ?? -1
  if (plan.compared[state]) reads.add(value(state))
  else done.add(value(state))
  for (const lock of layout.locks) if (plan.locksOf[state]?.includes(lock.thing)) reads.add(lock.slot)
  if (plan.drives[state]) for (const guard of plan.guards) reads.add(value(guard.state))
  for (const ban of plan.neverOf[state] ?? []) for (const claim of plan.never[ban] ?? []) readOther(claim.state)
  for (const held of plan.heldOf[state] ?? []) {
    readOther(held)
    for (const claim of (plan.heldBy.get(held) ?? []).flat()) readOther(claim.state)
  }
  function readOther(other: number): void {
    if (other !== state) reads.add(value(other))
  }
}

/** Zones where somebody may be while the step is done or after it. */
function zonesAround(plan: Plan, spot: Spot, job: Job, mayBe: MayBe): ReadonlySet<number> {
  const { places } = plan.subjects
  const isTold = (role: number): boolean => job.moves.some((move) => move.role === role)
  const staying = (mayBe[spot.number] ?? []).flatMap((set, role) =>
    isTold(role) ? [] : [...set].map((place) => clearedPlace({ plan }, place, job.clear)),
  )
  const told = [...job.moves, ...job.enters].map((move) => move.place)
  // Where steps run side by side, others come and go meanwhile.
  const beside = plan.sideBySide.has(spot.number) ? (mayBe[spot.number] ?? []).flatMap((set) => [...set]) : []
  return new Set([...staying, ...told, ...beside].flatMap((place) => places.zones[place] ?? []))
}

function readZones(plan: Plan, zones: ReadonlySet<number>, reads: Set<number>): void {
  const { layout, subjects } = plan
  for (const zone of zones) {
    for (const claim of subjects.safeWhen[zone] ?? []) {
      reads.add(layout.value[claim.state] ?? -1)
      reads.add(layout.proof[claim.state] ?? -1)
    }
    const admits = plan.entry[zone]
    if (admits != null) reads.add(layout.admitted.get(admits) ?? -1)
  }
}
