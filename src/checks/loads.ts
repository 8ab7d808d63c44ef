import { type HandleStudy, studyHandle } from '../model/loads/handle-study.ts'
import { type LiftStudy, studyLift } from '../model/loads/lift-study.ts'
import { loadBlocks } from '../model/loads/load-data.ts'
import { type SupportStudy, studySupport } from '../model/loads/support-study.ts'
import type { Procedure } from '../model/procedure.ts'
import { everyWrittenStep } from './every-step.ts'

/** Everything that a document lifts, stands on something or takes in hand, each once however often its step is repeated. */
interface Loads {
  readonly lifts: readonly LiftStudy[]
  readonly supports: readonly SupportStudy[]
  readonly handlings: readonly HandleStudy[]
}

export function loadsOf(procedure: Procedure): Loads {
  const known = loadsKnown.get(procedure)
  if (known !== undefined) return known
  const { resources } = procedure
  const steps = everyWrittenStep(procedure).map(({ step }) => step)
  const loads: Loads = {
    lifts: steps.flatMap((step) => loadBlocks(step, 'lift')).map((block) => studyLift(block, resources)),
    supports: steps.flatMap((step) => loadBlocks(step, 'support')).map((block) => studySupport(block, resources)),
    handlings: steps.flatMap((step) => loadBlocks(step, 'handle')).map((block) => studyHandle(block)),
  }
  loadsKnown.set(procedure, loads)
  return loads
}

/** Asked for by several checks, once for each procedure. */
const loadsKnown = new WeakMap<Procedure, Loads>()
