import type { Fault } from '../../findings/finding.ts'
import { factOf } from '../../model/passes/torque-facts.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'

/** "max 80 N·m" is kept by a bolt that was never tightened; "min 80 N·m" by one that is about to break. */
export const oneSided: Check = {
  name: 'torque/one-sided',
  severity: 'warning',
  title: 'A torque has a lower or an upper end only.',
  rules: ['NU-20'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) {
      for (const torque of step.torques) {
        const { lower, upper, kind, typed } = torque.limit
        if (kind !== 'torque' || (lower === null) === (upper === null)) continue
        // Where a part is turned meanwhile, or an angle follows, that is what ends the tightening.
        if (factOf(torque, 'turning') !== null || factOf(torque, 'then angle') !== null) continue
        const kept = lower === null ? 'A loose bolt keeps that.' : 'A bolt that is overtightened keeps that.'
        yield {
          at: torque.at,
          message: `"${torque.name}" asks for ${typed} and has no ${lower === null ? 'lower' : 'upper'} end. ${kept}`,
          advice: 'Type both ends, such as 72 to 88 N·m or 80 N·m ± 10 %.',
        }
      }
    }
  },
}
