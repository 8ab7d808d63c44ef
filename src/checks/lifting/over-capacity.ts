import type { Fault } from '../../findings/finding.ts'
import { percentOf } from '../../model/passes/work-out-lift.ts'
import { shown } from '../../model/passes/worked-figures.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** What carries must be rated for what it has to take: the most that the load may weigh, with jerk, along the pull of its leg. */
export const liftOverCapacity: Check = {
  name: 'lifting/over-capacity',
  severity: 'error',
  title: 'A lift asks more of a crane, sling or fitting than its capacity.',
  rules: ['LI-02'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, weight, train } of loadsOf(procedure).lifts) {
      for (const { carrier, takes, pull, rating, because, used } of train) {
        if (weight === null || pull === null || rating === null || used === null) continue
        if (used.numerator <= used.denominator) continue
        const most = shown(pull, weight.unit, 4, 'up')
        const here = because === null ? '' : `, here ${shown(rating, weight.unit, 4, 'down')} (${because})`
        const asked = takes === 'leg' ? `each leg pulls up to ${most}` : `up to ${most} hang on it`
        yield {
          at: block.at,
          message: `"${block.name}" is too heavy for the ${carrier.name}: ${asked}, and its capacity is ${carrier.capacityTyped}${here}. That is ${percentOf(used)}.`,
          advice:
            takes === 'leg' || because?.includes('its tag') === true
              ? 'Take gear with more capacity, stand the legs steeper, or correct the figures.'
              : 'Take gear with more capacity, or correct the figures.',
        }
      }
    }
  },
}
