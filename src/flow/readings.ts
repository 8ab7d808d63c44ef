import type { Reading } from '../model/readings.ts'
import { convertValue } from '../quantities/convert.ts'
import { type Expression, namesIn } from '../quantities/expression.ts'
import { parseExpression } from '../quantities/parse-expression.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import { compare, fromExactText } from '../quantities/rational.ts'
import { isInVariant, type Subjects, suffixOf } from './subjects.ts'

/** A reading that some expression reads, with its line cut at bounds and constants. */
export interface TrackedReading {
  readonly id: string
  readonly name: string
  readonly suffix: string
  readonly entries: readonly Reading[]
  /** Unit of the cuts. */
  readonly unit: string
  /** Cuts of the line in rising order; cell `2i + 1` is cut `i`, even cells lie between. Null: only in and out are told apart. */
  cuts: readonly Rational[] | null
}

/** Cells of a reading whose line is not cut. */
export const OUT_CELL = 0
export const IN_CELL = 1

export interface ReadingTable {
  readonly tracked: readonly TrackedReading[]
  /** All readings of a name, in every position. */
  readonly byName: ReadonlyMap<string, readonly TrackedReading[]>
}

/** What a name in an expression means: a whole reading, one of its positions, or several readings that cannot be told apart. */
export interface NamedReading {
  readonly readings: readonly number[]
  readonly isWhole: boolean
}

/** The readings on which some condition or formula rests, in this combination of variants. */
export function trackReadings(subjects: Subjects, expressions: readonly (Expression | null)[]): ReadingTable {
  const named = new Set(
    expressions.flatMap((expression) =>
      expression ? namesIn(expression).flatMap(({ name }) => [name, name.split('.')[0] ?? name]) : [],
    ),
  )
  const groups = new Map<string, Reading[]>()
  for (const step of subjects.order)
    for (const reading of step.readings) {
      if (!isInVariant(reading.only, subjects.variants)) continue
      if (!named.has(reading.name)) continue
      const same = groups.get(reading.id)
      if (same) same.push(reading)
      else groups.set(reading.id, [reading])
    }
  const tracked = [...groups].map(([id, entries]): TrackedReading => {
    const [first] = entries
    const unit = entries.find((entry) => entry.limit)?.limit?.unit ?? first?.unit ?? ''
    return { id, name: first?.name ?? id, suffix: suffixOf(id), entries, unit, cuts: isCut(entries) ? [] : null }
  })
  const byName = new Map<string, TrackedReading[]>()
  for (const reading of tracked) {
    const same = byName.get(reading.name)
    if (same) same.push(reading)
    else byName.set(reading.name, [reading])
  }
  const table = { tracked, byName }
  for (const reading of tracked) {
    if (reading.cuts === null) continue
    const bounds = reading.entries.flatMap((entry) => boundsOf(entry, reading.unit))
    reading.cuts = inOrder(bounds)
  }
  return table
}

/** Figures of one place, judged by figures: others are only in or out. */
function isCut(entries: readonly Reading[]): boolean {
  return entries.every(
    (entry) => entry.kind !== 'check' && entry.kind !== 'derive' && entry.positions.length < 2 && !entry.workedLimit,
  )
}

function boundsOf(reading: Reading, unit: string): readonly Rational[] {
  const { limit } = reading
  return [limit?.lower, limit?.upper].flatMap((bound) => {
    const value = bound ? fromExactText(bound.exact) : null
    return value && limit ? (inUnit(value, limit.unit, unit) ?? []) : []
  })
}

export function inUnit(value: Rational, from: string, to: string): Rational | null {
  if (from === to) return value
  const converted = convertValue(value, from, to)
  return converted.ok ? converted.value : null
}

/** Cuts the line of a reading at a constant that it is compared with. */
export function cutAt(reading: TrackedReading, value: Rational): void {
  if (reading.cuts !== null) reading.cuts = inOrder([...reading.cuts, value])
}

function inOrder(values: readonly Rational[]): readonly Rational[] {
  const sorted = [...values].sort(compare)
  return sorted.filter((value, index) => {
    const before = sorted[index - 1]
    return before === undefined || compare(before, value) !== 0
  })
}

export function cellCount(reading: TrackedReading): number {
  return reading.cuts === null ? 2 : 2 * reading.cuts.length + 1
}

/** Where a value stands among the cells. */
export function cellOf(reading: TrackedReading, value: Rational): number {
  const index = reading.cuts?.findIndex((cut) => compare(cut, value) === 0) ?? -1
  return 2 * index + 1
}

/** By cell: 1 where the reading is in the limit of this entry. Without a limit every cell is. */
export function cellsInLimit(reading: TrackedReading, entry: Reading): Uint8Array {
  const cells = new Uint8Array(cellCount(reading))
  if (reading.cuts === null) return cells.fill(1, isJudged(entry) ? IN_CELL : OUT_CELL)
  const { limit } = entry
  const at = (bound: { readonly exact: string } | null | undefined): number | null => {
    const value = bound ? fromExactText(bound.exact) : null
    const here = value && limit ? inUnit(value, limit.unit, reading.unit) : null
    return here && cellOf(reading, here)
  }
  const lower = at(limit?.lower)
  const upper = at(limit?.upper)
  for (let cell = 0; cell < cells.length; cell++) {
    const isAbove = lower === null || (limit?.lower?.inclusive ? cell >= lower : cell > lower)
    const isBelow = upper === null || (limit?.upper?.inclusive ? cell <= upper : cell < upper)
    cells[cell] = isAbove && isBelow ? 1 : 0
  }
  return cells
}

/** Whether a reading can be out: a check can fail, a figure needs an end to its limit. */
export function isJudged(reading: Reading): boolean {
  if (reading.kind === 'check') return true
  return reading.workedLimit !== undefined || reading.limit?.lower != null || reading.limit?.upper != null
}

/** Which readings a name means at a place whose ids end in `@suffix`. */
export function readingNamed(name: string, suffix: string, table: ReadingTable): NamedReading | null {
  const whole = table.byName.get(name)
  if (whole) return chosen(whole, suffix, table, true)
  const dot = name.indexOf('.')
  if (dot < 0) return null
  const candidates = table.byName.get(name.slice(0, dot))
  const rest = name.slice(dot + 1)
  if (candidates === undefined) return null
  const side = candidates.find((candidate) => candidate.suffix === rest)
  if (side) return { readings: [table.tracked.indexOf(side)], isWhole: true }
  return chosen(candidates, suffix, table, rest === 'all')
}

function chosen(
  candidates: readonly TrackedReading[],
  suffix: string,
  table: ReadingTable,
  isWhole: boolean,
): NamedReading {
  const here =
    candidates.length === 1
      ? candidates[0]
      : (candidates.find((candidate) => candidate.suffix === suffix) ??
        candidates.find((candidate) => candidate.suffix !== '' && suffix.startsWith(`${candidate.suffix}.`)) ??
        candidates.find((candidate) => candidate.suffix === ''))
  if (here) return { readings: [table.tracked.indexOf(here)], isWhole }
  return { readings: candidates.map((candidate) => table.tracked.indexOf(candidate)), isWhole: false }
}

/** An expression, or null where it cannot be read: then nothing is known of it, and both answers are followed. */
export function readExpression(text: string): Expression | null {
  const parsed = parseExpression(text)
  return parsed.ok ? parsed.value : null
}
