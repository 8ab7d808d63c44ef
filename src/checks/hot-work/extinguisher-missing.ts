import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { listIn } from '../entry-data.ts'
import { everyHotWork } from '../hot-works.ts'

/** A fire is small for a minute: what puts it out stands beside the work, not at the door. */
export const extinguisherMissing: Check = {
  name: 'hot-work/extinguisher-missing',
  severity: 'error',
  title: 'Hot work names nothing to put a fire out with.',
  rules: ['HW-03'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { where, data, words, at } of everyHotWork(procedure)) {
      if (listIn(data, 'extinguisher').length > 0 || /\b(?:extinguisher|fire hose)\b/i.test(words)) continue
      yield {
        at,
        message: `${where} is hot work, and nothing stands ready to put a fire out.`,
        advice: 'Name it: extinguisher: [powder-9kg], and list it under tools.',
      }
    }
  },
}
