import type { Job, JobWait, StepItem } from './job.ts'
import type { Deviation, JobState } from './job-state.ts'

/** Where one wait stands at a moment. Times in seconds. */
export interface Timer {
  readonly wait: JobWait
  readonly item: StepItem
  /** ISO 8601; null while it has not begun. */
  readonly begun: string | null
  readonly elapsed: number
  /** Until the earliest; 0 when it is over. */
  readonly left: number
  /** The earliest has passed. */
  readonly isOver: boolean
  /** The latest has passed, and the step is not done. */
  readonly isLate: boolean
  /** The deviation that ended it early, or took it on late. */
  readonly settledBy: Deviation | null
}

/** `now` in milliseconds since 1970. */
export function timersOf(item: StepItem, state: JobState, now: number): readonly Timer[] {
  return item.waits.map((wait) => {
    const begun = begunAt(wait, item, state)
    const done = state.ticks.get(item.id)
    const since = begun === null ? Number.NaN : Date.parse(begun)
    const until = wait.begins === 'watch' || done === undefined ? now : Date.parse(done.at)
    // A clock that was set back shows no negative times.
    const elapsed = Number.isNaN(since) ? 0 : Math.max(0, Math.floor((until - since) / 1000))
    const settledBy =
      state.deviations.findLast((deviation) => deviation.wait === wait.id && isSince(deviation.at, begun)) ?? null
    return {
      wait,
      item,
      begun,
      elapsed,
      left: Math.max(0, wait.earliest - elapsed),
      isOver: begun !== null && elapsed >= wait.earliest,
      isLate: begun !== null && done === undefined && wait.latest !== null && elapsed > wait.latest,
      settledBy,
    }
  })
}

/** A wait that is taken again is not ended by what ended it before. */
function isSince(at: string, begun: string | null): boolean {
  return begun === null || Date.parse(at) >= Date.parse(begun)
}

function begunAt(wait: JobWait, item: StepItem, state: JobState): string | null {
  if (wait.begins === 'started') return state.waits.get(wait.id) ?? null
  if (wait.begins === 'watch') return state.ticks.get(item.id)?.at ?? null
  const ends = wait.after.map((id) => state.ticks.get(id)?.at)
  if (ends.length === 0 || ends.includes(undefined)) return null
  return ends.flatMap((end) => end ?? []).reduce((last, end) => (Date.parse(end) > Date.parse(last) ? end : last))
}

/** What still keeps others waiting. */
export function isRunning({ isOver, settledBy }: Timer): boolean {
  return !isOver && settledBy === null
}

/** Every timer of the job that has begun and is not settled, or has just passed. */
export function runningTimers(job: Job, state: JobState, now: number): readonly Timer[] {
  return job.items.flatMap((item) =>
    item.kind === 'step' ? timersOf(item, state, now).filter((timer) => timer.begun !== null && isRunning(timer)) : [],
  )
}

/** `1 h 05 min`, `4 min 09 s`, `12 s`. */
export function timeInWords(seconds: number): string {
  const two = (number: number): string => String(number).padStart(2, '0')
  const whole = Math.ceil(seconds)
  const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor((whole % 3600) / 60), whole % 60]
  if (hours > 0) return `${hours} h ${two(minutes)} min`
  return minutes > 0 ? `${minutes} min ${two(rest)} s` : `${rest} s`
}
