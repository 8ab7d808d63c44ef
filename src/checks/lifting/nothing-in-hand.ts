import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** A capacity that the load just reaches leaves nothing for what was not thought of: mud, oil left in, the weight of the gear itself. */
export const nothingInHand: Check = {
  name: 'lifting/nothing-in-hand',
  severity: 'warning',
  title: 'A lift uses the whole capacity of a crane, sling, fitting or stand, with nothing in hand.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const { lifts, supports } = loadsOf(procedure)
    const uses = [
      ...lifts.flatMap(({ block, train }) => train.map(({ carrier, used }) => ({ block, carrier, used }))),
      ...supports.flatMap(({ block, items }) => items.map(({ carrier, used }) => ({ block, carrier, used }))),
    ]
    for (const { block, carrier, used } of uses) {
      if (used === null || used.numerator !== used.denominator) continue
      yield {
        at: block.at,
        message: `"${block.name}" may ask exactly ${carrier.capacityTyped} of the ${carrier.name}, all that it is rated for.`,
        advice: 'Take gear with more capacity: what hangs below the hook, dirt and jerk come on top.',
      }
    }
  },
}
