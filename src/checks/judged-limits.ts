import type { Procedure } from '../model/procedure.ts'
import type { PrintedLimit } from '../quantities/quantity-types.ts'
import type { Place } from '../text/place.ts'
import { everyWrittenStep } from './every-step.ts'

export interface JudgedLimit {
  readonly name: string
  readonly limit: PrintedLimit
  readonly at: Place
}

/** The limits of readings and torques, each once however often its step is repeated. */
export function everyJudgedLimit(procedure: Procedure): readonly JudgedLimit[] {
  return everyWrittenStep(procedure).flatMap(({ step }) => [
    ...step.torques.map((torque) => ({ name: torque.name, limit: torque.limit, at: torque.at })),
    ...step.readings.flatMap(({ name, limit, at }) => (limit === null ? [] : [{ name, limit, at }])),
  ])
}
