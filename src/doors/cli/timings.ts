import { inColumns } from './columns.ts'

/** How long one piece of work took. */
export interface Timing {
  /** `compile`, `checklist.pdf` */
  readonly what: string
  readonly milliseconds: number
  /** The procedure it was for; empty for the whole library. */
  readonly file: string
}

/** Notes how long work takes; what it notes never reaches an output. */
export interface Stopwatch {
  readonly timings: Timing[]
  readonly time: <Value>(what: string, file: string, work: () => Value) => Value
}

export function stopwatch(now: () => number): Stopwatch {
  const timings: Timing[] = []
  return {
    timings,
    time: (what, file, work) => {
      const started = now()
      try {
        return work()
      } finally {
        timings.push({ what, file, milliseconds: now() - started })
      }
    },
  }
}

/** A line a kind of work, in the order first met: how often, all of it, the mean, and the slowest with its procedure. */
export function timingsTable(timings: readonly Timing[], wholeMilliseconds: number): string {
  const kinds = [...new Set(timings.map(({ what }) => what))]
  const rows = kinds.map((what) => {
    const own = timings.filter((timing) => timing.what === what)
    const total = own.reduce((sum, { milliseconds }) => sum + milliseconds, 0)
    const slowest = own.toSorted((a, b) => b.milliseconds - a.milliseconds)[0]
    const most =
      own.length < 2 || slowest === undefined ? '' : `${inWhole(slowest.milliseconds)}  ${slowest.file}`.trim()
    return [what, `${own.length}`, inWhole(total), inWhole(total / own.length), most]
  })
  const head = ['ms', 'times', 'all', 'each', 'slowest']
  return inColumns([head, ...rows, ['from start to end', '', inWhole(wholeMilliseconds), '', '']])
}

function inWhole(milliseconds: number): string {
  return milliseconds < 10 ? milliseconds.toFixed(1) : milliseconds.toFixed(0)
}
