import type { Fault } from '../../findings/finding.ts'
import type { Prose } from '../../syntax/prose.ts'
import type { Place } from '../../text/place.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { plainWords } from '../every-text.ts'
import { countWords, sentencesOf } from '../sentences.ts'
import { isEnglish } from '../told-instructions.ts'

const mostWords = 25
const mostSentences = 6

/** A text that nobody reads to its end protects nobody. */
export const descriptionTooLong: Check = {
  name: 'wording/description-too-long',
  severity: 'advice',
  title: 'A paragraph has more than six sentences, or one of its sentences more than 25 words.',
  rules: ['SG-03', 'SG-05'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    if (!isEnglish(procedure)) return
    const opening = written.title?.at ?? procedure.document.at
    yield* judged(procedure.purpose, opening, 'The opening text')
    for (const { title, prose, at } of procedure.phases) yield* judged(prose, at, `The text of "${title}"`)
    for (const { step } of everyWrittenStep(procedure))
      yield* judged(step.details, step.at, `The text of step ${step.number}`)
  },
}

function* judged(prose: readonly Prose[], at: Place, whose: string): Iterable<Fault> {
  for (const paragraph of prose.flatMap(paragraphsOf)) {
    const sentences = sentencesOf(paragraph)
    if (sentences.length > mostSentences)
      yield {
        at,
        message: `${whose} has a paragraph of ${sentences.length} sentences; ${mostSentences} are the most. It begins "${beginning(paragraph)}"`,
        advice: 'Make two of it, or a list.',
      }
    for (const sentence of sentences) {
      const words = countWords(sentence)
      if (words <= mostWords) continue
      yield {
        at,
        message: `${whose} has a sentence of ${words} words; ${mostWords} are the most in a description. It begins "${beginning(sentence)}"`,
        advice: 'Make two of it.',
      }
    }
  }
}

const beginning = (text: string): string => `${text.split(/\s+/).slice(0, 5).join(' ')} …`

/** Paragraphs and items; cells of a table and words of a figure are no sentences to read through. */
function paragraphsOf(prose: Prose): readonly string[] {
  if (prose.kind === 'paragraph') return [plainWords(prose.children)]
  if (prose.kind === 'list') return prose.items.flat().flatMap(paragraphsOf)
  return prose.kind === 'quote' ? prose.children.flatMap(paragraphsOf) : []
}
