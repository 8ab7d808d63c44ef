import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'

/** House rule: three sentences of twenty words. */
const MOST_WORDS = 60

/** A message is read in the time that it takes to pick up a spanner. */
export const messageLong: Check = {
  name: 'hazards/message-long',
  severity: 'advice',
  title: 'A safety message is too long to be read.',
  rules: ['SM-17'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { id, hazard, consequence, avoid, at } of procedure.hazards) {
      const words = `${hazard} ${consequence} ${avoid}`.split(/\s+/).filter((word) => word !== '').length
      if (words <= MOST_WORDS) continue
      yield {
        at,
        message: `The message of "${id}" has ${words} words; more than ${MOST_WORDS} are not read.`,
        advice: 'Say one thing in each of the three sentences. What has to be done goes into steps.',
      }
    }
  },
}
