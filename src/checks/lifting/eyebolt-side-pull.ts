import type { Fault } from '../../findings/finding.ts'
import { eyeboltOf } from '../../model/loads/lift-study.ts'
import { shown } from '../../model/passes/worked-figures.ts'
import { rational, subtract } from '../../quantities/rational.ts'
import { percentAtAngle } from '../../trade/lifting/hardware.ts'
import { turns } from '../../trade/lifting/leg-inputs.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** A plain eyebolt is made for a pull along its shank; pulled aside it bends and breaks. */
export const eyeboltSidePull: Check = {
  name: 'lifting/eyebolt-side-pull',
  severity: 'warning',
  title: 'An eyebolt that is not said to have a shoulder is pulled at an angle.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, train, flattest, legs } of loadsOf(procedure).lifts) {
      if (flattest === null || legs.count < 2) continue
      const lean = subtract(rational(90), flattest)
      if (percentAtAngle(lean, 'plain-eyebolt').ok) continue
      for (const { carrier } of train) {
        if (eyeboltOf(`${carrier.id} ${carrier.name}`) !== 'plain') continue
        yield {
          at: block.at,
          message: `The legs of "${block.name}" pull the ${carrier.name} at ${shown(turns(lean), '°', 3)} from upright, and nothing says that it has a shoulder.`,
          advice:
            'Take swivel hoist rings, or shouldered eyebolts screwed home and turned into the pull, and say so in their name.',
        }
      }
    }
  },
}
