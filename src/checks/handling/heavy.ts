import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { heavyFault } from '../handled-loads.ts'
import { loadsOf } from '../loads.ts'

/** Above a lifting index of 1 some people are at risk: the lift is to be made easier where it can be. */
export const heavyByHand: Check = {
  name: 'handling/heavy',
  severity: 'advice',
  title: 'A lift by hand is above what most people can do without harm (lifting index above 1).',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const study of loadsOf(procedure).handlings) yield* heavyFault(study, 'heavy')
  },
}
