import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, fromDecimalText, multiply, rational, subtract, zero } from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'

/*
 * Frequency and coupling multipliers, durations and recovery of the revised NIOSH lifting equation.
 * Source: Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, rev. 9/2021, tables 5 and 7, section 1.3.
 * The columns for short and long work are as seen in three transcriptions; the moderate one is from memory but for its row of
 * 1 lift/min. One public program has the short and long columns exchanged: a row of 1 lift/min must read .94, .88, .75.
 */

/** Up to 1 h, more than 1 up to 2 h, more than 2 up to 8 h of lifting, with recovery behind it. */
export type WorkDuration = 'short' | 'moderate' | 'long'

/** Lifts a minute of the rows. */
const rates = '0.2 0.5 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15'.split(' ').map((text) => fromDecimalText(text) ?? zero)

/** Multipliers in hundredths, in the order of `rates`; `lowFrom` is the rate from which hands below 30 in (75 cm) give 0. */
const columns: Readonly<Record<WorkDuration, { readonly hundredths: readonly number[]; readonly lowUpTo: number }>> = {
  short: { hundredths: [100, 97, 94, 91, 88, 84, 80, 75, 70, 60, 52, 45, 41, 37, 34, 31, 28], lowUpTo: 12 },
  moderate: { hundredths: [95, 92, 88, 84, 79, 72, 60, 50, 42, 35, 30, 26, 23, 21, 0, 0, 0], lowUpTo: 10 },
  long: { hundredths: [85, 81, 75, 65, 55, 45, 35, 27, 22, 18, 15, 13, 0, 0, 0, 0, 0], lowUpTo: 8 },
}

/**
 * FM for `rate` lifts a minute. Below 0.2 counts as 0.2; above 15 it is 0. Between two rows the multiplier lies on the straight line
 * between them, as the manual interpolates. `low` is true for hands below 30 in (75 cm) where the multiplier is evaluated.
 */
export function frequencyMultiplier(rate: Rational, duration: WorkDuration, low: boolean): Answer<Rational> {
  if (compare(rate, zero) < 0) return refuse('F', 'The number of lifts a minute is negative.', 'Type 0 or more.')
  const { hundredths, lowUpTo } = columns[duration]
  if (low && compare(rate, rational(lowUpTo)) > 0) return answer(zero)
  const above = rates.findIndex((each) => compare(each, rate) >= 0)
  const upperRate = rates[above]
  if (!upperRate) return answer(zero)
  const upper = rational(hundredths[above] ?? 0, 100)
  const lowerRate = rates[above - 1]
  if (!lowerRate || compare(upperRate, rate) === 0) return answer(upper)
  const lower = rational(hundredths[above - 1] ?? 0, 100)
  // A row of 0 means "not allowed": there is nothing on the way to it.
  if (upper.numerator === 0n) return answer(zero)
  const share = divide(subtract(rate, lowerRate), subtract(upperRate, lowerRate))
  return answer(add(lower, multiply(share, subtract(upper, lower))))
}

export type Coupling = 'good' | 'fair' | 'poor'

/** CM of table 7; `low` as for the frequency. */
export function couplingMultiplier(coupling: Coupling, low: boolean): Rational {
  if (coupling === 'good') return rational(1)
  if (coupling === 'poor') return rational(90, 100)
  return rational(low ? 95 : 100, 100)
}

/**
 * Lifts a minute over the 15 minutes of a sample, where lifting goes on for `minutes` of them at `rate` lifts a minute and the rest
 * is light work: F = rate × minutes / 15. Lifting that fills the sample keeps its rate.
 */
export function spreadFrequency(rate: Rational, minutes: Rational): Answer<Rational> {
  if (compare(rate, zero) < 0) return refuse('rate', 'The number of lifts a minute is negative.', 'Type 0 or more.')
  if (compare(minutes, zero) <= 0)
    return refuse('minutes', 'The lifting takes no time.', 'Type the minutes of lifting in a sample of 15 minutes.')
  const sample = rational(15)
  return answer(compare(minutes, sample) >= 0 ? rate : divide(multiply(rate, minutes), sample))
}

/** The class of so many hours of lifting. Refused above 8 hours. */
export function durationOf(hours: Rational): Answer<WorkDuration> {
  if (compare(hours, zero) <= 0) return refuse('duration', 'The lifting takes no time.', 'Type the hours of lifting.')
  if (compare(hours, rational(8)) > 0)
    return refuse(
      'duration',
      'More than 8 hours of lifting is outside the equation.',
      'Share the work among more people.',
    )
  if (compare(hours, rational(1)) <= 0) return answer('short')
  return answer(compare(hours, rational(2)) <= 0 ? 'moderate' : 'long')
}

/** Recovery in minutes that lifting of so many minutes needs to stay in its own class. Refused above 2 hours: long work has no such rule. */
export function recoveryOf(work: Rational): Answer<Rational> {
  const duration = durationOf(divide(work, rational(60)))
  if (!duration.ok) return duration
  if (duration.value === 'long')
    return refuse(
      'work',
      'More than 2 hours of lifting is long work whatever the recovery.',
      'Use the column for long work.',
    )
  return recoveryNeeded(work, duration.value)
}

/** Recovery that a work time needs to count as short (as long as the work) or as moderate (0.3 of it). All in one unit. */
export function recoveryNeeded(work: Rational, duration: 'short' | 'moderate'): Answer<Rational> {
  if (compare(work, zero) <= 0) return refuse('work', 'The work takes no time.', 'Type the minutes of lifting.')
  return answer(duration === 'short' ? work : multiply(rational(3, 10), work))
}

/**
 * Class of duration of spells of lifting (minutes) with light work between them: a break that is long enough ends a spell, a shorter one joins
 * the work on both sides of it. The longest joined spell decides. Light work between is not counted as lifting.
 */
export function durationClass(
  spells: readonly Rational[],
  breaks: readonly Rational[],
): Answer<{ readonly minutes: Rational; readonly duration: WorkDuration }> {
  if (spells.length === 0) return refuse('work', 'No spell of lifting is given.', 'Type the minutes of each spell.')
  if (breaks.length !== spells.length - 1)
    return refuse('recovery', 'There must be one break between each two spells.', 'Type one break fewer than spells.')
  if ([...spells, ...breaks].some((each) => compare(each, zero) < 0))
    return refuse('work', 'A spell or a break is negative.', 'Type minutes of 0 or more.')
  let longest = spells[0] ?? zero
  let joined = longest
  spells.slice(1).forEach((spell, index) => {
    const pause = breaks[index] ?? zero
    const needed = compare(joined, rational(60)) <= 0 ? joined : multiply(rational(3, 10), joined)
    joined = compare(pause, needed) >= 0 ? spell : add(joined, spell)
    if (compare(joined, longest) > 0) longest = joined
  })
  const duration = durationOf(divide(longest, rational(60)))
  return duration.ok ? answer({ minutes: longest, duration: duration.value }) : duration
}
