import type { Moment } from './job.ts'
import type { Plan } from './plan.ts'
import type { Run } from './run.ts'
import type { Spot } from './spots.ts'
import { BEGUN, readMark, WAS_OUT } from './together.ts'
import type { Way } from './ways.ts'

/** One place of a way through the work. */
export interface Passed {
  readonly spot: Spot
  /** The way by which it was left; null at the last place. */
  readonly way: Way | null
  /** Whether it was passed by. */
  readonly isSkipped: boolean
  /** Whether something was out of limit there. */
  readonly isOut: boolean
}

/** The shortest way to a situation: from the start to the place where it stands. */
export function pathTo(run: Run, situation: number): readonly Passed[] {
  const { all, plan } = run
  const numbers: number[] = []
  for (let number = situation; number >= 0; number = all.parent[number] ?? -1) numbers.push(number)
  const path: Passed[] = []
  for (const number of numbers.reverse()) {
    const via = all.via[number] ?? -1
    const spot = plan.spots[all.node[number] ?? 0]
    if (spot === undefined) continue
    if (via >= 0) leaveLast(path, plan, via)
    if (via < -1) takeInside(path, plan, via)
    const isInside = plan.sideBySide.get(spot.number)?.spot === spot.number
    if (!isInside) path.push({ spot, way: null, isSkipped: false, isOut: false })
  }
  return path
}

/** The last place is left by a way. */
function leaveLast(path: Passed[], plan: Plan, via: number): void {
  const last = path.at(-1)
  const edge = plan.subjects.procedure.graph.edges[via >> 1]
  if (last === undefined || edge === undefined) return
  const ways = [...last.spot.passed, ...last.spot.failed, ...last.spot.skipped]
  const way = ways.find((candidate) => candidate.edge === via >> 1) ?? null
  path[path.length - 1] = { ...last, way, isSkipped: edge.outcome === 'skipped', isOut: last.isOut || (via & 1) === 1 }
}

/** Inside a phase worked `together` each step stands where it began. */
function takeInside(path: Passed[], plan: Plan, via: number): void {
  const { spot: number, what } = readMark(via)
  const spot = plan.spots[number]
  if (spot === undefined) return
  if (what === BEGUN) path.push({ spot, way: null, isSkipped: false, isOut: false })
  if (what !== WAS_OUT) return
  const index = path.findLastIndex((passed) => passed.spot === spot)
  const passed = path[index]
  if (passed) path[index] = { ...passed, isOut: true }
}

/** What a step makes of a state, value after value; empty where it leaves it alone. */
export function changesAt(plan: Plan, spot: Spot, state: number): readonly number[] {
  return (spot.job?.moments ?? []).flatMap((moment) => valuesOf(plan, moment, state))
}

function valuesOf(plan: Plan, moment: Moment, state: number): readonly number[] {
  switch (moment.is) {
    case 'change':
      return moment.state === state ? [moment.value] : []
    case 'any-order':
      return moment.lists.flat().flatMap((one) => (one.state === state ? [one.value] : []))
    case 'lock':
    case 'unlock': {
      if (moment.thing !== state) return []
      const value = plan.subjects.values[state]?.indexOf(moment.is === 'lock' ? 'locked' : 'unlocked') ?? -1
      return value < 0 ? [] : [value]
    }
    default:
      return []
  }
}

/** A state followed along a way: where it last changed, and to what. */
export interface LastChange {
  /** Index on the way; −1: as it was at the start. */
  readonly index: number
  readonly value: number
}

/** The last change of a state on a way; the last place counts too where `isDone`. */
export function lastChange(plan: Plan, path: readonly Passed[], state: number, isDone: boolean): LastChange {
  let value = plan.subjects.values[state]?.indexOf(plan.subjects.states[state]?.start ?? '') ?? 0
  let index = -1
  for (const [at, { spot, isSkipped, isOut }] of path.entries()) {
    if (isSkipped || (at === path.length - 1 && !isDone)) continue
    for (const next of changesAt(plan, spot, state)) {
      if (next === value) continue
      value = next
      index = at
    }
    const proof = isOut ? undefined : spot.job?.proves.find((one) => one.state === state)
    if (proof && value === plan.unknown[state] && proof.firstValue >= 0) {
      value = proof.firstValue
      index = at
    }
  }
  return { index, value }
}

/** The last place on a way for which something holds, or −1. */
export function lastPlace(path: readonly Passed[], isIt: (passed: Passed) => boolean): number {
  return path.findLastIndex((passed) => !passed.isSkipped && isIt(passed))
}
