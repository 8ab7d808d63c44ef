import { parseQuantity } from '../../quantities/parse-quantity.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, fromDecimalText, multiply, rational, subtract, zero } from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import { dateText, dayNumber, earliestAtLimit, type Trend, timeAtLimit, trendOf } from '../../trade/wear/trend.ts'
import type { LookUpTable } from '../entries.ts'
import { inBase } from '../passes/worked-figures.ts'

/** The log of a reading over its runs, and where its line leads. Times in seconds from the first row, readings in their base unit. */
export interface LogStudy {
  readonly table: string
  readonly problem: LogProblem | null
  readonly points: readonly LogPoint[]
  /** Symbol of the unit to answer in. */
  readonly unit: string
  /** Whether times are dates; else hours run. */
  readonly hasDates: boolean
  readonly trend: Trend | null
  readonly end: LogEnd | null
}

export interface LogPoint {
  readonly time: Rational
  readonly reading: Rational
}

interface LogEnd {
  readonly limit: Rational
  /** When the line meets it; null where it does not head for it. */
  readonly at: Rational | null
  /** The soonest that a next reading could meet it, about 95 %. */
  readonly earliest: Rational | null
}

interface LogProblem {
  readonly message: string
  readonly advice: string
}

const day = rational(86_400)

export function studyLog(
  name: string,
  tables: readonly LookUpTable[],
  limits: { readonly lower: Rational | null; readonly upper: Rational | null },
  unit: string | null,
): LogStudy {
  const table = tables.find(({ id }) => id === name)
  const none = { table: name, points: [], unit: unit ?? '', hasDates: false, trend: null, end: null }
  if (table === undefined)
    return {
      ...none,
      problem: {
        message: `There is no table "${name}".`,
        advice: `Write it under tables: ${name}: { columns: [date, reading], rows: [[2026-01-10, …]] }.`,
      },
    }
  const read = readRows(table, unit)
  if ('message' in read) return { ...none, problem: read }
  const { points, hasDates } = read
  const trend = trendOf(
    points.map(({ time }) => time),
    points.map(({ reading }) => reading),
  )
  return {
    table: name,
    problem: null,
    points,
    unit: read.unit,
    hasDates,
    trend,
    end: trend && endOf(trend, points, limits),
  }
}

/** The date a time after the first row falls on, for a log of dates. */
export function dateOfTime({ table }: LogStudy, time: Rational, tables: readonly LookUpTable[]): string {
  const first = tables.find(({ id }) => id === table)?.rows[0]?.[0] ?? ''
  const start = dayNumber(first)
  return start === null ? '' : dateText(start, time)
}

function readRows(
  { id, rows }: LookUpTable,
  unit: string | null,
): { readonly points: readonly LogPoint[]; readonly hasDates: boolean; readonly unit: string } | LogProblem {
  if (rows.length < 2)
    return {
      message: `The log "${id}" has ${rows.length} row${rows.length === 1 ? '' : 's'}: one reading shows no trend.`,
      advice: 'Write two rows or more, the earliest first.',
    }
  const hasDates = rows.every(([time = '']) => dayNumber(time) !== null)
  const first = hasDates ? (dayNumber(rows[0]?.[0] ?? '') ?? zero) : zero
  const points: LogPoint[] = []
  let kind: string | null = unit === null ? null : (unitBySymbol(unit)?.kind ?? null)
  let shown = unit ?? ''
  for (const [index, [time = '', reading = '']] of rows.entries()) {
    const at = hasDates ? multiply(subtract(dayNumber(time) ?? zero, first), day) : secondsOf(time)
    const value = amountIn(reading, unit)
    if (at === null)
      return {
        message: `Row ${index + 1} of the log "${id}" begins with "${time}", which is no date and no time run.`,
        advice: 'Write dates as 2026-03-31 in every row, or hours run as 1 250 h in every row.',
      }
    if (value === null)
      return {
        message: `Row ${index + 1} of the log "${id}" has "${reading}", which is no reading with a unit.`,
        advice: 'Write the reading with its unit, like 612.4 mm.',
      }
    if (kind !== null && value.kind !== kind)
      return {
        message: `Row ${index + 1} of the log "${id}" has "${reading}", which is of another kind than the reading.`,
        advice: 'Write all readings of a log in units of one kind.',
      }
    kind = value.kind
    shown ||= value.unit
    points.push({ time: at, reading: value.value })
  }
  if (points.every(({ time }) => compare(time, points[0]?.time ?? zero) === 0))
    return { message: `All rows of the log "${id}" are of one time.`, advice: 'Write when each reading was taken.' }
  return { points, hasDates, unit: shown }
}

function secondsOf(text: string): Rational | null {
  const parsed = parseQuantity(text, 'time')
  return parsed.ok && parsed.value.kind === 'time' ? inBase(parsed.value.value, parsed.value.unit) : null
}

/** A reading with its unit; a bare number is in the unit that the reading has. */
function amountIn(text: string, unit: string | null) {
  const bare = fromDecimalText(text.trim())
  if (bare !== null) {
    const known = unit === null ? null : unitBySymbol(unit)
    return known ? { value: inBase(bare, known.symbol), kind: known.kind as string, unit: known.symbol } : null
  }
  const parsed = parseQuantity(text)
  if (!parsed.ok || !unitBySymbol(parsed.value.unit)) return null
  const { value, unit: typed, kind } = parsed.value
  return { value: inBase(value, typed), kind: kind as string, unit: typed }
}

function endOf(
  trend: Trend,
  points: readonly LogPoint[],
  { lower, upper }: { readonly lower: Rational | null; readonly upper: Rational | null },
): LogEnd | null {
  const limit = trend.slope.numerator > 0n ? upper : trend.slope.numerator < 0n ? lower : (upper ?? lower)
  if (limit === null) return null
  const at = timeAtLimit(trend, limit)
  if (at === null) return { limit, at: null, earliest: null }
  const last = points.reduce((latest, { time }) => (compare(time, latest) > 0 ? time : latest), zero)
  const isPast = compare(at, last) <= 0
  return { limit, at, earliest: isPast ? at : earliestAtLimit(trend, limit, last, at) }
}

/** How much the reading changes in a time, for print. */
export function changeIn(trend: Trend, seconds: Rational): Rational {
  return multiply(trend.slope, seconds)
}
