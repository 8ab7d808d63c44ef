import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { proseWords } from '../every-text.ts'
import { everySentence } from '../spoken-sentences.ts'

const elsewhere =
  /\b(?:per|see|refer to|according to|in accordance with|as (?:given|described|shown|stated|specified|set out|laid down|told) in|follow|consult|look (?:it |them )?up in)\s+(?:the\s+|your\s+|our\s+|its\s+)?(?:[\p{L}\p{N}'’-]+\s+){0,3}?(?:manual|handbook|bulletin|service instructions?|workshop instructions?|(?:maker|manufacturer)['’]s (?:instructions|data|figures|values)|(?:section|chapter|clause|paragraph|annex|appendix)\s+[\p{L}\p{N}.]+)/iu

/** The other book lies in the office. At the machine, at night, the figure is guessed. */
export const sendsElsewhere: Check = {
  name: 'prerequisites/sends-elsewhere',
  severity: 'warning',
  title: 'A step sends the reader to another document for what he needs here.',
  rules: ['PR-08'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const said = [
      ...everySentence(procedure),
      ...everyWrittenStep(procedure).flatMap(({ step }) =>
        step.details.flatMap(proseWords).map((text) => ({ text, step, at: step.at })),
      ),
    ]
    for (const { text, step, at } of said) {
      const found = elsewhere.exec(text)
      if (found === null) continue
      yield {
        at,
        message: `Step ${step.number} sends the reader away: "${found[0]}". The sheet must do without it.`,
        advice:
          'Write the figures and the work here. What is too long for a step stands in a table, a figure or a fragment.',
      }
    }
  },
}
