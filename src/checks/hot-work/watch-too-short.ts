import type { Fault } from '../../findings/finding.ts'
import { convertValue } from '../../quantities/convert.ts'
import type { Limit, Rational } from '../../quantities/quantity-types.ts'
import { compare } from '../../quantities/rational.ts'
import type { Check, CheckSubject } from '../check.ts'
import { partIn, textIn } from '../entry-data.ts'
import { fireWatchLeast } from '../fire-watch-least.ts'
import { everyHotWork, limitOf } from '../hot-works.ts'

/** What smoulders breaks out when everybody has gone home. */
export const watchTooShort: Check = {
  name: 'hot-work/watch-too-short',
  severity: 'error',
  title: 'The fire watch ends less than 30 minutes after the hot work, or nobody says when.',
  rules: ['HW-05'],

  *run({ procedure, configuration }: CheckSubject): Iterable<Fault> {
    const least = fireWatchLeast(configuration)
    for (const { where, data, phase, at } of everyHotWork(procedure)) {
      const watch = partIn(data, 'watch')
      if (watch === undefined) continue
      // A watch that goes on to a later step is timed there.
      const goesOn = phase.keeps
        .concat(phase.steps.flatMap((step) => step.keeps))
        .some(({ through }) => through !== null)
      const time = limitOf(watch, 'for')
      if (time === null ? textIn(watch, 'for') !== null || goesOn : !isShort(time, least.minutes)) continue
      yield {
        at,
        message:
          time === null
            ? `${where} does not say how long the fire watch goes on after the last spark.`
            : `${where} ends the fire watch after ${time.typed}; it goes on for ${least.text} at least.`,
        advice: 'Write watch: { by: …, for: min 60 min }, or what your site asks for; never less than 30 min.',
      }
    }
  },
}

function isShort({ lower, unit }: Limit, least: Rational): boolean {
  if (lower === null) return true
  const minutes = convertValue(lower.value, unit, 'min')
  return minutes.ok && compare(minutes.value, least) < 0
}
