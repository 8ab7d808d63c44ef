import type { Step } from '../model/procedure.ts'
import { convertValue } from '../quantities/convert.ts'
import { parseQuantity } from '../quantities/parse-quantity.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import { add, compare, fromExactText, multiply, rational, zero } from '../quantities/rational.ts'
import type { Subjects } from './subjects.ts'

const HOUR = rational(60n)

/** How long a step waits at its longest, in minutes; null where it does not. The earliest counts where no latest is given. */
export function longestWait(step: Step): Rational | null {
  const times = step.waiting.flatMap(({ earliest, latest }) => fromExactText(latest ?? earliest ?? '') ?? [])
  return times.length === 0 ? null : times.reduce(add, zero)
}

/** A wait of an hour or more is one that people walk away from. */
export function isLong(minutes: Rational): boolean {
  return compare(minutes, HOUR) >= 0
}

/** `12 h` in minutes, or null where it is no time. */
export function minutesOf(typed: string | null): Rational | null {
  const parsed = typed === null ? null : parseQuantity(typed, 'time')
  if (!parsed?.ok) return null
  const converted = convertValue(parsed.value.value, parsed.value.unit, 'min')
  return converted.ok ? converted.value : null
}

/** Times in whole ticks: the `lapses` of each state, and how many ticks some minutes are. */
export interface Clock {
  readonly lapses: readonly (number | null)[]
  readonly ticks: (minutes: Rational) => number
}

/** All times as whole ticks, so that ages are added exactly. */
export function clockOf(subjects: Subjects): Clock {
  const limits = subjects.states.map((state) => minutesOf(state.lapses))
  const waits = subjects.order.map(longestWait)
  let perMinute = 1n
  for (const time of [...limits, ...waits]) if (time) perMinute = leastCommonMultiple(perMinute, time.denominator)
  const ticks = (minutes: Rational): number => Number(multiply(minutes, rational(perMinute)).numerator)
  return {
    ticks,
    lapses: limits.map((limit) => (limit && compare(limit, rational(0n)) > 0 ? ticks(limit) : null)),
  }
}

function leastCommonMultiple(a: bigint, b: bigint): bigint {
  let [x, y] = [a, b]
  while (y !== 0n) [x, y] = [y, x % y]
  return (a / x) * b
}
