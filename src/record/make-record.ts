import { parseQuantity } from '../quantities/parse-quantity.ts'
import { applies } from './applies.ts'
import { digestOfJson } from './chain.ts'
import { type Entry, meaningOf } from './entry.ts'
import { itemContents } from './item-contents.ts'
import type { Job, JobItem, JobReading, StepItem } from './job.ts'
import { identityKey, type JobState, type Reading, readingKey } from './job-state.ts'
import { jobState } from './reckon.ts'
import type {
  RecordedDecision,
  RecordedHold,
  RecordedReading,
  RecordedStep,
  RecordedWait,
  RecordSource,
  RunRecord,
} from './run-record.ts'
import { openThings } from './standing.ts'
import { lacksOf, type Survey, survey } from './survey.ts'
import { timersOf } from './timers.ts'

export interface RecordParts {
  /** In order, from the beginning. */
  readonly entries: readonly Entry[]
  readonly source: RecordSource
  /** ISO 8601: when this is written, and until when timers have run. */
  readonly saved: string
  /** Bytes of photos in base64, by SHA-256; what is not here is kept apart. */
  readonly photos: ReadonlyMap<string, string>
}

/** The record of a run. `job` by `makeJob(stepFile)`. */
export function makeRecord(job: Job, { entries, source, saved, photos }: RecordParts): RunRecord {
  const state = jobState(entries, itemContents(job))
  const instant = Date.parse(saved)
  const now = survey(job, state, instant)
  const { number, title, revision, status, digest } = job
  const open = openThings(job, state).map(({ says, count }) => (count === null ? says : `${count} × ${says}`))
  // On paper a step can be ticked with a blank left empty.
  const isWhole = now.inOrder.every(
    ({ item, status }) =>
      item.kind !== 'step' ||
      status === 'off' ||
      !lacksOf(item, state, instant).some(({ what }) => what === 'tick' || what === 'reading'),
  )
  const isDone = now.total > 0 && now.done === now.total && now.stop === null && isWhole
  const record: Omit<RunRecord, 'digest'> = {
    format: 'witnessmark-record',
    formatVersion: '1.0',
    document: { number, title, revision, status, digest },
    run: state.run,
    source,
    begun: state.begun,
    saved,
    end: state.end,
    complete: isDone && open.length === 0,
    equipment: state.equipment,
    variants: Object.fromEntries(state.variants),
    people: state.signedIn,
    steps: job.items.flatMap((item) => (item.kind === 'step' ? [recordedStep(item, state, now)] : [])),
    holds: job.items.flatMap((item) => recordedHolds(item, state, now)),
    decisions: job.items.flatMap((item) => recordedDecision(item, state)),
    tries: entries.flatMap((entry) =>
      entry.kind === 'again' || (entry.kind === 'until' && !entry.met)
        ? [
            {
              at: entry.at,
              by: entry.by,
              step: entry.kind === 'again' ? entry.step : entry.phase,
              attempt: entry.attempt,
            },
          ]
        : [],
    ),
    waits: job.items.flatMap((item) => (item.kind === 'step' ? recordedWaits(item, state, instant) : [])),
    identities: [...state.identities].map(([key, { at, by, text }]) => {
      const [name = '', part = ''] = splitKey(key)
      return { for: name, part, text, at, by }
    }),
    deviations: state.deviations,
    notes: state.notes,
    photos: state.photos.map((photo) => ({ ...photo, content: photos.get(photo.photo) ?? null })),
    handovers: state.handovers.map(({ at, by, where, to, states, open, locks, withdrawn, text }) => ({
      at,
      where,
      from: by[0] ?? null,
      to,
      states,
      open,
      locks,
      withdrawn,
      text,
    })),
    stops: [...state.stopped].map(([item, { at, by, because }]) => ({ at, by, item, because })),
    open,
    entries,
  }
  return { ...record, digest: digestOfRecord(record) }
}

export function digestOfRecord(record: Omit<RunRecord, 'digest'>): string {
  return `sha256:${digestOfJson(record)}`
}

function splitKey(key: string): readonly string[] {
  const at = key.lastIndexOf('|')
  return [key.slice(0, at), key.slice(at + 1)]
}

