/** Timing that the bench files share. Everything is measured in one process, one call at a time. */

export interface Measured {
  readonly what: string
  /** Median of the rounds' medians, in microseconds a call. */
  readonly median: number
  /** The median of the quietest round: what is left when nothing else wants the machine. */
  readonly quietest: number
  /** Nine of ten calls of the middle round took less. */
  readonly ninetieth: number
  /** The same number of letters read by `JSON.parse`, in the same rounds: tells a slow program from a busy machine. */
  readonly reference: number
  readonly target: number | null
  readonly calls: number
}

export interface Measure<T> {
  readonly what: string
  /** Microseconds that the median should stay under, or null. */
  readonly target: number | null
  /** Fresh inputs: no text of one round comes back in another. */
  readonly inputs: (count: number) => readonly T[]
  /** The letters of one input, for the reference. */
  readonly text: (input: T) => string
  /** Gives something of the result back, so that no call can be left out. */
  readonly run: (input: T) => unknown
}

const TEXTS_A_ROUND = 250
const ROUNDS = 15
/** The engine compiles what runs often; these rounds are not counted. */
const WARM_UP_ROUNDS = 80

export function measure<T>({ what, target, inputs, text, run }: Measure<T>): Measured {
  const medians: number[] = []
  const ninetieths: number[] = []
  const references: number[] = []
  for (let round = -WARM_UP_ROUNDS; round < ROUNDS; round++) {
    const given = inputs(TEXTS_A_ROUND)
    const letters = given.map((input) => JSON.stringify(text(input)))
    const times = timed(given, run)
    const jsonTimes = timed(letters, JSON.parse)
    if (round < 0) continue
    medians.push(at(times, 0.5))
    ninetieths.push(at(times, 0.9))
    references.push(at(jsonTimes, 0.5))
  }
  return {
    what,
    target,
    median: at(medians, 0.5),
    quietest: at(medians, 0),
    ninetieth: at(ninetieths, 0.5),
    reference: at(references, 0.5),
    calls: ROUNDS * TEXTS_A_ROUND,
  }
}

let kept: unknown = null

function timed<T>(inputs: readonly T[], run: (input: T) => unknown): readonly number[] {
  const times: number[] = []
  for (const input of inputs) {
    const started = process.hrtime.bigint()
    kept = run(input)
    const ended = process.hrtime.bigint()
    times.push(Number(ended - started) / 1000)
  }
  if (kept === undefined) throw new Error('nothing was worked out')
  return times
}

function at(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN
}

/** As a Markdown table. */
export function asTable(rows: readonly Measured[]): string {
  const titles = [
    'what',
    'median µs',
    'quietest round µs',
    '90 % below µs',
    'target µs',
    'JSON.parse µs',
    'ratio',
    'calls',
  ]
  const cells = rows.map((row) => [
    row.what,
    row.median.toFixed(1),
    row.quietest.toFixed(1),
    row.ninetieth.toFixed(1),
    row.target === null ? '' : `${row.target}${row.median < row.target ? '' : ' MISSED'}`,
    row.reference.toFixed(2),
    (row.median / row.reference).toFixed(0),
    String(row.calls),
  ])
  return [titles, titles.map(() => '---'), ...cells].map((row) => `| ${row.join(' | ')} |\n`).join('')
}

/** Numbers that look random and are the same at every run (mulberry32). */
export function seededChoice(seed: number): (below: number) => number {
  let state = seed
  return (below) => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) % below
  }
}
