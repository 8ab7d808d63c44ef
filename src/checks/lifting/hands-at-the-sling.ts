import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { wordsOfJob } from '../job-words.ts'
import { everyLift, isRigging } from '../lifts.ts'

const said = /\b(?:hands?|fingers?|slack|tag lines?|slowly|small steps|jerk)\b/i

/** Fingers are lost when a sling goes tight. */
export const handsAtTheSling: Check = {
  name: 'lifting/hands-at-the-sling',
  severity: 'advice',
  title: 'A sling is tightened, and nothing is said of hands and slack.',
  rules: ['LI-08'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const messages = procedure.hazards.map(({ hazard, avoid }) => `${hazard} ${avoid}`).join('\n')
    if (said.test(`${wordsOfJob(procedure)}\n${messages}`)) return
    const lift = everyLift(procedure).find(({ listed }) => listed.some(isRigging))
    if (lift === undefined) return
    yield {
      at: lift.at,
      message: `"${lift.name}" is lifted in step ${lift.step.number}, and nothing says that the slack is taken up slowly and hands are off the sling.`,
      advice: 'Say it in the step: Take up the slack slowly, hands off sling and load.',
    }
  },
}