function recordedStep(item: StepItem, state: JobState, now: Survey): RecordedStep {
  const standing = now.standings.get(item.id)
  const tick = state.ticks.get(item.id)
  const here = item.readings.filter(({ only }) => applies(only, state))
  return {
    step: item.step,
    number: item.number,
    text: item.text,
    outcome: standing?.status === 'off' ? 'left-out' : tick === undefined ? 'open' : 'done',
    because: standing?.status === 'off' ? standing.why : '',
    at: tick?.at ?? null,
    by: tick?.by ?? [],
    attempt: state.attempts.get(item.step) ?? 1,
    readings: here.flatMap((reading) =>
      reading.positions.flatMap((position) => recordedReadings(reading, position, state)),
    ),
  }
}

/** Of one blank: the tries before, then the one that counts. */
function recordedReadings(reading: JobReading, position: string | null, state: JobState): readonly RecordedReading[] {
  const key = readingKey(reading.id, position)
  const earlier = state.earlierReadings.get(key) ?? []
  const latest = state.readings.get(key)
  const instrument = state.identities.get(identityKey(reading.id, 'instrument'))?.text ?? ''
  const recorded = (entered: Reading, index: number): RecordedReading => ({
    reading: reading.id,
    name: reading.name,
    position,
    attempt: index + 1,
    typed: entered.typed,
    unit: unitTyped(reading, entered.typed),
    judgedAs: entered.judgedAs,
    verdict: entered.verdict,
    limit: entered.limit,
    instrument,
    counts: entered === latest && !state.spoiled.has(key),
    corrections: entered.before.map(({ typed, at, by, because, changed, changedBy }) => ({
      was: typed,
      wasAt: at,
      wasBy: by,
      because,
      at: changed,
      by: changedBy,
    })),
    at: entered.at,
    by: entered.by,
  })
  return [...earlier, ...(latest === undefined ? [] : [latest])].map(recorded)
}

function unitTyped(reading: JobReading, typed: string): string | null {
  if (reading.kind === 'check') return null
  const parsed = parseQuantity(typed)
  return parsed.ok && parsed.value.unit !== '' ? parsed.value.unit : null
}

function recordedHolds(item: JobItem, state: JobState, now: Survey): readonly RecordedHold[] {
  if (item.kind !== 'sign') return []
  const of = {
    hold: item.hold,
    number: item.number,
    kind: item.holdKind,
    says: item.text,
    meaning: meaningOf[item.holdKind],
  }
  const before = state.withdrawn.filter(({ hold }) => hold === item.hold)
  const signature = state.signatures.get(item.hold)
  const off = now.standings.get(item.id)?.status === 'off'
  const nobody = { role: item.role, name: null, initials: null, at: null, entry: null }
  return [
    ...before.map(({ role, name, initials, at, entry }) => ({
      ...of,
      outcome: 'withdrawn' as const,
      ...{ role: role || item.role, name, initials, at, entry },
    })),
    signature === undefined || off
      ? { ...of, ...nobody, outcome: off ? 'left-out' : 'open' }
      : {
          ...of,
          outcome: signature.waived ? 'waived' : 'signed',
          role: signature.role || item.role,
          name: signature.name,
          initials: signature.initials,
          at: signature.at,
          entry: signature.entry,
        },
  ]
}

function recordedDecision(item: JobItem, state: JobState): readonly RecordedDecision[] {
  if (item.kind !== 'decide') return []
  const decision = state.decisions.get(item.step)
  if (decision === undefined) return []
  return [{ step: item.step, number: item.number, ask: item.text, says: decision.says, at: decision.at }]
}

function recordedWaits(item: StepItem, state: JobState, instant: number): readonly RecordedWait[] {
  return timersOf(item, state, instant).map(({ wait, begun, elapsed, isOver, settledBy }) => ({
    step: item.step,
    number: item.number,
    says: wait.says,
    begun,
    elapsed,
    outcome: isOver ? 'over' : settledBy !== null ? 'ended-early' : begun === null ? 'not-begun' : 'running',
  }))
}

/** `KRQ-HT-021-A record HT-11 2026-03-02.json`, with nothing in it that a file system refuses. */
export function recordFileName(record: RunRecord): string {
  const { number, revision } = record.document
  const words = [`${number}-${revision}`, 'record', record.equipment, record.begun.slice(0, 10)]
  return `${words
    .map((word) => word.replace(/[^\p{L}\p{N}._-]+/gu, '-').replace(/^-|-$/g, ''))
    .filter(Boolean)
    .join(' ')}.json`
}

/** Photos of a run with their bytes, by SHA-256. */
export function photosIn(record: RunRecord): ReadonlyMap<string, string> {
  return new Map(record.photos.flatMap(({ photo, content }) => (content === null ? [] : [[photo, content] as const])))
}
