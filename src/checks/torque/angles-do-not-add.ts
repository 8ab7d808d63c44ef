import type { Fault } from '../../findings/finding.ts'
import { factOf } from '../../model/passes/torque-facts.ts'
import { angleSteps, sumOfAngles } from '../../model/passes/work-out-torque.ts'
import { inBase, shown } from '../../model/passes/worked-figures.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import { compare } from '../../quantities/rational.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'

/** Three turns of 45° and one of 30° are 165°, not 160°: one of them is a misprint, and the bolt gets it. */
export const anglesDoNotAdd: Check = {
  name: 'torque/angles-do-not-add',
  severity: 'error',
  title: 'The angles of a torque do not add up to the sum that is written.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) {
      for (const torque of step.torques) {
        const angles = angleSteps(torque)
        const stated = factOf(torque, 'angle sum')
        if (angles === null || stated === null) continue
        const sum = sumOfAngles(angles)
        if (holds(sum, stated)) continue
        yield {
          at: torque.at,
          message: `"${torque.name}" is turned by ${factOf(torque, 'then angle')}, which is ${shown(sum, '°', 4)} in all, but the sum is given as ${stated}.`,
          advice: 'Correct the angles or the sum.',
        }
      }
    }
  },
}

/** Whether a sum in turns lies in the limit as typed; what cannot be read is told elsewhere. */
function holds(sum: Rational, stated: string): boolean {
  const limit = parseLimit(stated)
  if (!limit.ok || limit.value.kind !== 'angle') return true
  const { lower, upper, aim, unit } = limit.value
  const side = (value: Rational) => compare(sum, inBase(value, unit))
  if (lower === null && upper === null) return aim === null || side(aim) === 0
  return (lower === null || side(lower.value) >= 0) && (upper === null || side(upper.value) <= 0)
}
