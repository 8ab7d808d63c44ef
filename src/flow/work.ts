import { follow, lookAtReadings } from './answers.ts'
import { begin, change, doMoment, isLocked } from './changes.ts'
import type { Job } from './job.ts'
import { FIRST_CELL, NOT_TAKEN, PROVED, SPOILED, UNANSWERED } from './layout.ts'
import { lookAtAllThings, lookAtKeep, lookAtPerson, lookForReliance } from './looks.ts'
import type { ProofTaken } from './proofs.ts'
import { arrive, type Run, report } from './run.ts'
import type { Spot } from './spots.ts'
import { OUT } from './subjects.ts'
import type { Way } from './ways.ts'

/** How a step ends: the situation then, and whether something was out of limit. */
export type Ended = (row: Uint8Array, isOut: boolean) => void

/** The beginning of a step, and what is told of it once. */
export function beginStep(run: Run, row: Uint8Array, spot: Spot, job: Job): void {
  const { layout, keeps, subjects } = run.plan
  begin(run, row, job)
  if (row[layout.fresh] === 1) lookAtAllThings(run, row)
  if (run.probed >= 0) lookForReliance(run, row, run.probed)
  for (const keep of spot.keeps) lookAtKeep(run, row, keep, null)
  for (const keep of spot.keepsBegun) row[keeps[keep]?.slot ?? 0] = 1
  for (const [keep, { slot }] of keeps.entries()) if (slot >= 0 && row[slot] === 1) lookAtKeep(run, row, keep, null)
  row[layout.fresh] = 0
  const zones = subjects.safeWhen.length
  for (const slot of layout.place)
    for (const zone of subjects.places.zones[row[slot] ?? 0] ?? []) run.seenIn[spot.number * zones + zone] = 1
  for (const [index, exposed] of [...job.step.exposed, ...job.phase.exposed].entries())
    for (const zone of exposed.zones) report(run, 'exposed', subjects.zoneNumber.get(zone) ?? 0, index)
}

/** A whole step from beginning to end, nobody else at work. */
export function workStep(run: Run, row: Uint8Array, spot: Spot, job: Job, ended: Ended): void {
  beginStep(run, row, spot, job)
  for (const moment of job.moments) doMoment(run, row, moment, job)
  endStep(run, row, spot, job, ended)
}

/** Readings are taken, and everything passes or something does not. */
export function endStep(run: Run, row: Uint8Array, spot: Spot, job: Job, ended: Ended): void {
  takeReadings(run, row, job, false, (taken) => {
    finish(run, taken, spot, job, false)
    ended(taken, false)
  })
  if (!job.canFail) return
  takeReadings(run, row, job, true, (taken) => {
    finish(run, taken, spot, job, true)
    ended(taken, true)
  })
}

/** Every choice of cells that agrees with passing, or with something being out. */
function takeReadings(run: Run, row: Uint8Array, job: Job, isOut: boolean, onwards: (row: Uint8Array) => void): void {
  const { layout } = run.plan
  const choose = (index: number, here: Uint8Array, hasOut: boolean): void => {
    const taking = job.takes[index]
    if (taking === undefined) {
      if (!isOut || hasOut || job.hasOtherJudged) onwards(job.canFail || index > 0 ? here.slice() : here)
      return
    }
    const slot = layout.reading[taking.reading] ?? 0
    for (let cell = 0; cell < taking.inLimit.length; cell++) {
      const isIn = taking.inLimit[cell] === 1
      if (!isOut && !isIn) continue
      here[slot] = FIRST_CELL + cell
      choose(index + 1, here, hasOut || !isIn)
    }
  }
  choose(0, job.takes.length > 0 ? row.slice() : row, false)
}

function finish(run: Run, row: Uint8Array, spot: Spot, job: Job, isOut: boolean): void {
  const { plan } = run
  const { layout } = plan
  for (const taking of job.takes)
    for (const question of plan.questionsOn[taking.reading] ?? []) row[layout.answer[question] ?? 0] = UNANSWERED
  for (const reading of job.spoils) {
    const slot = layout.reading[reading] ?? 0
    if (row[slot] !== NOT_TAKEN) row[slot] = SPOILED
  }
  lookAtReadings(run, row, job.reads)
  if (!isOut) {
    for (const proof of job.proves) prove(run, row, proof, job)
    for (const role of job.signsHere) {
      const slot = layout.admitted.get(role)
      if (slot !== undefined) row[slot] = 1
    }
  }
  for (const keep of spot.keepsEnded) row[plan.keeps[keep]?.slot ?? 0] = 0
  for (const { role, place } of job.enters) {
    const before = layout.before[role] ?? 0
    row[layout.place[role] ?? 0] = row[before] ?? 0
    row[before] = 0
    lookAtPerson(run, row, role, place, false)
  }
  // Those whom the step excused are looked at when the next step begins, as if they had just come in.
  for (const role of job.excusedRoles) row[layout.lookedAt[role] ?? 0] = 1 + OUT
}

