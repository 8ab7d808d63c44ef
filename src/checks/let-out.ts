import type { Phase, Procedure, Step } from '../model/procedure.ts'
import { type StoredStudy, storedOf } from '../model/stored-energy/stored-study.ts'
import { everyStep, everyWrittenStep } from './every-step.ts'

/** What a step lets out, as its `pressure` tells it. */
interface LetOut {
  readonly study: StoredStudy
  readonly step: Step
  readonly phase: Phase
}

/** Everything under `pressure`, each once however often its step is repeated. */
export function everyLetOut(procedure: Procedure): readonly LetOut[] {
  const readings = everyStep(procedure).flatMap(({ step }) => step.readings)
  return everyWrittenStep(procedure).flatMap(({ step, phase }) =>
    storedOf(step, readings).map((study) => ({ study, step, phase })),
  )
}
