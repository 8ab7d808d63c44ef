import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyText } from '../every-text.ts'

/** In capitals at the start of a line or sentence, or set off from it: typed as a signal word, not used as a word. */
const typed =
  /(?:^|[\s*([])(DANGER|WARNING|CAUTION|NOTICE|ATTENTION|IMPORTANT|BEWARE)(?=\s*[:!–—-]|[)\]*]|!|$)|^(Danger|Warning|Caution|Notice|Attention|Beware)\s*[:!]/

/** A message that is typed as text stands after its step, says its word by hand, and is missing in the audit. */
export const messageInProse: Check = {
  name: 'hazards/message-in-prose',
  severity: 'warning',
  title: 'A safety message is typed as plain text.',
  rules: ['SM-04', 'SM-05', 'SM-12', 'SM-18'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    for (const { text, isValue, placeOf } of everyText(procedure, written)) {
      const found = isValue ? null : typed.exec(text)
      const word = found?.[1] ?? found?.[2]
      if (word === undefined) continue
      yield {
        at: placeOf(word),
        message: `"${shortened(text)}" is a safety message in plain text. It is printed where it stands, not before its step, and no signal word is worked out for it.`,
        advice:
          'Write it as a hazard and name it at the step: hazards: { name: { hazard: …, consequence: …, avoid: …, severity: …, likelihood: … } }',
      }
    }
  },
}

const shortened = (text: string): string => (text.length > 70 ? `${text.slice(0, 67).trimEnd()} …` : text)
