import type { Fault } from '../../findings/finding.ts'
import { factOf, roundsIn } from '../../model/passes/torque-facts.ts'
import { compare, one } from '../../quantities/rational.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'

/** Rounds of 30 and 60 % and no more leave every bolt at 60 %. */
export const roundsEndShort: Check = {
  name: 'torque/rounds-end-short',
  severity: 'error',
  title: 'The rounds of a torque end below the torque.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const steps = everyWrittenStep(procedure).map(({ step }) => step)
    const names = steps.flatMap((step) => [...new Set(step.torques.map(({ name }) => name))])
    for (const step of steps) {
      for (const torque of step.torques) {
        // Tightened again elsewhere under the same name, or turned on by an angle: this is not the end of it.
        if (names.filter((name) => name === torque.name).length > 1) continue
        if (factOf(torque, 'then angle') !== null) continue
        const last = roundsIn(torque)
          .filter(({ isRelease }) => !isRelease)
          .at(-1)
        if (!last || last.share === null || compare(last.share, one) >= 0) continue
        yield {
          at: torque.at,
          message: `The last round of "${torque.name}" is ${last.says}, so nothing is ever tightened to ${torque.limit.typed}.`,
          advice: 'End the passes with 100 %, such as passes 30 60 100 %, or correct the torque.',
        }
      }
    }
  },
}
