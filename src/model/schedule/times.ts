import { convertValue } from '../../quantities/convert.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import { parseQuantity } from '../../quantities/parse-quantity.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, fromExactText, zero } from '../../quantities/rational.ts'
import type { PlainValue } from '../../syntax/block-node.ts'
import type { ThreePoints } from '../../trade/schedule/estimates.ts'
import type { Entry } from '../entries.ts'
import type { TimedStep } from './timed-work.ts'

/** `takes` of a step or phase in minutes; null where it says nothing that can be read. Least and most are the likely time where not told. */
export function takesOf({ entries }: { readonly entries: readonly Entry[] }): ThreePoints | null {
  const data = entries.find((entry) => entry.key === 'takes')?.data
  const likeliest = minutesAt(data, 'likely')
  if (likeliest === null) return null
  const shortest = minutesAt(data, 'least') ?? likeliest
  const longest = minutesAt(data, 'most') ?? likeliest
  const isInOrder = compare(shortest, likeliest) <= 0 && compare(likeliest, longest) <= 0
  return isInOrder ? { shortest, likeliest, longest } : { shortest: likeliest, likeliest, longest: likeliest }
}

function minutesAt(data: PlainValue | undefined, key: string): Rational | null {
  const typed = typeof data === 'object' && !Array.isArray(data) ? (data as { [key: string]: PlainValue })[key] : null
  return typeof typed === 'string' ? minutesIn(typed) : null
}

/** `10 min` in minutes; null where it is no time of 0 or more. */
export function minutesIn(typed: string): Rational | null {
  const quantity = parseQuantity(typed, 'time')
  if (quantity.ok) return toMinutes(quantity.value.value, quantity.value.unit)
  const limit = parseLimit(typed, 'time')
  if (!limit.ok) return null
  const value = limit.value.aim ?? limit.value.upper?.value ?? limit.value.lower?.value
  return value ? toMinutes(value, limit.value.unit) : null
}

function toMinutes(value: Rational, unit: string): Rational | null {
  const converted = convertValue(value, unit, 'min')
  return converted.ok && compare(converted.value, zero) >= 0 ? converted.value : null
}

/** How long a step waits by itself, at the earliest; 0 where it does not. */
export function ownWaitOf({ waiting }: TimedStep): Rational {
  return waiting
    .filter(({ after }) => after === null)
    .reduce((sum, { earliest }) => add(sum, fromExactText(earliest ?? '0') ?? zero), zero)
}

/** What a step waits for since the end of another: the name as typed, and the time. */
export function waitsSince({ waiting }: TimedStep): readonly { readonly after: string; readonly minutes: Rational }[] {
  return waiting.flatMap(({ after, earliest }) =>
    after === null ? [] : [{ after, minutes: fromExactText(earliest ?? '0') ?? zero }],
  )
}
