import { fromDecimalText, zero } from '../../quantities/rational.ts'
import type { RuleSetName, ThresholdRule } from './rule.ts'

/** Every threshold, a topic at a time. Numbers as printed, in the unit printed. */

const wac = 'WAC 296-307-49503, the same words as 29 CFR 1910.252(a)(2)(iii)'
const wacSpace = 'WAC 296-155-20301, values of 29 CFR 1910.146(b)'

type Line = readonly [
  topic: string,
  set: RuleSetName,
  side: ThresholdRule['side'],
  value: string,
  unit: string,
  says: string,
  source: string,
  basis: ThresholdRule['basis'],
]

const protection = 'fall protection is needed'
const gas = 'the atmosphere is hazardous: nobody enters'
const watchEnds = 'the fire watch may end'

const lines: readonly Line[] = [
  ['fall/general industry', 'us-osha-general-industry', 'from', '4', 'ft', protection, '29 CFR 1910.28(b)', 'read'],
  ['fall/construction', 'us-osha-construction', 'from', '6', 'ft', protection, '29 CFR 1926.501(b)(1)', 'read'],
  ['fall/scaffold', 'us-osha-construction', 'above', '10', 'ft', protection, '29 CFR 1926.451(g)(1)', 'memory'],
  ['fall/steel erection', 'us-osha-construction', 'above', '15', 'ft', protection, '29 CFR 1926.760(a)(1)', 'memory'],
  ['fall/shipyard', 'us-osha-shipyard', 'above', '5', 'ft', protection, '29 CFR 1915.73(d)', 'memory'],
  ['fall/longshoring', 'us-osha-longshoring', 'above', '8', 'ft', protection, '29 CFR 1918.85(k)', 'memory'],
  ['fall/fixed ladder', 'us-osha-general-industry', 'above', '24', 'ft', protection, '29 CFR 1910.28(b)(9)', 'memory'],
  [
    'fall/canada',
    'canada-federal',
    'from',
    '2.4',
    'm',
    protection,
    'Canada Occupational Health and Safety Regulations, SOR/86-304, part XII',
    'memory',
  ],
  [
    'fall/great britain',
    'great-britain',
    'above',
    '0',
    'm',
    protection,
    'Work at Height Regulations 2005, regulation 6',
    'memory',
  ],

  [
    'guardrail-low',
    'us-osha-general-industry',
    'below',
    '39',
    'in',
    'the top rail is too low',
    '29 CFR 1910.29(b)(1): 42 in ± 3 in',
    'read',
  ],
  [
    'guardrail-high',
    'us-osha-general-industry',
    'above',
    '45',
    'in',
    'the top rail is too high',
    '29 CFR 1910.29(b)(1): 42 in ± 3 in',
    'read',
  ],

  ['fire-watch-distance', 'us-osha-general-industry', 'below', '35', 'ft', 'a fire watch is needed', wac, 'read'],
  // The openings' own words are "within": 35 ft counts.
  ['fire-watch-opening', 'us-osha-general-industry', 'up-to', '35', 'ft', 'a fire watch is needed', wac, 'read'],
  ['fire-watch-after', 'us-osha-general-industry', 'from', '30', 'min', watchEnds, wac, 'read'],
  [
    'fire-watch-after',
    'us-fire-code-2018',
    'from',
    '30',
    'min',
    watchEnds,
    'International Fire Code 2018, chapter 35',
    'read',
  ],
  [
    'fire-watch-after',
    'owner-us-army-corps',
    'from',
    '60',
    'min',
    watchEnds,
    'News report on contract rules of the US Army Corps of Engineers',
    'read',
  ],
  ['fire-watch-after', 'nfpa-51b-2019', 'from', '60', 'min', watchEnds, 'NFPA 51B, 2019', 'memory'],

  ['oxygen-low', 'us-osha-general-industry', 'below', '19.5', '%', gas, wacSpace, 'read'],
  ['oxygen-high', 'us-osha-general-industry', 'above', '23.5', '%', gas, wacSpace, 'read'],
  [
    'oxygen-high',
    'canada-federal',
    'above',
    '23',
    '%',
    gas,
    'Canada Occupational Health and Safety Regulations, SOR/86-304, part XI',
    'memory',
  ],
  ['flammable-gas', 'us-osha-general-industry', 'above', '10', '%', gas, wacSpace, 'read'],
  [
    'dust-vision',
    'us-osha-general-industry',
    'up-to',
    '5',
    'ft',
    gas,
    '29 CFR 1910.146(b), hazardous atmosphere (2)',
    'memory',
  ],
  [
    'toxic/carbon monoxide',
    'us-osha-general-industry',
    'above',
    '50',
    'ppm',
    gas,
    '29 CFR 1910.1000, table Z-1',
    'memory',
  ],
  ['toxic/carbon monoxide', 'us-niosh', 'above', '35', 'ppm', gas, 'NIOSH Pocket Guide to Chemical Hazards', 'memory'],
  [
    'toxic/hydrogen sulfide',
    'us-osha-general-industry',
    'above',
    '20',
    'ppm',
    gas,
    '29 CFR 1910.1000, table Z-2, ceiling',
    'memory',
  ],
  [
    'toxic/hydrogen sulfide',
    'us-niosh',
    'above',
    '10',
    'ppm',
    gas,
    'NIOSH Pocket Guide to Chemical Hazards, 10 min ceiling',
    'memory',
  ],
]

export const thresholdRules: readonly ThresholdRule[] = lines.map(
  ([topic, set, side, value, unit, says, source, basis]) => ({
    name: `${topic}/${set}`,
    topic,
    set,
    side,
    value: fromDecimalText(value) ?? zero,
    unit,
    says,
    source,
    basis,
  }),
)

/** What stands behind `topic/` in the names of topics of several kinds: `fall/construction` gives `construction`. */
export function kindsOf(group: 'fall' | 'toxic'): readonly string[] {
  const kinds = thresholdRules
    .filter(({ topic }) => topic.startsWith(`${group}/`))
    .map(({ topic }) => topic.slice(group.length + 1))
  return [...new Set(kinds)]
}
