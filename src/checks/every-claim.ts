import type { Consequence } from '../model/outcomes.ts'
import type { Procedure } from '../model/procedure.ts'
import type { Claim } from '../model/states.ts'
import { everyStep } from './every-step.ts'

/** Everything that says a state has, gets or must have a value, wherever the author wrote it. */
export function everyClaim(procedure: Procedure): readonly Claim[] {
  return [
    ...procedure.states.flatMap((state) => state.heldBy.flat()),
    ...procedure.zones.flatMap((zone) => zone.safeWhen),
    ...procedure.never.flatMap((never) => never.when),
    ...procedure.phases.flatMap((phase) => (phase.until?.otherwise ? leftIn(phase.until.otherwise) : [])),
    ...everyStep(procedure).flatMap(({ step }) => [
      ...step.needs,
      ...step.sets,
      ...step.proves,
      ...step.consequences.flatMap(leftIn),
    ]),
  ]
}

function leftIn(consequence: Consequence): readonly Claim[] {
  return [...consequence.leave, ...(consequence.then ? leftIn(consequence.then) : [])]
}
