import type { Fault } from '../../findings/finding.ts'
import type { Place } from '../../text/place.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { everySentence, opensWithCondition } from '../spoken-sentences.ts'
import { placeOfWord, writtenAt } from '../written-words.ts'

/** "Hot and wet or dusty" is read in two ways, and only one of them is what the author meant. */
export const andOrMixed: Check = {
  name: 'branching/and-or-mixed',
  severity: 'warning',
  title: 'A condition joins with "and" and with "or" side by side.',
  rules: ['BR-03'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    for (const { text, at } of everySentence(procedure)) {
      if (!opensWithCondition(text)) continue
      const condition = text.split(',')[0] ?? ''
      if (isMixed(condition)) yield mixed(condition, at)
    }
    const typed = [
      ...procedure.phases.flatMap(({ when, until, at }) => [
        { condition: when, at },
        { condition: until?.condition ?? null, at },
      ]),
      ...everyWrittenStep(procedure).flatMap(({ step }) => [
        { condition: step.when, at: step.at },
        ...(step.decide?.branches ?? []).map(({ when, at }) => ({ condition: when, at })),
      ]),
    ]
    const told = new Set<number>()
    for (const { condition, at } of typed) {
      if (condition === null || told.has(at.start) || !partsOf(condition).some(isMixed)) continue
      told.add(at.start)
      const block = writtenAt(written, at)?.block
      yield mixed(condition, placeOfWord(block, ['when', 'repeat'], condition) ?? at)
    }
  },
}

function mixed(condition: string, at: Place): Fault {
  return {
    at,
    message: `"${condition}" joins with "and" and with "or". It can be read in two ways.`,
    advice: 'Put brackets round what belongs together, or make a list: all of these, or any of these.',
  }
}

const isMixed = (part: string): boolean => /\band\b/i.test(part) && /\bor\b/i.test(part)

/** What stands at one level of brackets, for each level: `a or (b and c)` gives `a or …` and `b and c`. */
function partsOf(condition: string): readonly string[] {
  const parts: string[] = []
  let rest = condition
  for (;;) {
    const inner = /\(([^()]*)\)/.exec(rest)
    if (inner === null) return [...parts, rest]
    parts.push(inner[1] ?? '')
    rest = `${rest.slice(0, inner.index)}…${rest.slice(inner.index + inner[0].length)}`
  }
}
