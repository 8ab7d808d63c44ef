import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyInstruction, wordsFor } from '../told-instructions.ts'

const judging = new Set(['check', 'inspect', 'verify', 'examine', 'test', 'confirm'])
const changing = new Set(
  'adjust correct repair replace renew change set reset tighten retighten top fill refill clean align realign fix rectify lubricate grease trim tension'.split(
    ' ',
  ),
)

/** "Check and adjust": nobody can say afterwards what was found. */
export const judgedAndChanged: Check = {
  name: 'wording/judged-and-changed',
  severity: 'warning',
  title: 'One breath both judges a thing and changes it.',
  rules: ['SG-13'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const { meanings } = wordsFor(subject)
    for (const { step, sentences, at } of everyInstruction(subject))
      for (const { words } of sentences)
        for (const [index, word] of words.entries()) {
          const joiner = words[index + 1]?.low
          const change = words[index + 2]
          if (!judging.has(word.low) || word.mark !== '' || (joiner !== 'and' && joiner !== 'or')) continue
          if (!change || !changing.has(change.low)) continue
          const meaning = meanings.get(word.low)
          yield {
            at,
            message: `"${word.typed} ${joiner} ${change.typed}" in step ${step.number}: what is found is gone once it is changed.`,
            advice: `Make it a reading or a check with what follows under \`else\`, and ${change.low} in a step of its own.${meaning === undefined ? '' : ` To ${word.low} is to ${meaning}.`}`,
          }
        }
  },
}
