import { convertValue } from '../quantities/convert.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import { larger, rational, toDecimalText } from '../quantities/rational.ts'
import { fireWatchAfter } from '../trade/thresholds/hot-work.ts'
import type { CheckConfiguration } from './check.ts'

/** 29 CFR 1910.252(a)(2)(iii)(B) as adopted in WAC 296-307-49503(3)(b); newer codes ask for an hour. */
const least = rational(30)

/** How long a fire watch goes on at least, in minutes: what everybody asks for, or more where the site or its rule set does. */
export function fireWatchLeast({ ruleSet, thresholds }: CheckConfiguration): {
  readonly minutes: Rational
  readonly text: string
} {
  const rule = ruleSet === undefined ? null : fireWatchAfter(ruleSet)
  const asked = [
    ...(rule?.ok ? [convertValue(rule.value.value, rule.value.unit, 'min')] : []),
    ...(thresholds?.fireWatch ? [convertValue(thresholds.fireWatch.value, thresholds.fireWatch.unit, 'min')] : []),
  ]
  const minutes = asked.reduce((most, one) => (one.ok ? larger(most, one.value) : most), least)
  return { minutes, text: `${toDecimalText(minutes, 1, 'up').replace(/\.0$/, '')} min` }
}
