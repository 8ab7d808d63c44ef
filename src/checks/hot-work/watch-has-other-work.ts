import type { Fault } from '../../findings/finding.ts'
import type { Procedure } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyHotWork } from '../hot-works.ts'

/** The one who watches for fire does nothing else while it burns. */
export const watchHasOtherWork: Check = {
  name: 'hot-work/watch-has-other-work',
  severity: 'error',
  title: 'Whoever watches for fire also does the hot work.',
  rules: ['HW-04'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { where, watches, doers, at } of everyHotWork(procedure)) {
      const [first] = watches
      if (first === undefined || watches.some((role) => !doers.includes(role) && !isSamePerson(role, doers, procedure)))
        continue
      yield {
        at,
        message: `${where} is done by ${doers.join(' and ')}, and ${watches.join(' and ')} watches for fire: the watch has no other work.`,
        advice: `Give the watch to a role that does not act here, or write who does the hot work before the step: **Fitter:** …`,
      }
    }
  },
}

/** Two names of one post: the watch is described in the same words as the doer. */
function isSamePerson(role: string, doers: readonly string[], { roles }: Procedure): boolean {
  const who = (id: string) => roles.find((known) => known.id === id)?.who.toLowerCase()
  const watcher = who(role)
  return watcher !== undefined && watcher !== '' && doers.some((doer) => who(doer) === watcher)
}
