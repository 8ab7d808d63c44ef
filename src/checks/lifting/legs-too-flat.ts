import type { Fault } from '../../findings/finding.ts'
import { shown } from '../../model/passes/worked-figures.ts'
import { turns } from '../../trade/lifting/leg-inputs.ts'
import { judgeAngle } from '../../trade/lifting/sling-angle.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** At 30° each of two legs pulls as much as the whole load; below that the pull runs away. */
export const legsTooFlat: Check = {
  name: 'lifting/legs-too-flat',
  severity: 'error',
  title: 'Sling legs stand flatter than 30° from horizontal.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, flattest, legs } of loadsOf(procedure).lifts) {
      if (flattest === null || judgeAngle(flattest) !== 'not allowed') continue
      yield {
        at: block.at,
        message: `The legs of "${block.name}" stand at ${shown(turns(flattest), '°', 3, 'down')} from horizontal (${legs.lean?.by ?? ''}), flatter than 30°.`,
        advice: 'Use longer slings or a spreader beam, so that no leg stands flatter than 30°, better 45°.',
      }
    }
  },
}
