import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { wordsOfJob } from '../job-words.ts'
import { everyLift } from '../lifts.ts'

const tried =
  /\b(?:trial lift|test lift|just clear|hand'?s breadth|bears? level|hangs? level|try the brakes?|stop and look)\b|\b(?:legs?|chains?|slings?|ropes?) (?:is|are|go|goes|come|comes) tight\b|\btake\b[^.\n]{0,20}\b(?:weight|strain)\b|\b\d+ (?:mm|cm|in)\b[^.\n]{0,60}\b(?:stop|hold|wait|look)\b/i

/** A hand's breadth above the floor a wrong sling costs nothing. */
export const trialLiftMissing: Check = {
  name: 'lifting/trial-lift-missing',
  severity: 'advice',
  title: 'A load on several legs goes straight up; nobody tries it first.',
  rules: ['LI-11'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    if (tried.test(wordsOfJob(procedure))) return
    const lift = everyLift(procedure).find(({ legs }) => legs >= 2)
    if (lift === undefined) return
    yield {
      at: lift.at,
      message: `"${lift.name}" hangs on ${lift.legs} legs in step ${lift.step.number}, and nobody tries how it hangs before it goes up.`,
      advice: 'Say it in the step: Lift it 100 mm, stop, look that it hangs level and the brake holds.',
    }
  },
}
