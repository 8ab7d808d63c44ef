import type { Expressions } from '../library/read-words.ts'
import type { Word } from './sentences.ts'

export interface FoundExpression {
  readonly expression: string
  /** As typed. */
  readonly typed: string
  /** What the list says of it. */
  readonly says: string
  /** Position of its first word. */
  readonly at: number
}

type ByFirstWord = ReadonlyMap<string, readonly (readonly string[])[]>

const indexes = new WeakMap<Expressions, ByFirstWord>()

/** Every expression of a list that stands among the words, none inside another: where two fit, the longer one counts. */
export function findExpressions(words: readonly Word[], list: Expressions): readonly FoundExpression[] {
  const index = indexes.get(list) ?? indexOf(list)
  indexes.set(list, index)
  const found: FoundExpression[] = []
  for (let at = 0; at < words.length; at += 1) {
    const fitting = index.get(words[at]?.low ?? '')?.find((parts) => stands(parts, words, at))
    if (!fitting) continue
    const expression = fitting.join(' ')
    const typed = words.slice(at, at + fitting.length).map((word) => word.typed)
    found.push({ expression, typed: typed.join(' '), says: list.get(expression) ?? '', at })
    at += fitting.length - 1
  }
  return found
}

/** No mark stands between the words of an expression. */
const stands = (parts: readonly string[], words: readonly Word[], at: number): boolean =>
  parts.every((part, offset) => {
    const word = words[at + offset]
    return word?.low === part && (offset === parts.length - 1 || word.mark === '')
  })

function indexOf(list: Expressions): ByFirstWord {
  const index = new Map<string, (readonly string[])[]>()
  for (const expression of list.keys()) {
    const parts = expression.split(' ')
    const first = parts[0] ?? ''
    index.set(
      first,
      [...(index.get(first) ?? []), parts].sort((a, b) => b.length - a.length),
    )
  }
  return index
}
