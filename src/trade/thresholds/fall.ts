import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, zero } from '../../quantities/rational.ts'
import { nearestName } from '../../text/nearest-name.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import { anyFollows, follows, type RuleSetName, rulesFor, type ThresholdRule } from './rule.ts'
import { kindsOf, thresholdRules } from './rules.ts'

/** Kinds of work that have a fall threshold of their own. */
export const kindsOfWork = kindsOf('fall')

/** The threshold for a kind of work. A kind may be named as part of a longer text ("general industry, open side"). */
export function fallRule(kind: string): Answer<ThresholdRule> {
  const words = kind
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
  const fits = (each: string): boolean => words.includes(each) || (words.length >= 5 && each.includes(words))
  const meant = kindsOfWork.filter(fits).toSorted((a, b) => b.length - a.length)[0]
  const rule = thresholdRules.find(({ topic }) => topic === `fall/${meant}`)
  if (rule) return answer(rule)
  const near = nearestName(words, kindsOfWork)
  return refuse(
    'kind',
    `No fall threshold is known for "${kind}".`,
    near === null ? `Choose one of: ${kindsOfWork.join(', ')}.` : `Did you mean "${near}"?`,
  )
}

/** The kind of work that stands for a whole rule set where none is told. */
const usualKinds = ['general industry', 'construction', 'shipyard', 'longshoring', 'canada', 'great britain']

export interface FallPlace {
  readonly kind?: string
  readonly set?: RuleSetName
  readonly isOverDangerous?: boolean
}

/**
 * Whether protection against a fall from `height` is needed. Over dangerous equipment always, from any height (29 CFR 1910.28(b)(6):
 * below the threshold a cover or guard, from it a guardrail, net or arrest). A kind of work decides, else the rule set of the site, else
 * the stricter of general industry and construction. Exact.
 */
export function fallProtectionNeeded(
  height: Rational,
  unit: string,
  place: FallPlace,
): Answer<{ readonly needed: boolean; readonly by: readonly string[] }> {
  if (compare(height, zero) < 0) return refuse('height', 'The height is negative.', 'Type the height of a fall.')
  if (place.isOverDangerous && compare(height, zero) > 0)
    return answer({ needed: true, by: ['29 CFR 1910.28(b)(6), over dangerous equipment'] })
  const rules = fallRulesFor(place)
  if (!rules.ok) return rules
  const verdict = anyFollows(rules.value, height, unit)
  return verdict.ok ? answer({ needed: verdict.value.follows, by: verdict.value.by.map(inWords) }) : verdict
}

/** The thresholds that hold at a place: that of its kind of work, else those of the rule set, else general industry and construction. */
export function fallRulesFor(place: FallPlace): Answer<readonly ThresholdRule[]> {
  const rules: ThresholdRule[] = []
  for (const kind of kindsFor(place)) {
    const rule = fallRule(kind)
    if (!rule.ok) return rule
    rules.push(rule.value)
  }
  return answer(rules)
}

function kindsFor({ kind, set }: FallPlace): readonly string[] {
  if (kind !== undefined) return [kind]
  const ofSet = usualKinds.filter((usual) =>
    thresholdRules.some((rule) => rule.topic === `fall/${usual}` && rule.set === set),
  )
  return ofSet.length > 0 ? ofSet : ['general industry', 'construction']
}

function inWords({ topic, says, source, basis }: ThresholdRule): string {
  return `${topic.slice('fall/'.length)}: ${says}, ${source}${basis === 'memory' ? ' (from memory)' : ''}`
}

/** Whether a top rail is as high as it must be: neither too low nor too high. Exact. */
export function guardrailHolds(height: Rational, unit: string): Answer<boolean> {
  if (compare(height, zero) < 0) return refuse('height', 'The height is negative.', 'Type the height of the top rail.')
  for (const topic of ['guardrail-low', 'guardrail-high']) {
    const rules = rulesFor(thresholdRules, topic, null)
    if (!rules.ok) return rules
    for (const rule of rules.value) {
      const wrong = follows(rule, height, unit)
      if (!wrong.ok) return wrong
      if (wrong.value) return answer(false)
    }
  }
  return answer(true)
}
