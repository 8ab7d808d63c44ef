import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { heavyFault } from '../handled-loads.ts'
import { loadsOf } from '../loads.ts'

/** Above a lifting index of 3 nearly everyone is at risk; outside the equation no weight is right. */
export const tooHeavyByHand: Check = {
  name: 'handling/too-heavy',
  severity: 'warning',
  title: 'A lift by hand puts nearly everyone at risk (lifting index above 3, or outside the equation).',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const study of loadsOf(procedure).handlings) yield* heavyFault(study, 'too heavy')
  },
}
