import type { Job, JobReading, StepItem } from './job.ts'
import { type JobState, readingKey } from './job-state.ts'
import { type Judgement, judgeTyped, limitInWords } from './verdict.ts'
import { limitNow } from './worked-out.ts'

/**
 * Judges what is typed at a place, by the limit that stands once it is written down: a limit may rest on the first
 * reading of its own name. `limit` is that limit in words, empty where there is none.
 */
export function judgeHere(
  job: Job,
  state: JobState,
  item: StepItem,
  reading: JobReading,
  position: string | null,
  typed: string,
): Judgement & { readonly limit: string } {
  const entered = { at: '', by: [], typed, verdict: 'noted', judgedAs: '', limit: '', before: [] } as const
  const readings = new Map(state.readings).set(readingKey(reading.id, position), entered)
  const limit = limitNow(job, { ...state, readings }, item, reading)
  const words = reading.limit?.text ?? (limit?.ok ? limitInWords(limit.value) : (reading.workedLimit?.typed ?? ''))
  return { ...judgeTyped(reading, typed, limit), limit: words }
}
