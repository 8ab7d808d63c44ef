import type { Phase, Step } from '../procedure.ts'
import type { Resources } from '../resources.ts'
import type { Working } from '../working.ts'
import { workOutHandling } from './work-out-handle.ts'
import { workOutLifts } from './work-out-lift.ts'
import { workOutSupports } from './work-out-support.ts'
import { workOutTorques } from './work-out-torque.ts'

/** The figures of one topic that a step's block gives enough to work out; nothing is claimed where it does not. */
export type WorkOut = (step: Step, resources: Resources) => readonly Working[]

/** One a topic, in the order they are shown. */
const topics: readonly WorkOut[] = [workOutTorques, workOutLifts, workOutSupports, workOutHandling]

/** Gives every step the figures that can be worked out for it, with how. */
export function workOutFigures(phases: readonly Phase[], resources: Resources): readonly Phase[] {
  const worked = (step: Step): Step => ({
    ...step,
    workings: topics.flatMap((workOut) => workOut(step, resources)),
    steps: step.steps.map(worked),
  })
  return phases.map((phase) => ({ ...phase, steps: phase.steps.map(worked) }))
}
