import type { Fault } from '../../findings/finding.ts'
import { textOf } from '../../model/loads/load-data.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** A web sling on a hot casting looks sound until it lets go. */
export const slingTooHot: Check = {
  name: 'lifting/too-hot',
  severity: 'warning',
  title: 'A sling is used hotter or colder than it may be.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, train } of loadsOf(procedure).lifts) {
      for (const { carrier, refused } of train) {
        if (refused === null) continue
        yield {
          at: block.at,
          message: `"${block.name}" is lifted at ${textOf(block, 'temperature')} with the ${carrier.name}: ${refused}.`,
          advice: 'Let the load cool down, or take a sling that may be used so: alloy chain as its maker allows.',
        }
      }
    }
  },
}
