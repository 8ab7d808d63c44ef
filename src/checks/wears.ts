import type { Procedure, Step } from '../model/procedure.ts'
import { type WearStudy, wearsOf } from '../model/wear/wear-study.ts'
import { everyStep, everyWrittenStep } from './every-step.ts'

interface WornPart {
  readonly study: WearStudy
  readonly step: Step
}

/** Everything under `wear`, each once however often its step is repeated. */
export function everyWear(procedure: Procedure): readonly WornPart[] {
  const readings = everyStep(procedure).flatMap(({ step }) => step.readings)
  return everyWrittenStep(procedure).flatMap(({ step }) =>
    wearsOf(step, readings, procedure.tables).map((study) => ({ study, step })),
  )
}
