import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { wordsOfJob } from '../job-words.ts'

const raised = /\b(?:raise|tip)s? (?:the )?(?:\w+ )?(body|box|bed|bucket|boom|dipper|ripper|tray|screed|apron)\b/i
const freeToMove =
  /\b(?:turn|bar|loosen|slacken|open|unbolt|take .{1,30} off)\b[^.]{0,60}\b(flywheel|counterweight|counterbalance|take-up weight)\b/i
const blocked =
  /\b(?:props?|propped|pinned|pin (?:it|the|through)|its pin|blocks?|blocked|cribs?|cribbing|struts?|stands|chained|chocks?|chocked|(?:safety|lock|locking) bars?|wedged?|clamped)\b/i

/** Switched off is not held: what hangs falls, and what is out of balance turns. */
export const partNotBlocked: Check = {
  name: 'lockout/part-not-blocked',
  severity: 'warning',
  title: 'A part is raised or can turn by its own weight, and nothing in the job blocks it.',
  rules: ['LO-14', 'LO-15'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    if (blocked.test(wordsOfJob(procedure))) return
    for (const { step } of everyWrittenStep(procedure)) {
      const part = (raised.exec(step.text.plain) ?? freeToMove.exec(step.text.plain))?.[1]
      if (part === undefined) continue
      yield {
        at: step.at,
        message: `Step ${step.number} leaves the ${part.toLowerCase()} where its weight can move it, and no step props, pins or blocks it.`,
        advice:
          'Lower it before anybody works at it, or add a step that blocks it by something that does not yield, and a hold that proves it.',
      }
      return
    }
  },
}
