import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'

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

/** A full stop inside `0.5` or `M20 8.8` ends nothing: a sentence ends before a blank and a capital. */
function sentencesOf(text: string): readonly string[] {
  return text.split(/(?<=[.!?;])\s+(?=\p{Lu})/u)
}

/** `1 200 kg`, `350 to 430 N·m` and `20 °C`: a number and its unit are one word. */
function countWords(sentence: string): number {
  const joined = sentence
    .replace(/(\d)[ \u00a0\u202f](?=\d{3}\b)/g, '$1')
    .replace(
      /(\d)\s+(?=(?:[µμ]?m|[ckm]m|k?g|t|k?N|N·m|lbf·ft|lbf|in|ft|psi|[kM]?Pa|bar|°[CF]?|%|s|h|min|[mkM]?[VAW]|L|mL|Hz|rpm)(?![\p{L}]))/gu,
      '$1',
    )
  return joined.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length
}
