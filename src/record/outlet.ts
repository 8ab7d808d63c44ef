import { applies } from './applies.ts'
import { type Move, noMove, type Verdict } from './entry.ts'
import type { Job, JobConsequence, JobItem, StepItem, UntilItem } from './job.ts'
import { type JobState, readingKey } from './job-state.ts'

/** What follows from what is out of limit at an item. */
export interface Outlet {
  /** What is out: `end play`, `end play, left`. */
  readonly out: readonly string[]
  /** Null where the author wrote nothing: it is written down and feeds a later decision. */
  readonly consequence: JobConsequence | null
  /** The try that failed, counted from 1. */
  readonly attempt: number
}

interface OutReading {
  readonly reading: string
  readonly name: string
  readonly says: string
  readonly verdict: Verdict
}

/** What is in doubt was not shown to be in limit, and is answered like what is out. */
const sides: ReadonlySet<Verdict> = new Set(['low', 'high', 'out', 'in-doubt'])

function judgedOut(item: StepItem, state: JobState): readonly OutReading[] {
  const here = item.readings.filter(({ only }) => applies(only, state))
  return here.flatMap((reading) =>
    reading.positions.flatMap((position) => {
      const entered = state.readings.get(readingKey(reading.id, position))
      if (entered === undefined || !sides.has(entered.verdict)) return []
      const says = position === null ? reading.words : `${reading.words}, ${position}`
      return [{ reading: reading.id, name: reading.name, says, verdict: entered.verdict }]
    }),
  )
}

/** Null where nothing is out of limit. */
export function outletOf(item: StepItem | UntilItem, state: JobState): Outlet | null {
  if (item.kind === 'until') return untilOutlet(item, state)
  const out = judgedOut(item, state)
  if (out.length === 0) return null
  const attempt = state.attempts.get(item.step) ?? 1
  return { out: out.map(({ says }) => says), consequence: afterTries(pick(item, out), attempt), attempt }
}

/** A phase that ran out of tries: its last pass was judged and not met. */
function untilOutlet(item: UntilItem, state: JobState): Outlet | null {
  const attempt = state.attempts.get(item.phase) ?? 1
  if (item.atMost === null || attempt <= item.atMost) return null
  return { out: [item.condition], consequence: item.otherwise ?? noTriesLeft, attempt }
}

/** The reading's own consequence before the one for all of them; the side before either side; the worst of several. */
function pick(item: StepItem, out: readonly OutReading[]): JobConsequence | null {
  const followed = out.flatMap(({ reading, name, verdict }) => {
    const fitting = item.consequences.filter(
      (consequence) =>
        (consequence.reading === null || sameReading(consequence.reading, reading, name)) &&
        (consequence.on === 'out' || consequence.on === verdict || verdict === 'in-doubt'),
    )
    // In doubt it may be either side: the graver answer holds.
    const ranked = [...fitting].sort(
      (a, b) => (verdict === 'in-doubt' ? gravity[b.action] - gravity[a.action] : 0) || closeness(b) - closeness(a),
    )
    return ranked[0] ?? []
  })
  return [...followed].sort((a, b) => gravity[b.action] - gravity[a.action])[0] ?? null
}

const gravity = { continue: 0, go: 1, redo: 2, stop: 3 } as const

function closeness(consequence: JobConsequence): number {
  return (consequence.reading === null ? 0 : 2) + (consequence.on === 'out' ? 0 : 1)
}

/** A consequence may name its reading in full or by its last name. */
function sameReading(named: string, id: string, name: string): boolean {
  return named === id || named === name || id.endsWith(`#${named}`) || id.endsWith(`/${named}`)
}

/** The last try used up leads to `then`; with none written, the work stops for want of an answer. */
function afterTries(consequence: JobConsequence | null, attempt: number): JobConsequence | null {
  if (consequence === null || consequence.atMost === null || attempt < consequence.atMost) return consequence
  return consequence.then ?? noTriesLeft
}

const noTriesLeft: JobConsequence = {
  on: 'out',
  reading: null,
  action: 'stop',
  targets: [],
  atMost: null,
  says: 'STOP. No tries are left.',
  then: null,
}

/**
 * Which items are done afresh when steps are done again after `from`. One target: everything from there to here.
 * Several: those alone, and this one.
 */
export function moveAgain(job: Job, from: StepItem | UntilItem, targets: readonly string[]): Move {
  const own = itemsOf(job, from.kind === 'step' ? from.step : from.phase)
  if (targets.length === 0) return { ...noMove, clears: own }
  const only = targets.length === 1 ? targets[0] : undefined
  if (only === undefined) return { ...noMove, clears: [...targets.flatMap((target) => itemsOf(job, target)), ...own] }
  return { ...noMove, clears: between(job, only, from.id) }
}

/** Going to a step or phase: forward passes over what lies between, back means doing it again from there. */
export function moveTo(job: Job, from: JobItem, target: string | null): Move {
  if (target === null) return noMove
  const phase = job.phases.find(({ id }) => id === target)
  const opens = phase?.under ? phase.id : null
  const first = job.items.findIndex((item) => belongsTo(item, target))
  const here = job.items.findIndex((item) => item.id === from.id)
  if (first === -1) return { ...noMove, opens }
  if (first <= here) return { clears: between(job, target, from.id), passesOver: [], opens }
  // A step that sends the work on is left as it is, with its readings.
  const leaves = from.kind === 'step' ? here : here + 1
  return { clears: [], passesOver: job.items.slice(leaves, first).map((item) => item.id), opens }
}

function between(job: Job, target: string, until: string): readonly string[] {
  const first = job.items.findIndex((item) => belongsTo(item, target))
  const last = job.items.findIndex((item) => item.id === until)
  if (first === -1 || first > last) return itemsOf(job, target)
  return job.items.slice(first, last + 1).map((item) => item.id)
}

function itemsOf(job: Job, stepOrPhase: string): readonly string[] {
  return job.items.filter((item) => belongsTo(item, stepOrPhase)).map((item) => item.id)
}

function belongsTo(item: JobItem, stepOrPhase: string): boolean {
  return item.phase === stepOrPhase || item.within.includes(stepOrPhase)
}
