import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyText } from '../every-text.ts'

/** A note whose first word is work to be done. Words that are also nouns or adjectives (clean, level, oil, set) are left out. */
const instructs =
  /^\s*note\s*(?:\d+\s*)?[:–—-]\s*(?:(?:always|then|first|also|make sure to|be sure to)\s+)?(remove|install|fit|loosen|slacken|tighten|torque|rotate|turn|take|put|lift|lower|raise|drain|fill|record|write|read|measure|connect|disconnect|open|close|push|pull|press|apply|replace|adjust|wash|wipe|inspect|verify|ensure|lock|unlock|start|stop|bleed|vent|insert|attach|secure)\b(?!\s+(?:is|are|was|were|has|have|can|may|will)\b)/i

/** Readers skip notes; work that stands in one is not done. */
export const noteInstructs: Check = {
  name: 'hazards/note-instructs',
  severity: 'warning',
  title: 'A note tells somebody to do something.',
  rules: ['SM-07'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    for (const { text, isValue, placeOf } of everyText(procedure, written)) {
      const verb = isValue ? undefined : instructs.exec(text)?.[1]
      if (verb === undefined) continue
      yield {
        at: placeOf(verb),
        message: `"${text.length > 70 ? `${text.slice(0, 67).trimEnd()} …` : text}" is a note, and it tells somebody to do something. Notes are skipped.`,
        advice: 'Make it a step of its own, or a bullet of the step without the word "Note".',
      }
    }
  },
}
