import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import type { ReadSentence } from '../instruction.ts'
import { everyInstruction } from '../told-instructions.ts'
import { particles } from '../word-kinds.ts'

const mostThings = 3

/** The fifth thing in a row of commas is the one that is left out. */
export const longList: Check = {
  name: 'wording/long-list',
  severity: 'advice',
  title: 'One action has more than three things in one sentence.',
  rules: ['SG-15'],

  *run(subject: CheckSubject): Iterable<Fault> {
    for (const { step, sentences, at } of everyInstruction(subject))
      for (const sentence of sentences) {
        const things = thingsIn(sentence)
        if (things.length <= mostThings) continue
        yield {
          at,
          message: `Step ${step.number} names ${things.length} things in one row: ${things.join(', ')}.`,
          advice: 'Set them as bullets below the step, or give each its own blank.',
        }
      }
  },
}

/** `housings, impeller, seals and shaft` behind an order, where nothing else stands between; empty where there is no such row. */
function thingsIn({ words, actions, order }: ReadSentence): readonly string[] {
  if (order === -1) return []
  const end = words.findIndex(
    ({ low, mark }, at) => at > order && (low === 'and' || low === 'or') && mark === '' && words[at - 1]?.mark !== ';',
  )
  if (end === -1) return []
  const items: string[][] = [[]]
  for (let at = order + 1; at < words.length; at += 1) {
    const word = words[at]
    if (!word || actions.includes(at)) return []
    if (at === end) {
      if (items.at(-1)?.length) items.push([])
      continue
    }
    // Behind the last thing the sentence may go on: "and shaft for cracks".
    if (particles.has(word.low)) {
      if (at > end) break
      // "look at housings" is an order of two words.
      if (items.length > 1 || (items[0]?.length ?? 0) > 0) return []
      continue
    }
    items.at(-1)?.push(word.typed)
    if (word.mark !== '' && word.mark !== ',') break
    if (word.mark === ',' && at < end) items.push([])
    if (at > end && word.mark === ',') break
  }
  const things = items.filter((item) => item.length > 0)
  return things.every((item) => item.length <= 4) ? things.map((item) => item.join(' ')) : []
}
