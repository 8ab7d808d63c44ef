import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { countWords } from '../sentences.ts'
import { everyInstruction } from '../told-instructions.ts'

const mostWords = 17
/** A few sentences have no average worth the name. */
const fewest = 8

/** Each sentence may just pass, and the whole still wears the reader out. */
export const longOnAverage: Check = {
  name: 'wording/long-on-average',
  severity: 'advice',
  title: 'The sentences of the instructions have more than 17 words on average.',
  rules: ['SG-04'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const sentences = everyInstruction(subject).flatMap((instruction) =>
      instruction.sentences.map(({ typed }) => ({ words: countWords(typed), at: instruction.at })),
    )
    const [first] = [...sentences].sort((a, b) => b.words - a.words)
    const sum = sentences.reduce((total, { words }) => total + words, 0)
    if (!first || sentences.length < fewest || sum <= mostWords * sentences.length) return
    yield {
      at: first.at,
      message: `The ${sentences.length} sentences of the instructions have ${(sum / sentences.length).toFixed(1)} words on average; 20 are the most, ${mostWords} or fewer are read with ease.`,
      advice: `Shorten the longest first. This one has ${first.words} words.`,
    }
  },
}
