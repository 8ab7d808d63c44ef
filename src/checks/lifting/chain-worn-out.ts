import type { Fault } from '../../findings/finding.ts'
import { inPercent } from '../../model/loads/load-data.ts'
import { shownNumber } from '../../model/passes/worked-figures.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** The thinnest link carries what all others carry. */
export const chainWornOut: Check = {
  name: 'lifting/chain-worn-out',
  severity: 'warning',
  title: 'A load hangs on a chain whose thinnest link is worn out, or whose figures cannot be right.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, train } of loadsOf(procedure).lifts) {
      for (const { carrier, wear } of train) {
        if (wear === null || (wear.share !== null && !wear.isOut)) continue
        yield {
          at: block.at,
          message:
            wear.share === null
              ? `"${block.name}" hangs on the ${carrier.name}, whose links are ${wear.link} when new and ${wear.worn} where they are worn: that cannot be.`
              : `"${block.name}" hangs on the ${carrier.name}, whose thinnest link has ${wear.worn} left of ${wear.link}: ${shownNumber(inPercent(wear.share), 3, 'up')} % are worn off, and 10 % are the end.`,
          advice:
            wear.share === null
              ? 'Measure again and correct the gear list.'
              : 'Take the chain out of use, and lift with another.',
        }
      }
    }
  },
}
