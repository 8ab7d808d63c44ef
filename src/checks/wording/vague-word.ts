import type { Fault } from '../../findings/finding.ts'
import type { Expressions, Words } from '../../library/read-words.ts'
import type { Check, CheckSubject } from '../check.ts'
import { type FoundExpression, findExpressions } from '../find-expressions.ts'
import { isVerb } from '../instruction.ts'
import { type Word, wordsOf } from '../sentences.ts'
import { everySaying, wordsFor } from '../told-instructions.ts'
import { determiners } from '../word-kinds.ts'

/** "Securely" is another torque for everyone who reads it. */
export const vagueWord: Check = {
  name: 'wording/vague-word',
  severity: 'warning',
  title: 'A word leaves it to the reader how much, when or how good.',
  rules: ['SG-08'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const words = wordsFor(subject)
    for (const { text, where, at } of everySaying(subject))
      for (const { typed, says } of vagueIn(text, words))
        yield {
          at,
          message: `"${typed}" in ${where} is read by everyone in his own way.`,
          advice: `Say ${says}.`,
        }
  },
}

/** The vague expressions of a text that nothing in it makes clear. */
export function vagueIn(text: string, words: Words): readonly FoundExpression[] {
  const typed = wordsOf(text)
  return findExpressions(typed, listOf(words)).filter(
    ({ expression, at }) => !words.allowed.has(expression) && !isDone(typed, at, words),
  )
}

/** `Correct the gap`: the word is what is done, and says it. */
function isDone(typed: readonly Word[], at: number, words: Words): boolean {
  const before = typed[at - 1]
  const next = typed[at + 1]
  const opens = before === undefined || before.mark !== '' || /^(?:and|then)$/.test(before.low)
  return opens && isVerb(typed[at]?.low ?? '', words) && next !== undefined && determiners.has(next.low)
}

const lists = new WeakMap<Words, Expressions>()

/** What is allowed stands in the same list, so that the longer expression is the one that is found. */
function listOf(words: Words): Expressions {
  const known = lists.get(words) ?? new Map([...words.vague, ...words.allowed])
  lists.set(words, known)
  return known
}
