import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyHotWork } from '../hot-works.ts'

/** Whoever looks through a welding glass sees no fire. */
export const watchMissing: Check = {
  name: 'hot-work/watch-missing',
  severity: 'error',
  title: 'Nobody watches for fire during hot work.',
  rules: ['HW-04'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { where, watches, at } of everyHotWork(procedure)) {
      if (watches.length > 0) continue
      yield {
        at,
        message: `${where} is hot work, and nobody watches for fire.`,
        advice: 'Name a role that does nothing else: watch: { by: second, for: min 60 min }',
      }
    }
  },
}
