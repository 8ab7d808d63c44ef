import type { Fault } from '../../findings/finding.ts'
import { convertValue } from '../../quantities/convert.ts'
import type { Limit, Rational } from '../../quantities/quantity-types.ts'
import { compare, rational } from '../../quantities/rational.ts'
import { fireWatchAfter } from '../../trade/thresholds/hot-work.ts'
import type { Check, CheckConfiguration, CheckSubject } from '../check.ts'
import { partIn } from '../entry-data.ts'
import { everyHotWork, limitOf } from '../hot-works.ts'

/** Rules differ between half an hour and an hour: the one chosen for the site holds, and the strictest where none is chosen. */
export const watchBelowRule: Check = {
  name: 'hot-work/watch-below-rule',
  severity: 'warning',
  title: 'The fire watch ends earlier than the rule that holds on this site asks for.',
  rules: [],

  *run({ procedure, configuration }: CheckSubject): Iterable<Fault> {
    const asked = askedFor(configuration)
    if (asked === null) return
    for (const { where, data, at } of everyHotWork(procedure)) {
      const time = limitOf(partIn(data, 'watch'), 'for')
      const minutes = time && leastMinutes(time)
      // Below half an hour it is told by hot-work/watch-too-short.
      if (!time || !minutes || compare(minutes, rational(30)) < 0 || compare(minutes, asked.minutes) >= 0) continue
      yield {
        at,
        message: `${where} ends the fire watch after ${time.typed}; ${asked.by}.`,
        advice: `Write watch: { by: …, for: min ${asked.typed} }, or choose the rule-set of your site in witnessmark.yaml.`,
      }
    }
  },
}

interface Asked {
  readonly minutes: Rational
  readonly typed: string
  readonly by: string
}

function askedFor({ ruleSet, thresholds }: CheckConfiguration): Asked | null {
  const rule = fireWatchAfter(ruleSet ?? null)
  const ofRule: Asked | null = rule.ok
    ? {
        minutes: rule.value.value,
        typed: `${rule.value.value.numerator} ${rule.value.unit}`,
        by: `${rule.value.source} asks for ${rule.value.value.numerator} ${rule.value.unit}`,
      }
    : null
  const own = thresholds?.fireWatch
  const converted = own && convertValue(own.value, own.unit, 'min')
  if (!own || !converted?.ok) return ofRule
  // A site may ask for more than its rule, never for less.
  if (ofRule && ruleSet !== undefined && compare(ofRule.minutes, converted.value) >= 0) return ofRule
  return { minutes: converted.value, typed: own.typed, by: `this site asks for ${own.typed}` }
}

function leastMinutes({ lower, upper, aim, unit }: Limit): Rational | null {
  const value = lower?.value ?? (upper === null ? aim : null)
  const minutes = value && convertValue(value, unit, 'min')
  return minutes?.ok ? minutes.value : null
}
