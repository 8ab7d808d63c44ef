import { follow } from './answers.ts'
import { clearZones } from './changes.ts'
import { lookAtEnd, lookAtStop } from './ends.ts'
import { WATCHED } from './layout.ts'
import { lookAtResuming, type Resuming } from './pause.ts'
import type { Plan } from './plan.ts'
import { type Run, report } from './run.ts'
import { meet, noSituations } from './situations.ts'
import type { Door, Spot } from './spots.ts'
import { OUT, valueNumber } from './subjects.ts'
import { visitTogether } from './together.ts'
import { goThere, leave, takeWays, workStep } from './work.ts'

export interface ExploreBounds {
  readonly situations: number
  /** Tells situations apart by everything in them, not only by what something later reads: slow, for tests of just that. */
  readonly keepsEverything?: true
}

/** Follows every way through the procedure, the shortest first. */
export function explore(plan: Plan, readLater: Uint8Array, resuming: Resuming, bounds: ExploreBounds): Run {
  const { layout, subjects } = plan
  const live = bounds.keepsEverything ? new Uint8Array(readLater.length).fill(255) : readLater
  const run = newRun(plan, live)
  for (const [state, { start }] of subjects.states.entries())
    run.scratch[layout.value[state] ?? 0] = Math.max(0, valueNumber(subjects, state, start))
  run.scratch[layout.fresh] = 1
  meet(run.all, run.scratchWords, plan.start, -1, -1)
  followAll(run, resuming, bounds.situations)
  return run
}

function newRun(plan: Plan, live: Uint8Array): Run {
  const { layout, spots, subjects } = plan
  const scratch = new Uint8Array(layout.width)
  const [first] = spots
  if (first === undefined) throw new Error('a graph has a start')
  return {
    plan,
    all: noSituations(layout.width),
    live,
    liveWords: new Uint32Array(live.buffer),
    sightings: new Map(),
    seenIn: new Uint8Array(spots.length * subjects.safeWhen.length),
    provedAt: new Set(),
    reached: new Uint8Array(spots.length),
    taken: new Uint8Array(subjects.procedure.graph.edges.length),
    ages: subjects.states.map(() => [0]),
    scratch,
    scratchWords: new Uint32Array(scratch.buffer),
    situation: -1,
    spot: first,
    beside: [],
    asked: 0,
    isTooLarge: false,
    goesOn: true,
    unproved: new Set(),
    probed: -1,
    isReliedOn: false,
  }
}

function followAll(run: Run, resuming: Resuming, mostSituations: number): void {
  const { layout, spots } = run.plan
  const row = new Uint8Array(layout.width)
  const words = new Uint32Array(row.buffer)
  for (let next = 0; next < run.all.count; next++) {
    if (run.all.count > mostSituations) run.isTooLarge = true
    if (run.isTooLarge || run.isReliedOn) break
    const spot = spots[run.all.node[next] ?? 0]
    if (spot === undefined) continue
    run.situation = next
    run.spot = spot
    words.set(run.all.rows.subarray(next * run.all.words, (next + 1) * run.all.words))
    run.goesOn = spot.node.kind === 'end' || spot.node.kind === 'stop'
    visit(run, row, spot, resuming)
    if (!run.goesOn) report(run, 'endless', spot.number)
  }
}

/** Whether, from a situation on, some moment looks at the proof of a state while it is still the same proof. */
export function isReliedOn(run: Run, situation: number, state: number): boolean {
  const { plan, all } = run
  const later = newRun(plan, run.live)
  later.probed = state
  later.ages.splice(0, later.ages.length, ...run.ages.map((ages) => [...ages]))
  later.scratchWords.set(all.rows.subarray(situation * all.words, (situation + 1) * all.words))
  later.scratch[plan.layout.proof[state] ?? 0] = WATCHED
  meet(later.all, later.scratchWords, all.node[situation] ?? 0, -1, -1)
  followAll(later, new Map(), MOST_PROBED)
  return later.isReliedOn || later.isTooLarge
}

const MOST_PROBED = 20_000

function visit(run: Run, row: Uint8Array, spot: Spot, resuming: Resuming): void {
  const phase = run.plan.together.find((candidate) => candidate.spot === spot.number)
  if (spot.node.kind === 'end') lookAtEnd(run, row)
  else if (spot.node.kind === 'stop') lookAtStop(run, row, spot)
  else if (spot.door !== null) passDoor(run, row, spot, spot.door)
  else if (phase) visitTogether(run, row, phase, resuming)
  else if (spot.job === null) takeWays(run, row, spot.passed, (after, way) => goThere(run, after, way, false))
  else visitStep(run, row, spot, resuming)
}

function visitStep(run: Run, row: Uint8Array, spot: Spot, resuming: Resuming): void {
  const { job } = spot
  if (job === null) return
  const work = (here: Uint8Array): void => {
    lookAtResuming(run, here, spot, resuming)
    workStep(run, here, spot, job, (after, isOut) =>
      leave(run, after, spot, isOut, (going, way) => goThere(run, going, way, isOut)),
    )
  }
  const skip = (here: Uint8Array): void => {
    for (const keep of spot.keepsEnded) here[run.plan.keeps[keep]?.slot ?? 0] = 0
    takeWays(run, here, spot.skipped, (after, way) => goThere(run, after, way, false))
  }
  if (!job.isInVariant) skip(row)
  else if (job.when === null) work(row)
  else follow(run, row, job.when, (here, holds) => (holds ? work(here.slice()) : skip(here)))
}

/** Coming to a phase: its people are told where to be. They are looked at when the first step begins. */
function passDoor(run: Run, row: Uint8Array, spot: Spot, door: Door): void {
  const { layout } = run.plan
  const enter = (here: Uint8Array): void => {
    clearZones(run, here, door.clear)
    for (const { role, place } of door.moves) {
      const slot = layout.place[role] ?? 0
      const looked = layout.lookedAt[role] ?? 0
      if (here[looked] === 0) here[looked] = 1 + (here[slot] ?? OUT)
      here[slot] = place
    }
    for (const slot of layout.admitted.values()) here[slot] = 0
    for (const keep of spot.keepsBegun) here[run.plan.keeps[keep]?.slot ?? 0] = 1
    takeWays(run, here, spot.passed, (after, way) => goThere(run, after, way, false))
  }
  const skip = (here: Uint8Array): void =>
    takeWays(run, here, spot.skipped, (after, way) => goThere(run, after, way, false))
  if (!door.isInVariant) skip(row)
  else if (door.when === null) enter(row)
  else follow(run, row, door.when, (here, holds) => (holds ? enter(here.slice()) : skip(here)))
}
