import type { Fault } from '../../findings/finding.ts'
import { type Round, roundsIn } from '../../model/passes/torque-facts.ts'
import { compare } from '../../quantities/rational.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'

/** A wrench set lower than the bolt is tight clicks at once and does nothing. */
export const releaseMissing: Check = {
  name: 'torque/release-missing',
  severity: 'warning',
  title: 'A round asks for less than the one before it, and nothing is loosened between them.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) {
      for (const torque of step.torques) {
        const fall = firstFall(roundsIn(torque))
        if (fall === null) continue
        yield {
          at: torque.at,
          message: `The rounds of "${torque.name}" go from ${fall.from} down to ${fall.to}, and nothing is loosened between them: the wrench clicks and no bolt turns.`,
          advice: `Type release between them, such as [${fall.from}, release, ${fall.to}], or put the rounds in rising order.`,
        }
      }
    }
  },
}

function firstFall(rounds: readonly Round[]): { readonly from: string; readonly to: string } | null {
  for (const [index, round] of rounds.entries()) {
    const before = rounds[index - 1]
    if (!before || before.share === null || round.share === null) continue
    if (compare(round.share, before.share) < 0) return { from: before.says, to: round.says }
  }
  return null
}
