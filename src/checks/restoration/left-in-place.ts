import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { leftOpen } from '../counted-things.ts'

/** A clamp, plug or jumper that was put on for the work and is still there when the machine starts. */
export const leftInPlace: Check = {
  name: 'restoration/left-in-place',
  severity: 'error',
  title: 'Something is put on for the work that no step takes off.',
  rules: ['RC-02', 'RC-04'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { id, at, remaining } of leftOpen(procedure, 'putsOn', 'takesOff')) {
      yield {
        at,
        message:
          remaining === null
            ? `"${id}" is put on, and no step takes it off.`
            : `More "${id}" are put on than taken off: ${remaining} would stay on the machine.`,
        advice: `Add it to the step that takes it off: takes-off: [${id}]`,
      }
    }
  },
}
