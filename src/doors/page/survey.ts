import type { Job, JobItem, StepItem } from '../../outputs/page/job.ts'
import { applies } from './applies.ts'
import { type JobState, readingKey } from './job-log.ts'
import { type Outlet, outletOf } from './outlet.ts'

/**
 * `open`: to be done now or later, nothing stands in its way. `blocked`: something before it must be settled first.
 * `off`: not part of this job (other variant, branch not taken, passed over, condition does not hold).
 */
export type ItemStatus = 'done' | 'open' | 'blocked' | 'off'

export interface Standing {
  readonly item: JobItem
  readonly status: ItemStatus
  /** Why it is off or blocked, in words. */
  readonly why: string
  /** What follows because a reading of it is out of limit. */
  readonly outlet: Outlet | null
}

export interface Survey {
  readonly standings: ReadonlyMap<string, Standing>
  readonly inOrder: readonly Standing[]
  /** The first thing to do; null when all is done or the work has stopped. */
  readonly next: Standing | null
  readonly done: number
  readonly total: number
  /** What must be filled in before the first step; empty when ready. */
  readonly missingAtStart: readonly Missing[]
  /** A stop that the work has run into. */
  readonly stop: { readonly item: JobItem; readonly says: string } | null
  /** Items up to the last signature: what they say can no longer be changed. */
  readonly sealed: ReadonlySet<string>
}

export interface Missing {
  readonly field: 'variant' | 'crew'
  readonly name: string
}

/** Where the job stands: each item's status, what comes next, what blocks. */
export function survey(job: Job, state: JobState): Survey {
  const missingAtStart = missing(job, state)
  const inOrder: Standing[] = []
  let blockedBy = missingAtStart.length > 0 ? 'Fill in “This job” first.' : ''
  let stop: Survey['stop'] = null
  for (const item of job.items) {
    const off = whyOff(job, item, state)
    if (off !== null) {
      inOrder.push({ item, status: 'off', why: off, outlet: null })
      continue
    }
    const outlet = item.kind === 'step' || item.kind === 'until' ? outletOf(item, state) : null
    const done = isDone(item, state)
    const status = done ? 'done' : blockedBy === '' ? 'open' : 'blocked'
    inOrder.push({ item, status, why: status === 'blocked' ? blockedBy : '', outlet })
    if (stop === null) stop = stopAt(item, outlet, state)
    if (blockedBy === '' && !done) blockedBy = blocks(item, outlet)
    if (blockedBy === '' && stop !== null) blockedBy = 'The work has stopped.'
  }
  const due = inOrder.filter((standing) => standing.status !== 'off')
  const sealed = sealedBySignature(inOrder)
  return {
    standings: new Map(inOrder.map((standing) => [standing.item.id, standing])),
    inOrder,
    next: stop === null ? (due.find((standing) => standing.status === 'open') ?? null) : null,
    done: due.filter((standing) => standing.status === 'done').length,
    total: due.length,
    missingAtStart,
    stop,
    sealed,
  }
}

function missing(job: Job, state: JobState): readonly Missing[] {
  const variants = job.variants.filter(({ name }) => !state.variants.has(name))
  const crew = job.roles.filter(({ id, acts }) => acts && !state.crew.get(id))
  return [
    ...variants.map(({ name }) => ({ field: 'variant' as const, name })),
    ...crew.map(({ id }) => ({ field: 'crew' as const, name: id })),
  ]
}

function whyOff(job: Job, item: JobItem, state: JobState): string | null {
  if (!item.only.every((only) => applies(only, state))) return 'Other variant'
  if (isBranchNotTaken(job, item, state)) return 'Not taken'
  if (state.passedOver.has(item.id)) return 'Passed over'
  return item.conditions.some(({ id }) => state.skipped.has(id)) ? 'Does not apply' : null
}

function isBranchNotTaken(job: Job, item: JobItem, state: JobState): boolean {
  const phase = job.phases.find(({ id }) => id === item.phase)
  if (!phase?.under || state.opened.has(phase.id)) return false
  return job.items.some(
    (other) => other.kind === 'decide' && other.phase === phase.under && state.decisions.has(other.step),
  )
}

function isDone(item: JobItem, state: JobState): boolean {
  switch (item.kind) {
    case 'step':
      return state.ticks.has(item.id)
    case 'sign':
      return state.signatures.has(item.hold)
    case 'decide':
      return state.decisions.has(item.step)
    case 'until':
      return state.ended.has(item.phase)
  }
}

/** Why nothing after an item that is not done may be begun; empty where it may. */
function blocks(item: JobItem, outlet: Outlet | null): string {
  switch (item.kind) {
    case 'step':
      return outlet !== null && outlet.consequence?.action !== 'continue' && outlet.consequence !== null
        ? `Out of limit at ${item.number}: settle that first.`
        : ''
    case 'sign':
      return item.holdKind === 'review' ? '' : `Waits for ${item.number}: ${item.text}`
    case 'decide':
      return `Waits for the decision at ${item.number}.`
    case 'until':
      return `Waits for the end of ${item.number}: ${item.condition}`
  }
}

function stopAt(item: JobItem, outlet: Outlet | null, state: JobState): Survey['stop'] {
  if (outlet?.consequence?.action === 'stop') return { item, says: outlet.consequence.says }
  if (item.kind !== 'decide') return null
  const decision = state.decisions.get(item.step)
  const branch = decision === undefined ? undefined : item.branches[decision.branch]
  if (branch?.action !== 'stop') return null
  return { item, says: `STOP. ${branch.reason ?? branch.says}` }
}

function sealedBySignature(inOrder: readonly Standing[]): ReadonlySet<string> {
  const last = inOrder.findLastIndex(({ item, status }) => item.kind === 'sign' && status === 'done')
  return new Set(inOrder.slice(0, last + 1).map(({ item }) => item.id))
}

/** Everything that must be done before an item is signed: earlier items still open, reviews apart. */
export function openBefore(now: Survey, item: JobItem): readonly Standing[] {
  const until = now.inOrder.findIndex((standing) => standing.item.id === item.id)
  return now.inOrder
    .slice(0, until)
    .filter(({ item: earlier, status }) => status !== 'done' && status !== 'off' && !isReview(earlier))
}

function isReview(item: JobItem): boolean {
  return item.kind === 'sign' && item.holdKind === 'review'
}

export interface Lack {
  readonly what: 'reading' | 'tick' | 'outlet'
  readonly id: string
}

/** What keeps a step from being ticked. */
export function lacksOf(item: StepItem, state: JobState): readonly Lack[] {
  const ticks = item.ticks.filter((tick) => applies(tick.only, state) && !state.ticks.has(tick.id))
  const readings = item.readings
    .filter((reading) => applies(reading.only, state))
    .flatMap((reading) => reading.positions.map((position) => readingKey(reading.id, position)))
    .filter((key) => {
      const entered = state.readings.get(key)
      return entered === undefined || entered.verdict === 'unreadable' || entered.verdict === 'waiting'
    })
  const outlet = outletOf(item, state)
  const unsettled = outlet !== null && outlet.consequence !== null && outlet.consequence.action !== 'continue'
  return [
    ...ticks.map(({ id }) => ({ what: 'tick' as const, id })),
    ...readings.map((id) => ({ what: 'reading' as const, id })),
    ...(unsettled ? [{ what: 'outlet' as const, id: item.id }] : []),
  ]
}
