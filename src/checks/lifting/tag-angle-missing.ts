import type { Fault } from '../../findings/finding.ts'
import { isTagMissing } from '../../model/loads/lift-study.ts'
import { shown } from '../../model/passes/worked-figures.ts'
import { turns } from '../../trade/lifting/leg-inputs.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** The capacity on the tag of a sling with several legs is for one angle: flatter legs pull harder and the sling lifts less. */
export const tagAngleMissing: Check = {
  name: 'lifting/tag-angle-missing',
  severity: 'warning',
  title: 'A sling of several legs hangs flatter than 60°, and the angle that its tag is for is not told.',
  rules: ['LI-02'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, flattest, train } of loadsOf(procedure).lifts) {
      for (const { carrier, tag } of train) {
        if (flattest === null || !isTagMissing(tag, flattest) || carrier.capacity === null) continue
        const name = carrier.name.split(',')[0]
        const what =
          tag === null || tag.typed === null
            ? 'nobody says which angle its tag is for'
            : `its rated-at "${tag.typed}" does not say an angle and what it is measured from`
        yield {
          at: block.at,
          message: `"${block.name}" hangs on the ${name} with legs at ${shown(turns(flattest), '°', 3, 'down')} from horizontal, and ${what}. Its ${carrier.capacityTyped} may not hold here.`,
          advice: `Read the tag and write it with the gear: ${carrier.id}: { rated-at: 60° from horizontal }.`,
        }
      }
    }
  },
}
