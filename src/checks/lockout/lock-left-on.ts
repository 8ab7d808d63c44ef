import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { leftOpen } from '../counted-things.ts'

/** A lock is put on and the procedure never takes it off: someone will cut it, or the machine is handed back locked. */
export const lockLeftOn: Check = {
  name: 'lockout/lock-left-on',
  severity: 'error',
  title: 'A lock is put on that no step takes off.',
  rules: ['LO-11'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { id, at } of leftOpen(procedure, 'locks', 'unlocks')) {
      yield {
        at,
        message: `"${id}" is locked, and no step unlocks it.`,
        advice: `Add it to the step that gives the machine back: unlocks: [${id}]`,
      }
    }
  },
}
