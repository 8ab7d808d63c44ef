import type { Fault } from '../../findings/finding.ts'
import { countOfBolts, rectangleOf } from '../../model/passes/torque-facts.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'

/** Ten bolts do not stand in two rows of four: one of the figures is wrong, and two bolts would have no turn. */
export const rectangleMisfits: Check = {
  name: 'torque/rectangle-misfits',
  severity: 'error',
  title: 'A rectangle of bolts has more or fewer places than bolts are tightened.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) {
      for (const torque of step.torques) {
        const rectangle = rectangleOf(torque)
        const count = countOfBolts(torque)
        if (rectangle === null || count === null) continue
        const { rows, columns } = rectangle
        if (rows * columns === count) continue
        yield {
          at: torque.at,
          message: `"${torque.name}" tightens ${count} in a rectangle ${rows} × ${columns}, which has ${rows * columns} places.`,
          advice:
            'Correct the count or the rectangle; where places are empty, leave the rectangle out and give the order.',
        }
      }
    }
  },
}
