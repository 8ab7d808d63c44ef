import type { Fault } from '../../findings/finding.ts'
import { inPercent } from '../../model/loads/load-data.ts'
import { percentOf } from '../../model/passes/work-out-lift.ts'
import { shown, shownNumber } from '../../model/passes/worked-figures.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** Each stand, jack or crib must be rated for its own share of the most that the load may weigh. */
export const supportOverCapacity: Check = {
  name: 'support/over-capacity',
  severity: 'error',
  title: 'A stand, jack or crib gets more weight than its capacity.',
  rules: ['LI-10'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, weight, items } of loadsOf(procedure).supports) {
      for (const { carrier, capacity, share, isEven, carries, used } of items) {
        if (weight === null || carries === null || used === null || used.numerator <= used.denominator) continue
        const part = isEven
          ? `an even share of ${weight.typed}`
          : `${shownNumber(inPercent(share))} % of ${weight.typed}`
        yield {
          at: block.at,
          message: `"${block.name}" is too heavy for "${carrier.id}": ${part} is up to ${shown(carries, weight.unit, 4, 'up')}, and ${capacity === carrier.capacity ? `its capacity is ${carrier.capacityTyped}` : `built so it carries ${shown(capacity ?? carries, weight.unit, 3, 'down')}`}. That is ${percentOf(used)}.`,
          advice: 'Take supports with more capacity, use more of them, or correct the figures.',
        }
      }
    }
  },
}
