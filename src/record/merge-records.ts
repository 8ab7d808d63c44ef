import { joinEntries } from './chain.ts'
import type { Job } from './job.ts'
import { makeRecord, photosIn } from './make-record.ts'
import type { RunRecord } from './run-record.ts'

export interface MergedRecord {
  /** Null where the two cannot be brought together. */
  readonly record: RunRecord | null
  readonly faults: readonly string[]
}

/**
 * Brings two records of the same run together: every entry of both, each once. What one of them left out of the other is
 * kept, and nothing is decided for people: a blank filled in on both shows the later value, the earlier one stays among the entries.
 */
export function mergeRecords(job: Job, one: RunRecord, other: RunRecord): MergedRecord {
  const fault = whyNotTogether(job, one, other)
  if (fault !== null) return { record: null, faults: [fault] }
  return {
    record: makeRecord(job, {
      entries: joinEntries(one.entries, other.entries),
      source: one.source === 'page' ? 'page' : other.source,
      saved: Date.parse(one.saved) >= Date.parse(other.saved) ? one.saved : other.saved,
      photos: new Map([...photosIn(one), ...photosIn(other)]),
    }),
    faults: [],
  }
}

function whyNotTogether(job: Job, one: RunRecord, other: RunRecord): string | null {
  if (one.document.digest !== job.digest || other.document.digest !== job.digest)
    return `These records are not both of ${job.number} revision ${job.revision} as it is here.`
  if (one.run !== other.run) return 'These are records of two different runs. Each stays as it is.'
  return null
}
