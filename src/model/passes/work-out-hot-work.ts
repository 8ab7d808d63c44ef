import { exactNumberText } from '../../quantities/number-text.ts'
import type { PlainValue } from '../../syntax/block-node.ts'
import { thresholdCaution } from '../../trade/cautions.ts'
import { combustiblesRadius, fireWatchAfter } from '../../trade/thresholds/hot-work.ts'
import { ruleSets, rulesFor, type ThresholdRule } from '../../trade/thresholds/rule.ts'
import { thresholdRules } from '../../trade/thresholds/rules.ts'
import type { Step } from '../procedure.ts'
import type { Working } from '../working.ts'
import type { AroundFigures } from './around-figures.ts'
import { wordFigure } from './worked-figures.ts'

/** How long a fire is watched for after the last spark, and how far off everything that burns must be: what rules ask beside what is written. */
export function workOutHotWork(step: Step, { ruleSet }: AroundFigures): readonly Working[] {
  return step.entries
    .filter(({ key }) => key === 'hot-work')
    .flatMap((entry) => {
      const watches = rulesFor(thresholdRules, 'fire-watch-after', null)
      const radius = combustiblesRadius()
      const holds = watches.ok ? watchThatHolds(watches.value, ruleSet) : null
      if (!watches.ok || !radius.ok || holds === null) return []
      const written = writtenIn(entry.data)
      const watch = `${exactNumberText(holds.value)} ${holds.unit}`
      const distance = `${exactNumberText(radius.value.value)} ${radius.value.unit}`
      return [
        {
          key: 'hot-work' as const,
          of: written.method ?? 'hot work',
          says: `Rules ask for a fire watch of ${watch} after the last spark and for ${distance} to whatever burns${written.says}.`,
          figures: [wordFigure('watch-at-least', watch), wordFigure('distance-at-least', distance)],
          formula: 'the watch and the distance that are written are no less than the rule asks',
          lines: [
            ...watches.value.map((rule) => `${ruleText(rule)}${rule === holds ? ' (holds here)' : ''}`),
            `Distance: ${distance}, ${radius.value.source}`,
          ],
          source: `${holds.source}; ${radius.value.source}`,
          caution: `A permit and the person who issues it decide. ${thresholdCaution}`,
          at: entry.at,
        },
      ]
    })
}

/** That of the rule set of the site; where none is chosen, what everybody asks for at least. */
function watchThatHolds(rules: readonly ThresholdRule[], ruleSet: string | null): ThresholdRule | null {
  const chosen = ruleSet === null ? null : fireWatchAfter(ruleSet)
  if (chosen?.ok) return rules.find(({ name }) => name === chosen.value.name) ?? chosen.value
  return rules.find(({ set }) => set === 'us-osha-general-industry') ?? null
}

function ruleText({ set, value, unit, source, basis }: ThresholdRule): string {
  return `${set} (${ruleSets[set].where}): ${exactNumberText(value)} ${unit}; ${source}${basis === 'memory' ? ', from memory' : ''}`
}

/** What the step itself asks for, behind what the rules ask. */
function writtenIn(data: PlainValue): { readonly method: string | null; readonly says: string } {
  const field = (value: PlainValue | undefined, key: string): string | null => {
    const found =
      typeof value === 'object' && !Array.isArray(value) && key in value ? (value as Fields)[key] : undefined
    return typeof found === 'string' ? found : null
  }
  const watch = typeof data === 'object' && !Array.isArray(data) ? (data as Fields).watch : undefined
  const parts = [
    ...(field(watch, 'for') === null ? [] : [`watch ${field(watch, 'for')}`]),
    ...(field(data, 'distance') === null ? [] : [`distance ${field(data, 'distance')}`]),
  ]
  return { method: field(data, 'method'), says: parts.length === 0 ? '' : `; here: ${parts.join(', ')}` }
}

type Fields = { readonly [key: string]: PlainValue }
