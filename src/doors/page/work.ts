import { entryAfter, joinEntries } from '../../record/chain.ts'
import type { Entry, Happening, Person } from '../../record/entry.ts'
import { itemContents } from '../../record/item-contents.ts'
import type { Job } from '../../record/job.ts'
import type { JobState } from '../../record/job-state.ts'
import { crewOf } from '../../record/people.ts'
import { jobState } from '../../record/reckon.ts'
import type { RunRecord } from '../../record/run-record.ts'
import { type Survey, survey } from '../../record/survey.ts'
import type { Kept, LogStore } from './log-store.ts'

/** `behind`: another window wrote something meanwhile, which must be looked at first. */
export type Written = 'kept' | 'behind' | 'not-kept'

/** The job under way: its entries, what they add up to, and the way to add one. */
export interface Work {
  readonly job: Job
  readonly store: LogStore
  readonly entries: () => readonly Entry[]
  readonly state: () => JobState
  readonly now: () => Survey
  /** Earlier runs kept on this device, by run. */
  readonly earlier: () => ReadonlyMap<string, readonly Entry[]>
  /** Keeps an entry, then shows it. Shows nothing where it could not be kept. */
  readonly write: (
    happening: Happening,
    by?: readonly Person[],
    photos?: ReadonlyMap<string, string>,
  ) => Promise<Written>
  /** Begins a new run; the old one stays among the earlier ones. */
  readonly begin: () => Promise<Written>
  /** Takes the entries of a record in, and goes on with its run. The record must be of this procedure. */
  readonly takeIn: (record: RunRecord, photos: ReadonlyMap<string, string>) => Promise<Written>
  /** Reads the entries again: another window may have added some. */
  readonly refresh: () => Promise<void>
  /** Looks at the clock again. */
  readonly look: () => void
}

export async function openWork(job: Job, store: LogStore, show: () => void): Promise<Work> {
  const contents = itemContents(job)
  const others = otherWindows(job.digest)
  let kept: Kept = await store.read()
  let entries: readonly Entry[] = []
  let state = jobState([], contents)
  let now = survey(job, state, Date.now())

  const reckon = (): void => {
    entries = entriesOf(kept, kept.run)
    state = jobState(entries, contents)
    now = survey(job, state, Date.now())
  }
  const add: (...addition: Parameters<LogStore['add']>) => Promise<Written> = async (make) => {
    const seen = kept.entries.length
    let behind = false
    try {
      kept = await store.add((before) => {
        behind = before.entries.length !== seen
        return behind ? null : make(before)
      })
    } catch {
      return 'not-kept'
    }
    reckon()
    show()
    others?.postMessage('written')
    return behind ? 'behind' : 'kept'
  }
  const beginning = (): { run: string; first: Entry } => {
    const run = crypto.randomUUID?.() ?? randomId()
    return { run, first: entryAfter({ run, procedure: job.digest }, [], timeNow(), [], { kind: 'begin', run }) }
  }
  const refresh = async (): Promise<void> => {
    kept = await store.read()
    reckon()
    show()
  }

  reckon()
  others?.addEventListener('message', () => void refresh())
  return {
    job,
    store,
    entries: () => entries,
    state: () => state,
    now: () => now,
    earlier: () => {
      const runs = [...new Set(kept.entries.map(({ run }) => run))].filter((run) => run !== kept.run)
      return new Map(runs.map((run) => [run, entriesOf(kept, run)]))
    },
    write: (happening, by, photos) =>
      add((before) => {
        const fresh = before.run === '' ? beginning() : null
        const run = fresh?.run ?? before.run
        const already = fresh === null ? entriesOf(before, run) : [fresh.first]
        const binding = { run, procedure: job.digest }
        const entry = entryAfter(binding, already, timeNow(), by ?? crewOf(job, state), happening)
        const added = [...(fresh === null ? [] : [fresh.first]), entry].map((one) => ({ run, entry: one }))
        return { entries: added, run, ...(photos === undefined ? {} : { photos }) }
      }),
    begin: () =>
      add(() => {
        const { run, first } = beginning()
        return { entries: [{ run, entry: first }], run }
      }),
    takeIn: ({ run, entries: others }, photos) =>
      add((before) => {
        const here = new Set(entriesOf(before, run).map(({ id }) => id))
        const added = others.filter(({ id }) => !here.has(id)).map((entry) => ({ run, entry }))
        return { entries: added, run, photos }
      }),
    refresh,
    look: () => {
      now = survey(job, state, Date.now())
      show()
    },
  }
}

function entriesOf({ entries }: Kept, run: string): readonly Entry[] {
  return joinEntries(
    entries.filter((stored) => stored.run === run).map(({ entry }) => entry),
    [],
  )
}

/** The same procedure open in other windows. Some browsers have no such channel; there, each looks when it is shown. */
function otherWindows(digest: string): BroadcastChannel | null {
  try {
    return new BroadcastChannel(`witnessmark ${digest}`)
  } catch {
    return null
  }
}

/** ISO 8601 with the offset of the place, to the second: `2026-03-02T22:41:05+10:00`. */
export function timeNow(): string {
  const now = new Date()
  const offset = -now.getTimezoneOffset()
  const local = new Date(now.getTime() + offset * 60_000).toISOString().slice(0, 19)
  const two = (number: number): string => String(Math.floor(number)).padStart(2, '0')
  return `${local}${offset < 0 ? '-' : '+'}${two(Math.abs(offset) / 60)}:${two(Math.abs(offset) % 60)}`
}

/** Older browsers, and pages from files in some, have no `randomUUID`. */
function randomId(): string {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0')).join('')
}
