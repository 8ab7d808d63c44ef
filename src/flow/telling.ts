import type { Step } from '../model/procedure.ts'
import type { Place } from '../text/place.ts'
import { type LastChange, lastChange, type Passed } from './path.ts'
import type { Plan } from './plan.ts'
import type { FlowFault } from './proof.ts'
import type { Run, Sighting } from './run.ts'
import type { Spot } from './spots.ts'
import { phaseWords, stateName, stepLabel, valueName } from './words.ts'

/** A sighting with the way to it: what the words are made from. */
export interface Seen {
  readonly run: Run
  readonly plan: Plan
  readonly sighting: Sighting
  readonly spot: Spot
  readonly path: readonly Passed[]
}

/** What is said of a sighting. */
export interface Told {
  readonly subject: string
  /** The step whose change or lack made it so; the same fault with another cause is another fault. */
  readonly cause: string
  readonly at: Place
  readonly message: string
  readonly advice: string
  readonly related: FlowFault['related']
  /** States and people whose changes the story shows. */
  readonly states: readonly number[]
  readonly roles: readonly number[]
}

/** Where the work stands, in words: `5.4 (left)`, `the end`. */
export function here(seen: Seen): string {
  const { spot, plan, path } = seen
  if (spot.job) return stepLabel(spot.job.step, plan.subjects)
  if (spot.node.kind === 'end') return 'the end'
  if (spot.node.kind === 'stop') return labelBefore(path, plan)
  return spot.home ? `the start of "${phaseWords(spot.home)}"` : 'the start'
}

/** The step before a stop. */
export function stepBefore(path: readonly Passed[]): Step | null {
  return path.findLast(({ spot }) => spot.job !== null)?.spot.job?.step ?? null
}

function labelBefore(path: readonly Passed[], plan: Plan): string {
  const step = stepBefore(path)
  return step ? stepLabel(step, plan.subjects) : 'the start'
}

/** What to underline where nothing better is known. */
export function placeHere(seen: Seen): Place {
  const { spot, plan, path } = seen
  return spot.job?.step.at ?? stepBefore(path)?.at ?? spot.home?.at ?? plan.subjects.procedure.document.at
}

/** A state and how it came to be so: `power went live at 4.2`, `power is still live, as at the start`. */
export function history(seen: Seen, state: number, change: LastChange): string {
  const { plan, path } = seen
  const name = stateName(state, plan.subjects)
  const value = valueName(state, change.value, plan.subjects)
  const step = path[change.index]?.spot.job?.step
  if (step) return `${name} went ${value} at ${stepLabel(step, plan.subjects)}`
  return value === 'unknown' ? `nobody knows yet what ${name} is` : `${name} is still ${value}, as at the start`
}

export function causeOf(seen: Seen, index: number): string {
  return seen.path[index]?.spot.job?.step.id ?? 'start'
}

export function changeBefore(seen: Seen, state: number): LastChange {
  return lastChange(seen.plan, seen.path, state, false)
}

export function changeBy(seen: Seen, state: number): LastChange {
  return lastChange(seen.plan, seen.path, state, true)
}

/** The place where the cause stands, for a finding that points elsewhere. */
export function relatedTo(seen: Seen, index: number, message: string): FlowFault['related'] {
  const step = seen.path[index]?.spot.job?.step
  return step ? [{ at: step.at, message }] : []
}

/** Where a step says that it changes a state, else the step. */
export function placeOfChange(seen: Seen, state: number): Place {
  const id = stateName(state, seen.plan.subjects)
  const { spot } = seen
  return spot.job?.step.sets.find((change) => change.state === id)?.at ?? placeHere(seen)
}

/** Where a step says who goes where, else where its phase does. */
export function placeOfMove(seen: Seen, role: number): Place {
  const { spot, plan } = seen
  const name = plan.subjects.roles[role]
  const isHis = (where: { readonly role: string | null }): boolean => where.role === null || where.role === name
  const { job } = spot
  if (job === null) return placeHere(seen)
  return [...job.step.enters, ...job.step.where].find(isHis)?.at ?? job.step.at
}
