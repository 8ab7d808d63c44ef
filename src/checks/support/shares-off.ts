import type { Fault } from '../../findings/finding.ts'
import { inPercent } from '../../model/loads/load-data.ts'
import { shownNumber } from '../../model/passes/worked-figures.ts'
import { absolute, compare, one, rational, subtract } from '../../quantities/rational.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** A part of the weight that stands on nothing is a part that was forgotten. */
export const sharesOff: Check = {
  name: 'support/shares-off',
  severity: 'warning',
  title: 'The shares of a support are not one for each, or do not add up to 100 %.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, items, sharesTyped, sum } of loadsOf(procedure).supports) {
      if (sharesTyped.length === 0) continue
      if (sharesTyped.length !== items.length) {
        yield {
          at: block.at,
          message: `"${block.name}" stands on ${things(items.length)}, and there ${sharesTyped.length === 1 ? 'is 1 share' : `are ${sharesTyped.length} shares`}.`,
          advice: 'Write one share for each, in the same order: `on stand-left stand-right, share 55 45 %`.',
        }
        continue
      }
      // Whole per cents may be rounded: half of one for each.
      if (sum === null || compare(absolute(subtract(sum, one)), rational(items.length, 200)) <= 0) continue
      yield {
        at: block.at,
        message: `The shares of "${block.name}" add up to ${shownNumber(inPercent(sum), 4)} %.`,
        advice: 'Correct them so that they add up to 100 %: each carries its part, and nothing hangs in the air.',
      }
    }
  },
}

function things(count: number): string {
  return count === 1 ? '1 thing' : `${count} things`
}
