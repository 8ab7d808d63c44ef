import type { Procedure } from '../model/procedure.ts'
import type { Only } from '../model/variants.ts'
import { type Variants, withSubSteps } from './subjects.ts'

/** Every combination of the variants by which some step, reading or torque is only for one; one empty where none is. */
export function variantsOf(procedure: Procedure): readonly Variants[] {
  const used = new Set(onlysIn(procedure).map((only) => only.variant))
  const variants = procedure.document.variants.filter((variant) => used.has(variant.name) && variant.values.length > 0)
  return variants.reduce<readonly Variants[]>(
    (combinations, variant) =>
      combinations.flatMap((chosen) => variant.values.map((value) => new Map([...chosen, [variant.name, value]]))),
    [new Map()],
  )
}

function onlysIn(procedure: Procedure): readonly Only[] {
  const states = new Set(procedure.states.map((state) => state.name))
  return procedure.phases.flatMap((phase) => [
    ...(phase.only === null ? [] : [phase.only]),
    ...withSubSteps(phase.steps).flatMap((step) =>
      [
        step.only,
        ...step.readings.map((reading) => reading.only),
        // A torque changes something only where the same bolts were snugged.
        ...step.torques.map((torque) => (states.has(torque.name) ? torque.only : null)),
      ].flatMap((only) => only ?? []),
    ),
  ])
}