function prove(run: Run, row: Uint8Array, proof: ProofTaken, job: Job): void {
  const { plan } = run
  const { layout } = plan
  const { state } = proof
  const slot = layout.value[state] ?? 0
  const isUnknown = row[slot] === plan.unknown[state] && proof.firstValue >= 0
  if (proof.signedBy.length === 0 && !proof.isMeasured) {
    report(run, 'proof-missing', -1, state)
    if (!isUnknown && proof.ok[row[slot] ?? 0] !== 1) report(run, 'need-unmet', state, 1)
    return
  }
  if (isUnknown) change(run, row, state, proof.firstValue, [])
  const value = row[slot] ?? 0
  const isOwn = (role: number): boolean =>
    proof.ownSigners.includes(role) ||
    layout.ownWork.some((own) => own.state === state && own.role === role && row[own.slot] === 1)
  if (!proof.isMeasured && proof.signedBy.every(isOwn))
    report(run, 'signer-not-independent', state, -1, proof.signedBy[0])
  if (proof.ok[value] !== 1) {
    report(run, 'need-unmet', state, 1)
    run.unproved.add(run.spot.number)
    return
  }
  row[layout.proof[state] ?? 0] = PROVED
  const age = layout.age[state] ?? -1
  if (age >= 0) row[age] = 0
  run.provedAt.add(`${state} ${job.step.number}`)
  const locks = plan.locksOf[state] ?? []
  if (plan.safe[state]?.[value] === 1 && locks.length > 0 && !locks.some((thing) => isLocked(run, row, thing)))
    report(run, 'lockout-order', locks[0] ?? 0, state)
}

/** The ways out of a step, with what they count. */
export function leave(
  run: Run,
  row: Uint8Array,
  spot: Spot,
  isOut: boolean,
  go: (row: Uint8Array, way: Way) => void,
): void {
  if (!isOut) {
    takeWays(run, row, spot.passed, go)
    return
  }
  takeWays(run, row, spot.failed, go)
  const isOpen = spot.job?.hasNoAnswer || spot.endsOpen.some((way) => (row[way.counts] ?? 0) >= way.mostOften)
  if (isOpen) takeWays(run, row, spot.passed, go)
}

export function takeWays(
  run: Run,
  row: Uint8Array,
  ways: readonly Way[],
  go: (row: Uint8Array, way: Way) => void,
): void {
  for (const way of ways) {
    if (way.after >= 0 && (row[way.after] ?? 0) < way.afterCount) continue
    if (way.counts >= 0 && (row[way.counts] ?? 0) >= way.mostOften) continue
    if (way.condition === null) go(row, way)
    else follow(run, row, way.condition, (answered, holds) => holds && go(answered, way))
  }
}

/** Goes one way: what it counts is counted, and the next place is reached. */
export function goThere(run: Run, row: Uint8Array, way: Way, isOut: boolean): void {
  run.taken[way.edge] = 1
  run.reached[way.to] = 1
  run.scratch.set(row)
  count(run.scratch, way)
  const phase = run.plan.sideBySide.get(way.to)
  const { progress } = run.plan.layout
  for (const slot of progress) run.scratch[slot] = 0
  // Whoever comes to a later step of a phase worked `together` has the earlier ones behind him.
  const first = phase?.strands.findIndex((strand) => strand.home.number === way.to) ?? 0
  for (let index = 0; index < first; index++) run.scratch[progress[index] ?? 0] = BEHIND
  arrive(run, phase?.spot ?? way.to, way.edge * 2 + (isOut ? 1 : 0))
}

const BEHIND = 255

export function count(row: Uint8Array, way: Way): void {
  const taken = way.counts >= 0 ? (row[way.counts] ?? 0) + 1 : 0
  for (const slot of way.resets) row[slot] = 0
  if (way.counts >= 0) row[way.counts] = taken
}
