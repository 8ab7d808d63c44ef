/** Everything of a situation but the place where the work stands. Maps only; its JSON is its key. */
export interface Situation {
  readonly values: Readonly<Record<string, string>>
  /** Zones that each role is in, sorted. */
  readonly people: Readonly<Record<string, readonly string[]>>
  readonly proofs: Readonly<Record<string, Proof>>
  /** For readings that some expression reads: a point of the cell, `taken`, `in`, `out`, or `spoiled`; absent: not taken. */
  readonly readings: Readonly<Record<string, string>>
  /** Answers to free questions, by the text of the comparison. */
  readonly answers: Readonly<Record<string, boolean>>
  /** How often each bounded way back was taken. */
  readonly tries: Readonly<Record<string, number>>
  /** Roles whose lock is on, by thing. */
  readonly locks: Readonly<Record<string, readonly string[]>>
  readonly touched: readonly string[]
  /** Who made the last change of a state with proof. */
  readonly changedBy: Readonly<Record<string, readonly string[]>>
  /** What is kept just now, by the id of its owner and its name. */
  readonly spans: readonly string[]
  /** What was wrong when it was last looked: role, zone and state → what about it. */
  readonly wrong: Readonly<Record<string, string>>
  /** Where people were when it was last looked; kept only where some zone has an `entry`. */
  readonly seen: Readonly<Record<string, readonly string[]>>
  /** Roles whose `hold` has passed in this phase; kept only where some zone has an `entry`. */
  readonly admitted: readonly string[]
}

export interface Proof {
  readonly status: 'never' | 'proved' | 'spent' | 'lapsed'
  /** Seconds; counted only where the state has `lapses`. */
  readonly age: number
}

/** A situation's key: the same whatever order its parts were put in. */
export function keyOf(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) =>
    typeof part === 'object' && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  )
}

export function without<Value>(record: Readonly<Record<string, Value>>, drop: (key: string) => boolean) {
  return Object.fromEntries(Object.entries(record).filter(([key]) => !drop(key)))
}
