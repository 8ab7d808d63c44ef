import type { Fault } from '../../findings/finding.ts'
import { shown } from '../../model/passes/worked-figures.ts'
import { turns } from '../../trade/lifting/leg-inputs.ts'
import { judgeAngle } from '../../trade/lifting/sling-angle.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** Allowed, but a leg below 45° pulls more than 1.4 times its share. */
export const legsFlat: Check = {
  name: 'lifting/legs-flat',
  severity: 'advice',
  title: 'Sling legs stand flatter than 45° from horizontal.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, flattest, legs } of loadsOf(procedure).lifts) {
      if (flattest === null || judgeAngle(flattest) !== 'steeper is better') continue
      yield {
        at: block.at,
        message: `The legs of "${block.name}" stand at ${shown(turns(flattest), '°', 3)} from horizontal (${legs.lean?.by ?? ''}), flatter than 45°.`,
        advice: 'Use longer slings where there is room: steeper legs pull less.',
      }
    }
  },
}
