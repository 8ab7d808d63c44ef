import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { countWords, sentencesOf } from '../sentences.ts'

const mostWords = 20

/** A long instruction is read twice or acted on halfway. */
export const sentenceTooLong: Check = {
  name: 'wording/sentence-too-long',
  severity: 'warning',
  title: 'A sentence of an instruction has more than 20 words.',
  rules: ['SG-03'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) {
      const texts = [
        { plain: step.text.plain, at: step.at },
        ...step.acts.map(({ text, at }) => ({ plain: text.plain, at })),
      ]
      for (const { plain, at } of texts) {
        for (const sentence of sentencesOf(plain)) {
          const words = countWords(sentence)
          if (words <= mostWords) continue
          yield {
            at,
            message: `A sentence of step ${step.number} has ${words} words; ${mostWords} are the most that is read in one go.`,
            advice: `Break it up: one action, one step. It begins "${sentence.split(/\s+/).slice(0, 5).join(' ')} …"`,
          }
        }
      }
    }
  },
}
