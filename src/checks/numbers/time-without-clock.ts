import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyInstruction } from '../told-instructions.ts'

const figure = '(?:\\d+(?:\\.\\d+)?|two|three|four|five|six|eight|ten|twelve|fifteen|twenty|thirty|half an|an(?= ?h))'
/** `wait 20 min`, `for two hours`; seconds are counted aloud, and a minute is a habit of speech. */
const time = new RegExp(
  `\\b(?:wait|for|leave|rest|soak)\\b[^.;,]{0,30}?\\b(${figure}[ \\u00a0-]?(?:min|minutes?|h|hours?))\\b`,
  'i',
)

/** Nobody knows after the coffee when the twenty minutes began. */
export const timeWithoutClock: Check = {
  name: 'numbers/time-without-clock',
  severity: 'advice',
  title: 'A step takes a certain time, and the sheet has no clock for it.',
  rules: ['NU-19'],

  *run(subject: CheckSubject): Iterable<Fault> {
    for (const { step, text, at } of everyInstruction(subject)) {
      const typed = time.exec(text)?.[1]
      if (
        typed === undefined ||
        /^1 ?min/.test(typed) ||
        step.waits.length > 0 ||
        step.takes !== null ||
        step.readings.length > 0
      )
        continue
      if (step.entries.some(({ key }) => key === 'ramp' || key === 'hot-work')) continue
      yield {
        at,
        message: `Step ${step.number} takes ${typed}, and nobody writes down when it began.`,
        advice: `Add \`wait: min ${/^\d/.test(typed) ? typed : '… min'}\` to its block: the sheet then has a blank for the start and one for the end.`,
      }
    }
  },
}
