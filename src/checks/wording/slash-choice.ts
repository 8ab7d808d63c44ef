import type { Fault } from '../../findings/finding.ts'
import { readUnit } from '../../quantities/units.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everySaying } from '../told-instructions.ts'

const slashed = /(?<![\p{L}\p{N}./])(\p{L}{2,})\s?\/\s?(\p{L}{2,})(?:\s?\/\s?\p{L}{2,})*(?![\p{L}\p{N}/])/gu

/** What is one thing, or stands so on a plate. */
const oneThing =
  /^(?:on\/off|start\/stop|stop\/start|open\/closed|up\/down|in\/out|his\/her|he\/she|yes\/no|pass\/fail|input\/output)$/i

/** "Grease and/or oil": the writer leaves to the reader what the writer did not decide. */
export const slashChoice: Check = {
  name: 'wording/slash-choice',
  severity: 'warning',
  title: 'Two words with a slash between them leave open which one is meant.',
  rules: ['SG-22'],

  *run(subject: CheckSubject): Iterable<Fault> {
    for (const { text, where, at } of everySaying(subject))
      for (const [typed, first = '', second = ''] of text.matchAll(slashed)) {
        const together = `${first}/${second}`
        const isLabel = typed === typed.toUpperCase()
        if (isLabel || oneThing.test(together) || readUnit(together).ok) continue
        yield {
          at,
          message: `"${typed}" in ${where} can be one, the other or both.`,
          advice: /^and\/or$/i.test(together)
            ? 'Write "and" or "or", or say when the one and when the other.'
            : `Write "${first} and ${second}" or "${first} or ${second}", or say when the one and when the other.`,
        }
      }
  },
}
