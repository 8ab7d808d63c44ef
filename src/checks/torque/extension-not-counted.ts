import type { Fault } from '../../findings/finding.ts'
import { factOf } from '../../model/passes/torque-facts.ts'
import { extensionOf } from '../../model/passes/torque-setting.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'

/** With 150 mm in front of a wrench of 450 mm, a setting of 120 N·m is 160 N·m at the bolt. */
export const extensionNotCounted: Check = {
  name: 'torque/extension-not-counted',
  severity: 'warning',
  title: 'An extension lengthens the wrench, and nothing says by how much its setting changes.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) {
      for (const torque of step.torques) {
        const extension = factOf(torque, 'extension')
        if (extension === null || extensionOf(torque) !== null) continue
        const length = factOf(torque, 'wrench length')
        yield {
          at: torque.at,
          message:
            length === null
              ? `"${torque.name}" is tightened with an extension of ${extension}, but the length of the wrench is not given: nobody can tell what to set.`
              : `"${torque.name}" has an extension of ${extension} on a wrench of ${length}: no setting comes of that.`,
          advice:
            'Add wrench-length 450 mm (drive to middle of the grip), and extension-angle where it is not straight ahead. A bar between drive and socket lengthens nothing: list it under uses.',
        }
      }
    }
  },
}
