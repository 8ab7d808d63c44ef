import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyText } from '../every-text.ts'

const run = /(?:\b\p{Lu}{2,}\b[ ,'’-]*){5,}/u

/** Words in capitals have no shape: they are read letter by letter, and half of them not at all. */
export const longCapitals: Check = {
  name: 'wording/long-capitals',
  severity: 'advice',
  title: 'More than four words in a row are in capitals.',
  rules: ['PL-07'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    for (const { text, placeOf } of everyText(procedure, written)) {
      const found = run.exec(text)?.[0].trim()
      if (found === undefined || !/\p{Lu}{4,}[^\p{Lu}]+.*\p{Lu}{4,}/u.test(found)) continue
      yield {
        at: placeOf(found),
        message: `"${found}" stands in capitals. So many are hard to read.`,
        advice:
          'Write it in small letters. The print makes a warning stand out by itself; **two stars** make a word bold.',
      }
    }
  },
}
