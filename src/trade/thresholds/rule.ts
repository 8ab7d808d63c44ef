import { convertValue } from '../../quantities/convert.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import { compare } from '../../quantities/rational.ts'
import { nearestName } from '../../text/nearest-name.ts'
import { type Answer, answer, refuse } from '../answer.ts'

/** A threshold of one rule maker: data, with its name, so that limits that disagree stand beside each other. */
export interface ThresholdRule {
  /** `fire-watch-after/us-osha`: topic, slash, rule set. */
  readonly name: string
  readonly topic: string
  readonly set: RuleSetName
  /** What follows when the value is on that side of the threshold. */
  readonly says: string
  readonly side: 'from' | 'above' | 'below' | 'up-to'
  readonly value: Rational
  readonly unit: string
  /** Title, edition, section. */
  readonly source: string
  /** The number was seen in the named source, or in a copy or quotation of it; else it is from memory. */
  readonly basis: 'read' | 'memory'
}

/**
 * Who makes a rule and where it holds. One of these names is chosen for a site; a rule that the chosen set does not have is looked
 * for in the others, and where nothing is chosen the strictest of all holds. Local law and site rules come first.
 */
export const ruleSets = {
  'us-osha-general-industry': { authority: 'OSHA', where: 'United States, general industry (29 CFR 1910)' },
  'us-osha-construction': { authority: 'OSHA', where: 'United States, construction (29 CFR 1926)' },
  'us-osha-shipyard': { authority: 'OSHA', where: 'United States, shipyards (29 CFR 1915)' },
  'us-osha-longshoring': { authority: 'OSHA', where: 'United States, longshoring (29 CFR 1918)' },
  'us-niosh': { authority: 'NIOSH', where: 'United States, recommendation' },
  'us-fire-code-2018': { authority: 'fire code', where: 'International Fire Code 2018, where adopted' },
  'nfpa-51b-2019': { authority: 'NFPA', where: 'NFPA 51B, 2019, where adopted' },
  'owner-us-army-corps': { authority: 'owner', where: 'Contracts of the US Army Corps of Engineers' },
  'canada-federal': { authority: 'Canada', where: 'Canada, federal workplaces' },
  'great-britain': { authority: 'HSE', where: 'Great Britain' },
} as const

export type RuleSetName = keyof typeof ruleSets

export const ruleSetNames = Object.keys(ruleSets) as readonly RuleSetName[]

/** The rules of a topic that a typed rule set or authority means; all of the topic for null, and
 * for a set that has no rule of it. Refused for a name that is no set. */
export function rulesFor<R extends ThresholdRule>(
  rules: readonly R[],
  topic: string,
  typed: string | null,
): Answer<readonly R[]> {
  const ofTopic = rules.filter((rule) => rule.topic === topic)
  if (typed === null) return answer(ofTopic)
  const wanted = plain(typed)
  const meant = ofTopic.filter(({ set }) => plain(set) === wanted || plain(ruleSets[set].authority) === wanted)
  if (meant.length > 0) return answer(meant)
  // A known maker of rules that says nothing here: the others hold.
  if (ruleSetNames.some((set) => plain(set) === wanted || plain(ruleSets[set].authority) === wanted))
    return answer(ofTopic)
  const known = [...new Set(ofTopic.map(({ set }) => set))]
  const near = nearestName(typed, known)
  return refuse(
    'rule-set',
    `"${typed}" has no rule for this.`,
    near === null ? `Choose one of: ${known.join(', ')}.` : `Did you mean "${near}"?`,
  )
}

/** Whether what the rule says follows. `value` in `unit`, which may be another unit of the same kind; the comparison is exact. */
export function follows(rule: ThresholdRule, value: Rational, unit: string): Answer<boolean> {
  const converted = convertValue(value, unit, rule.unit)
  if (!converted.ok) return refuse(null, converted.problem.message, converted.problem.advice)
  const side = compare(converted.value, rule.value)
  switch (rule.side) {
    case 'from':
      return answer(side >= 0)
    case 'above':
      return answer(side > 0)
    case 'below':
      return answer(side < 0)
    case 'up-to':
      return answer(side <= 0)
  }
}

/** Whether what any of the rules says follows, and by which: the strict reading of rules that disagree. */
export function anyFollows(
  rules: readonly ThresholdRule[],
  value: Rational,
  unit: string,
): Answer<{ readonly follows: boolean; readonly by: readonly ThresholdRule[] }> {
  const by: ThresholdRule[] = []
  for (const rule of rules) {
    const verdict = follows(rule, value, unit)
    if (!verdict.ok) return verdict
    if (verdict.value) by.push(rule)
  }
  return answer({ follows: by.length > 0, by })
}

function plain(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
}
