import { follow } from './answers.ts'
import { clearZones } from './changes.ts'
import { lookAtEnd, lookAtStop } from './ends.ts'
import { lookAtResuming, type Resuming } from './pause.ts'
import type { Door, Plan, Spot } from './plan.ts'
import { type Run, report } from './run.ts'
import { meet, noSituations } from './situations.ts'
import { OUT, valueNumber } from './subjects.ts'
import { visitTogether } from './together.ts'
import { goThere, leave, takeWays, workStep } from './work.ts'

/** Follows every way through the procedure, the shortest first. */
export function explore(
  plan: Plan,
  readLater: Uint8Array,
  resuming: Resuming,
  bounds: { readonly situations: number; readonly keepsEverything?: true },
): Run {
  const live = bounds.keepsEverything ? new Uint8Array(readLater.length).fill(255) : readLater
  const { layout, spots, subjects } = plan
  const scratch = new Uint8Array(layout.width)
  const [first] = spots
  if (first === undefined) throw new Error('a graph has a start')
  const run: Run = {
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
  }
  for (const [state, { start }] of subjects.states.entries())
    scratch[layout.value[state] ?? 0] = Math.max(0, valueNumber(subjects, state, start))
  scratch[layout.fresh] = 1
  meet(run.all, run.scratchWords, plan.start, -1, -1)
  const row = new Uint8Array(layout.width)
  const words = new Uint32Array(row.buffer)
  for (let next = 0; next < run.all.count; next++) {
    if (run.all.count > bounds.situations) run.isTooLarge = true
    if (run.isTooLarge) break
    const spot = spots[run.all.node[next] ?? 0]
    if (spot === undefined) continue
    run.situation = next
    run.spot = spot
    words.set(run.all.rows.subarray(next * run.all.words, (next + 1) * run.all.words))
    run.goesOn = spot.node.kind === 'end' || spot.node.kind === 'stop'
    visit(run, row, spot, resuming)
    if (!run.goesOn) report(run, 'endless', spot.number)
  }
  return run
}

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
  lookAtResuming(run, row, spot, resuming)
  const work = (here: Uint8Array): void =>
    workStep(run, here, spot, job, (after, isOut) =>
      leave(run, after, spot, isOut, (going, way) => goThere(run, going, way, isOut)),
    )
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
