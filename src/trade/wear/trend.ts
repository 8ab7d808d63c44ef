import type { Rational } from '../../quantities/quantity-types.ts'
import {
  add,
  compare,
  divide,
  fromDecimalText,
  isZero,
  multiply,
  one,
  rational,
  roundDown,
  subtract,
  zero,
} from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { fromNumber, squared, toNumber } from '../binary.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'

/** Where a reading is heading over runs: a straight line by least squares, and how surely it meets a limit. */

export interface Trend {
  /** Change of the reading in one unit of running time. Exact. */
  readonly slope: Rational
  /** Reading of the line at time 0. Exact. */
  readonly start: Rational
  /** Standard deviation of the readings about the line (n − 2); null for two readings. Root to 15 digits. */
  readonly spread: number | null
  readonly meanTime: Rational
  /** Sum of squares of the times about their mean. */
  readonly timeSquares: Rational
  readonly count: number
}

/** Null where all times are the same. Least squares: NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1. */
export function trendOf(times: readonly Rational[], readings: readonly Rational[]): Trend | null {
  const count = rational(times.length)
  const meanTime = divide(sum(times), count)
  const meanReading = divide(sum(readings), count)
  const timeSquares = sum(times.map((time) => squared(subtract(time, meanTime))))
  if (isZero(timeSquares)) return null
  const products = times.map((time, index) =>
    multiply(subtract(time, meanTime), subtract(readings[index] ?? zero, meanReading)),
  )
  const slope = divide(sum(products), timeSquares)
  const start = subtract(meanReading, multiply(slope, meanTime))
  const squares = sum(
    times.map((time, index) => squared(subtract(readings[index] ?? zero, add(start, multiply(slope, time))))),
  )
  const spread = times.length > 2 ? Math.sqrt(toNumber(divide(squares, rational(times.length - 2)))) : null
  return { slope, start, spread, meanTime, timeSquares, count: times.length }
}

function sum(values: readonly Rational[]): Rational {
  return values.reduce((so, each) => add(so, each), zero)
}

/** Time at which the line meets the limit; null where it does not head for it. */
export function timeAtLimit({ slope, start }: Trend, limit: Rational): Rational | null {
  return isZero(slope) ? null : divide(subtract(limit, start), slope)
}

/**
 * Earliest time after `from` at which a single next reading could meet the limit, two prediction deviations off the line (about 95 %):
 * s · √(1 + 1/n + (t − t̄)²/Σ(t − t̄)²). Found by halving to 1e-12 of the span. `to` where it never gets there sooner.
 */
export function earliestAtLimit(trend: Trend, limit: Rational, from: Rational, to: Rational): Rational {
  const { spread } = trend
  if (spread === null) return to
  const [slope, start, goal] = [trend.slope, trend.start, limit].map(toNumber) as [number, number, number]
  const [middle, squares] = [toNumber(trend.meanTime), toNumber(trend.timeSquares)]
  const away = Math.sign(slope)
  const reaches = (time: number): boolean => {
    const deviation = spread * Math.sqrt(1 + 1 / trend.count + (time - middle) ** 2 / squares)
    return away * (start + slope * time + away * 2 * deviation - goal) >= 0
  }
  let [early, late] = [toNumber(from), toNumber(to)]
  if (reaches(early)) return from
  for (let step = 0; step < 60; step++) {
    const between = (early + late) / 2
    if (reaches(between)) late = between
    else early = between
  }
  return fromNumber(late)
}

const day = rational(86_400)

