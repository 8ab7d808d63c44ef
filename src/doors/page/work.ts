import type { Job, StepItem } from '../../outputs/page/job.ts'
import { type ItemContents, type JobEvent, type JobHappening, type JobState, jobState, readingKey } from './job-log.ts'
import type { LogStore, StoredEntry } from './log-store.ts'
import { type Survey, survey } from './survey.ts'

/** The job under way: its entries, what they add up to, and the way to add one. */
export interface Work {
  readonly job: Job
  readonly store: LogStore
  readonly events: () => readonly JobEvent[]
  readonly state: () => JobState
  readonly now: () => Survey
  /** Earlier jobs kept on this device, by run. */
  readonly earlier: () => ReadonlyMap<string, readonly JobEvent[]>
  /** Keeps an entry, then shows it. Says false, and shows nothing, where it could not be kept. */
  readonly write: (happening: JobHappening) => Promise<boolean>
  /** Begins a new job; the old one stays among the earlier ones. */
  readonly begin: () => Promise<boolean>
  /** Reads the entries again: another tab may have added some. */
  readonly refresh: () => Promise<void>
}

export async function openWork(job: Job, store: LogStore, show: () => void): Promise<Work> {
  const contents = itemContents(job)
  let entries: readonly StoredEntry[] = await store.read()
  let run = ''
  let events: readonly JobEvent[] = []
  let state = jobState([], contents)
  let now = survey(job, state)

  const reckon = (): void => {
    run = entries.findLast(({ event }) => event.kind === 'begin')?.run ?? ''
    events = entries.filter((entry) => entry.run === run).map(({ event }) => event)
    state = jobState(events, contents)
    now = survey(job, state)
  }
  const keep = async (entry: StoredEntry): Promise<boolean> => {
    try {
      await store.add(entry)
    } catch {
      return false
    }
    entries = [...entries, entry]
    reckon()
    show()
    return true
  }
  const begin = (): Promise<boolean> => {
    const fresh = crypto.randomUUID?.() ?? randomId()
    return keep({ run: fresh, event: { at: timeNow(), kind: 'begin', run: fresh } })
  }

  reckon()
  return {
    job,
    store,
    events: () => events,
    state: () => state,
    now: () => now,
    earlier: () => {
      const runs = new Map<string, JobEvent[]>()
      for (const entry of entries) {
        if (entry.run === run) continue
        runs.set(entry.run, [...(runs.get(entry.run) ?? []), entry.event])
      }
      return runs
    },
    write: async (happening) => {
      if (run === '' && !(await begin())) return false
      return keep({ run, event: { at: timeNow(), ...happening } })
    },
    begin,
    refresh: async () => {
      entries = await store.read()
      reckon()
      show()
    },
  }
}

/** What each item of the job holds. */
export function itemContents(job: Job): ReadonlyMap<string, ItemContents> {
  const nothing = { ticks: [], readings: [], hold: null, decision: null, phase: null, tried: null, spoils: [] }
  return new Map(
    job.items.map((item): [string, ItemContents] => {
      switch (item.kind) {
        case 'step':
          return [
            item.id,
            {
              ...nothing,
              ticks: item.ticks.map(({ id }) => id),
              readings: item.readings.flatMap(({ id, positions }) => positions.map((at) => readingKey(id, at))),
              tried: item.step,
              spoils: spoiledBy(job, item),
            },
          ]
        case 'sign':
          return [item.id, { ...nothing, hold: item.hold }]
        case 'decide':
          return [item.id, { ...nothing, decision: item.step }]
        case 'until':
          return [item.id, { ...nothing, phase: item.phase, tried: item.phase }]
      }
    }),
  )
}

/** The readings that a step makes worthless, by key: of its position and of those outside every repeat; never its own. */
function spoiledBy(job: Job, spoiler: StepItem): readonly string[] {
  if (spoiler.spoils.length === 0) return []
  const here = job.phases.find(({ id }) => id === spoiler.phase)?.position ?? null
  return job.items.flatMap((item) => {
    if (item.kind !== 'step' || item.id === spoiler.id) return []
    const there = job.phases.find(({ id }) => id === item.phase)?.position ?? null
    const isNear = here === null || there === null || here === there
    return item.readings.flatMap(({ id, name, positions }) => {
      const named = (suffix: string) => spoiler.spoils.includes(`${name}${suffix}`)
      const isWhole = (isNear && named('')) || (there !== null && named(`.${there}`))
      return positions
        .filter((at) => isWhole || (isNear && at !== null && named(`.${at}`)))
        .map((at) => readingKey(id, at))
    })
  })
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
