import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { leftOpen } from '../counted-things.ts'

/** A guard, cover or bolt comes off and never goes back on. */
export const partNotRefitted: Check = {
  name: 'restoration/part-not-refitted',
  severity: 'error',
  title: 'Something is removed that no step refits.',
  rules: ['RC-02', 'RC-03', 'RC-04'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { id, at, remaining } of leftOpen(procedure, 'removes', 'refits')) {
      yield {
        at,
        message:
          remaining === null
            ? `"${id}" is removed, and no step refits it.`
            : `More "${id}" are removed than refitted: ${remaining} would be left over.`,
        advice: `Add it to the step that puts it back: refits: [${id}]`,
      }
    }
  },
}