export const wearTrend = makeCalculator({
  name: 'wear-trend',
  what: 'When a reading will meet its limit, by the line through its readings so far.',
  formula:
    'reading = a + b · t by least squares; t at limit = (limit − a) / b; early: two prediction deviations before it',
  validity:
    'Wear that goes on evenly. Two readings give no spread, fewer than five a poor one. A line is no promise: the last part of wear is often faster.',
  source:
    'NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1 and 4.5.1.2 (prediction); 2 deviations for about 95 %',
  inputs: {
    times: {
      what: 'running time or date of each reading, from one start',
      kind: 'time',
      unit: 'h',
      list: true,
      sign: 'not-negative',
    },
    readings: { what: 'the readings', kind: 'any', list: true, sign: 'any' },
    limit: { what: 'limit of the reading', kind: 'any', sign: 'any' },
    start: { what: 'date of time 0, year-month-day, to get a date', kind: 'text', optional: true },
  },
  work: ({ times, readings, limit, start }) => {
    if (times.length !== readings.length)
      return refuse(
        'readings',
        `There are ${times.length} times and ${readings.length} readings.`,
        'Give one time for each reading, in the same order.',
      )
    if (times.length < 2) return refuse('readings', 'One reading shows no trend.', 'Give two readings or more.')
    if (readings.some((reading) => reading.kind !== limit.kind))
      return refuse('limit', 'Readings and limit are of different kinds.', 'Give them in units of one kind.')
    const trend = trendOf(
      times,
      readings.map(({ value }) => value),
    )
    if (!trend) return refuse('times', 'All times are the same.', 'Give the time of each reading.')
    const at = timeAtLimit(trend, limit.value)
    const last = times.reduce((so, each) => (compare(each, so) > 0 ? each : so), zero)
    const lineNow = add(trend.start, multiply(trend.slope, last))
    const isThere =
      compare(
        multiply(subtract(limit.value, lineNow), { numerator: trend.slope.numerator < 0n ? -1n : 1n, denominator: 1n }),
        zero,
      ) <= 0
    if (at === null || (isThere && at.numerator < 0n))
      return refuse(
        'readings',
        'The readings do not head for the limit.',
        'Look at the limit and at the order of the readings.',
      )
    const dayZero = start === null ? null : dayNumber(start)
    if (start !== null && dayZero === null)
      return refuse('start', `"${start}" is not a date.`, 'Type year-month-day, such as 2025-03-31.')
    const early = isThere ? last : earliestAtLimit(trend, limit.value, last, at)
    const shared = { kind: 'time', units: ['h', 'h'], digits: 4 } as const
    const figures: Figure[] = [
      { name: 'time-at-limit', what: 'limit met at', value: at, ...shared },
      {
        name: 'time-left',
        what: 'from the last reading',
        value: isThere ? zero : subtract(at, last),
        ...shared,
        rounding: 'down',
      },
      { name: 'earliest', what: 'could be met from', value: early, ...shared, isRounded: true, rounding: 'down' },
    ]
    if (dayZero !== null) {
      figures.push({ name: 'date-at-limit', what: 'date at the limit', word: dateText(dayZero, at) })
      figures.push({ name: 'earliest-date', what: 'earliest date', word: dateText(dayZero, early) })
    }
    const notes = [
      ...(isThere ? ['The line is at the limit or past it already.'] : []),
      ...(trend.spread === null ? ['Two readings: the spread is not known, the earliest time is the line’s own.'] : []),
    ]
    return { ok: true, figures, notes }
  },
})

const datePattern = /^(\d{4})-(\d{2})-(\d{2})$/

/** Days from 1970-01-01, UTC; null for what is no date. */
export function dayNumber(text: string): Rational | null {
  const parts = datePattern.exec(text.trim())
  if (!parts) return null
  const time = Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3]))
  if (new Date(time).toISOString().slice(0, 10) !== text.trim()) return null
  return divide(fromDecimalText(String(time / 1000)) ?? zero, day)
}

/** The day on which so much time from day zero is up, rounded down; empty where the calendar ends. */
export function dateText(dayZero: Rational, time: Rational): string {
  const whole = roundDown(add(dayZero, divide(time, day)), one)
  const date = new Date(Number(whole.numerator) * 86_400_000)
  return Number.isNaN(date.getTime()) || date.getUTCFullYear() > 9999
    ? 'beyond the year 9999'
    : date.toISOString().slice(0, 10)
}
