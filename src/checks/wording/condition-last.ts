import type { Fault } from '../../findings/finding.ts'
import type { Words } from '../../library/read-words.ts'
import type { Check, CheckSubject } from '../check.ts'
import { findExpressions } from '../find-expressions.ts'
import type { ReadSentence } from '../instruction.ts'
import { everyInstruction, wordsFor } from '../told-instructions.ts'
import { tellingVerbs } from '../word-kinds.ts'

/** Whoever works line by line has done it before he reads that he should not have. */
export const conditionLast: Check = {
  name: 'wording/condition-last',
  severity: 'warning',
  title: 'A condition stands behind what is done.',
  rules: ['BR-01'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const words = wordsFor(subject)
    for (const { step, sentences, at } of everyInstruction(subject))
      for (const sentence of sentences) {
        const from = conditionAt(sentence, words)
        if (from === -1) continue
        yield {
          at,
          message: `In step ${step.number} the condition comes last: "${sentence.typed}"`,
          advice: `Put it first: "${turned(sentence, from)}"`,
        }
      }
  },
}

const conditions = new Set(['if', 'unless', 'when', 'whenever'])
/** Behind these comes what is asked or told, and no condition: "see if it turns", "note when it stops". */
const asking = new Set([
  ...tellingVerbs,
  'decide',
  'try',
  'judge',
  'determine',
  'record',
  'write',
  'say',
  'time',
  'measure',
  'test',
])
/** These wait for what comes: "stop when the pointer reaches 5 bar". */
const ending = new Set(['stop', 'halt', 'release', 'switch', 'shut', 'end', 'finish', 'call', 'signal', 'shout'])
/** "Even if", "as if", "only when" belong together. */
const before = new Set(['as', 'even', 'or', 'what', 'and', 'that', 'time', 'moment', 'point'])

/** Where a condition begins behind the order, or -1. */
export function conditionAt({ is, words, order, opensWithCondition }: ReadSentence, known: Words): number {
  if (is !== 'order' || opensWithCondition) return -1
  const from = words.findIndex(({ low }, at) => at > order && conditions.has(low))
  if (from === -1 || words.length - from < 3 || before.has(words[from - 1]?.low ?? '')) return -1
  // "Do not start it unless …": whoever reads only the beginning does nothing.
  if (/^(?:not|never|don't)$/.test(words[order - 1]?.low ?? '')) return -1
  const told = words.slice(order, from).map(({ low }) => low)
  if (told.some((low) => asking.has(low))) return -1
  const isAwaited = /^when/.test(words[from]?.low ?? '')
  if (isAwaited && (told.some((low) => ending.has(low)) || /ing$/.test(words[from + 1]?.low ?? ''))) return -1
  // "If necessary" is reported for being vague.
  return findExpressions(words.slice(from), known.vague).length > 0 ? -1 : from
}

/** `Close the valve if the lamp lights.` becomes `If the lamp lights, close the valve.` */
function turned({ typed, words }: ReadSentence, from: number): string {
  const cut = words[from]?.from ?? 0
  const order = typed.slice(0, cut).trim().replace(/,$/, '')
  const condition = typed.slice(cut).replace(/[.!;]\s*$/, '')
  return `${condition.charAt(0).toUpperCase()}${condition.slice(1)}, ${order.charAt(0).toLowerCase()}${order.slice(1)}.`
}
