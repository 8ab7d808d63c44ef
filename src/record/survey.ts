import { applies } from './applies.ts'
import type { Job, JobItem, StepItem } from './job.ts'
import { type JobState, readingKey } from './job-state.ts'
import { type Outlet, outletOf } from './outlet.ts'
import { lapsedProofs, type StandingProof } from './standing.ts'
import { isRunning, type Timer, timeInWords, timersOf } from './timers.ts'

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
  readonly timers: readonly Timer[]
}

export interface Survey {
  readonly standings: ReadonlyMap<string, Standing>
  readonly inOrder: readonly Standing[]
  /** The first thing to do; null when all is done or the work has stopped. */
  readonly next: Standing | null
  /** The first that is not done, be it open or blocked: where the work stands. */
  readonly standsAt: Standing | null
  readonly done: number
  readonly total: number
  /** What must be filled in before the first step; empty when ready. */
  readonly missingAtStart: readonly Missing[]
  /** A stop that the work has run into. */
  readonly stop: { readonly item: JobItem; readonly says: string } | null
  /** Items up to the last signature: what they say can no longer be changed. */
  readonly sealed: ReadonlySet<string>
  /** Proofs too old to rest on. */
  readonly lapsed: readonly StandingProof[]
  readonly isClosed: boolean
}

export interface Missing {
  readonly field: 'variant' | 'person'
  readonly name: string
}

/** Where the job stands: each item's status, what comes next, what blocks. `now` in milliseconds since 1970. */
export function survey(job: Job, state: JobState, now: number): Survey {
  const missingAtStart = missing(job, state)
  const lapsed = lapsedProofs(job, state, now).filter(({ state: id, at }) => !isTakenOn(id, at, state))
  const inOrder: Standing[] = []
  let blockedBy = whyAllBlocked(state, missingAtStart, lapsed)
  let stop: Survey['stop'] = null
  for (const item of job.items) {
    const off = whyOff(job, item, state)
    if (off !== null) {
      inOrder.push({ item, status: 'off', why: off, outlet: null, timers: [] })
      continue
    }
    const outlet = item.kind === 'step' || item.kind === 'until' ? outletOf(item, state) : null
    const done = isDone(item, state)
    const timers = item.kind === 'step' ? timersOf(item, state, now) : []
    const why = blockedBy === '' && !done ? whyTooEarly(timers) : blockedBy
    const status = done ? 'done' : why === '' ? 'open' : 'blocked'
    inOrder.push({ item, status, why: status === 'blocked' ? why : '', outlet, timers })
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
    standsAt: due.find(({ status }) => status !== 'done') ?? null,
    done: due.filter((standing) => standing.status === 'done').length,
    total: due.length,
    missingAtStart,
    stop,
    sealed,
    lapsed,
    isClosed: state.end !== null,
  }
}

function whyAllBlocked(state: JobState, missingAtStart: readonly Missing[], lapsed: readonly StandingProof[]): string {
  if (state.end !== null) return 'This job is closed.'
  if (missingAtStart.length > 0) return 'Fill in “This job” first.'
  const old = lapsed[0]
  return old === undefined ? '' : `Too old: ${old.says} (${old.how}). Prove it again first.`
}

/** Somebody wrote down why the work goes on with an old proof. */
function isTakenOn(proof: string, since: string, state: JobState): boolean {
  return state.deviations.some(({ wait, at }) => wait === `proof:${proof}` && Date.parse(at) >= Date.parse(since))
}

/** A step that is counted from another is not begun before its time. */
function whyTooEarly(timers: readonly Timer[]): string {
  const early = timers.find((timer) => timer.wait.begins === 'since' && isRunning(timer))
  if (early === undefined) return ''
  return early.begun === null
    ? `Wait first: ${early.wait.says}.`
    : `Wait first: ${early.wait.says}. ${timeInWords(early.left)} left.`
}

function missing(job: Job, state: JobState): readonly Missing[] {
  const variants = job.variants.filter(({ name }) => !state.variants.has(name))
  const crew = job.roles.filter(({ id, acts }) => acts && !state.people.get(id)?.name)
  return [
    ...variants.map(({ name }) => ({ field: 'variant' as const, name })),
    ...crew.map(({ id }) => ({ field: 'person' as const, name: id })),
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
      if (outlet !== null && outlet.consequence?.action !== 'continue' && outlet.consequence !== null)
        return `Out of limit at ${item.number}: settle that first.`
      return item.waits.some(({ begins }) => begins !== 'watch')
        ? `Wait at ${item.number} first: ${item.waits.map(({ says }) => says).join(', ')}.`
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
    .filter((standing) => (standing.status !== 'done' || isWatched(standing)) && standing.status !== 'off')
    .filter(({ item: earlier }) => !isReview(earlier))
}

/** Done, but a fire watch that it began is not over. */
export function isWatched({ timers, status }: Standing): boolean {
  return status === 'done' && timers.some((timer) => timer.wait.begins === 'watch' && isRunning(timer))
}

function isReview(item: JobItem): boolean {
  return item.kind === 'sign' && item.holdKind === 'review'
}

export interface Lack {
  readonly what: 'reading' | 'tick' | 'outlet' | 'wait'
  readonly id: string
}

/** What keeps a step from being ticked. */
export function lacksOf(item: StepItem, state: JobState, now: number): readonly Lack[] {
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
  const waits = timersOf(item, state, now).filter(
    (timer) => timer.wait.begins !== 'watch' && (isRunning(timer) || (timer.isLate && timer.settledBy === null)),
  )
  return [
    ...waits.map(({ wait }) => ({ what: 'wait' as const, id: wait.id })),
    ...ticks.map(({ id }) => ({ what: 'tick' as const, id })),
    ...readings.map((id) => ({ what: 'reading' as const, id })),
    ...(unsettled ? [{ what: 'outlet' as const, id: item.id }] : []),
  ]
}
