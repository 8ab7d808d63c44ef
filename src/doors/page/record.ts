import type { Job, JobItem } from '../../outputs/page/job.ts'
import { applies } from './applies.ts'
import { type JobEvent, type JobState, readingKey } from './job-log.ts'
import type { Survey } from './survey.ts'

/** What was done on one job, for the file and for other programs. Shape: `schema/record.schema.json`. */
export interface JobRecord {
  readonly format: 'witnessmark-record'
  readonly formatVersion: '1.0'
  readonly document: {
    readonly number: string
    readonly title: string
    readonly revision: string
    readonly status: string
    /** Of the step file that the page was made from. */
    readonly digest: string
  }
  readonly run: string
  readonly begun: string
  readonly saved: string
  /** Everything that applies is done and signed, and nothing has stopped the work. */
  readonly complete: boolean
  readonly equipment: string
  readonly variants: { readonly [name: string]: string }
  readonly crew: readonly { readonly role: string; readonly name: string }[]
  readonly steps: readonly RecordedStep[]
  readonly holds: readonly RecordedHold[]
  readonly decisions: readonly RecordedDecision[]
  readonly stopped: readonly {
    readonly at: string
    readonly where: string
    readonly name: string
    readonly because: string
  }[]
  readonly handovers: JobState['handovers']
  readonly deviations: JobState['deviations']
  /** Everything as it happened, tries that failed and corrections included. */
  readonly entries: readonly JobEvent[]
}

type StepOutcome = 'done' | 'open' | 'left-out'

interface RecordedStep {
  readonly step: string
  readonly number: string
  readonly outcome: StepOutcome
  /** Why it was left out. */
  readonly because: string
  readonly at: string | null
  readonly by: readonly { readonly role: string; readonly name: string }[]
  readonly attempt: number
  readonly readings: readonly {
    readonly reading: string
    readonly position: string | null
    readonly typed: string
    readonly judgedAs: string
    readonly verdict: string
    readonly limit: string | null
    /** The item after which it no longer counts, or null. */
    readonly spoiledBy: string | null
    readonly at: string
  }[]
}

interface RecordedHold {
  readonly hold: string
  readonly number: string
  readonly kind: string
  readonly role: string
  readonly says: string
  readonly outcome: 'signed' | 'waived' | 'open' | 'left-out'
  readonly name: string | null
  readonly at: string | null
}

interface RecordedDecision {
  readonly step: string
  readonly number: string
  readonly ask: string
  readonly says: string
  readonly at: string
}

export function makeRecord(
  job: Job,
  state: JobState,
  now: Survey,
  events: readonly JobEvent[],
  saved: string,
): JobRecord {
  const { number, title, revision, status, digest } = job
  return {
    format: 'witnessmark-record',
    formatVersion: '1.0',
    document: { number, title, revision, status, digest },
    run: state.run,
    begun: state.begun,
    saved,
    complete: now.total > 0 && now.done === now.total && now.stop === null,
    equipment: state.equipment,
    variants: Object.fromEntries(state.variants),
    crew: [...state.crew].map(([role, name]) => ({ role, name })),
    steps: job.items.flatMap((item) => recordedStep(item, state, now)),
    holds: job.items.flatMap((item) => recordedHold(item, state, now)),
    decisions: job.items.flatMap((item) => recordedDecision(item, state)),
    stopped: [...state.stopped].map(([where, { at, name, because }]) => ({ at, where, name, because })),
    handovers: state.handovers,
    deviations: state.deviations,
    entries: events,
  }
}

function recordedStep(item: JobItem, state: JobState, now: Survey): readonly RecordedStep[] {
  if (item.kind !== 'step') return []
  const standing = now.standings.get(item.id)
  const tick = state.ticks.get(item.id)
  const here = item.readings.filter(({ only }) => applies(only, state))
  const readings = here.flatMap((reading) =>
    reading.positions.flatMap((position) => {
      const entered = state.readings.get(readingKey(reading.id, position))
      if (entered === undefined) return []
      const limit = reading.limit?.text ?? reading.workedLimit?.typed ?? null
      const spoiledBy = state.spoiled.get(readingKey(reading.id, position)) ?? null
      return [{ reading: reading.id, position, limit, spoiledBy, ...entered }]
    }),
  )
  return [
    {
      step: item.step,
      number: item.number,
      outcome: standing?.status === 'off' ? 'left-out' : tick === undefined ? 'open' : 'done',
      because: standing?.status === 'off' ? standing.why : '',
      at: tick?.at ?? null,
      by: tick?.by ?? [],
      attempt: state.attempts.get(item.step) ?? 1,
      readings,
    },
  ]
}

function recordedHold(item: JobItem, state: JobState, now: Survey): readonly RecordedHold[] {
  if (item.kind !== 'sign') return []
  const signature = state.signatures.get(item.hold)
  const off = now.standings.get(item.id)?.status === 'off'
  const signed = signature?.waived ? 'waived' : 'signed'
  return [
    {
      hold: item.hold,
      number: item.number,
      kind: item.holdKind,
      role: item.role,
      says: item.text,
      outcome: off ? 'left-out' : signature === undefined ? 'open' : signed,
      name: signature?.name ?? null,
      at: signature?.at ?? null,
    },
  ]
}

function recordedDecision(item: JobItem, state: JobState): readonly RecordedDecision[] {
  if (item.kind !== 'decide') return []
  const decision = state.decisions.get(item.step)
  if (decision === undefined) return []
  return [{ step: item.step, number: item.number, ask: item.text, says: decision.says, at: decision.at }]
}

/** `KRQ-HT-021-A record HT-11 2026-03-02.json`, with nothing in it that a file system refuses. */
export function recordFileName(record: JobRecord): string {
  const { number, revision } = record.document
  const words = [`${number}-${revision}`, 'record', record.equipment, record.begun.slice(0, 10)]
  return `${words
    .map((word) => word.replace(/[^\p{L}\p{N}._-]+/gu, '-').replace(/^-|-$/g, ''))
    .filter(Boolean)
    .join(' ')}.json`
}
