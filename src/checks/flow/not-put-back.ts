import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { leftOpen } from '../counted-things.ts'
import { told } from '../from-flow.ts'

/** The machine is given back as it shall be, on every way: states, parts, guards, clamps, and all of each that is counted. */
export const notPutBack: Check = {
  name: 'flow/not-put-back',
  severity: 'error',
  title: 'On some way the work ends with something not as it shall be.',
  rules: ['RC-01', 'RC-02', 'RC-04'],

  *run({ procedure, flow }: CheckSubject): Iterable<Fault> {
    for (const fault of flow?.faults ?? []) if (fault.fault === 'not-put-back') yield told(fault)
    for (const { id, at, remaining } of leftOpen(procedure, 'removes', 'refits')) {
      if (remaining === null) continue
      yield {
        at,
        message: `More "${id}" are removed than refitted: ${remaining} would be left over.`,
        advice: `Put all of them back: refits: [${id}]`,
      }
    }
    for (const { id, at, remaining } of leftOpen(procedure, 'putsOn', 'takesOff')) {
      if (remaining === null) continue
      yield {
        at,
        message: `More "${id}" are put on than taken off: ${remaining} would stay on the machine.`,
        advice: `Take all of them off: takes-off: [${id}]`,
      }
    }
  },
}
