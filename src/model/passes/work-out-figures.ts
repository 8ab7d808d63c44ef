import type { Phase, Step } from '../procedure.ts'
import type { Reading } from '../readings.ts'
import type { Working } from '../working.ts'
import type { AroundFigures } from './around-figures.ts'
import { workOutHandling } from './work-out-handle.ts'
import { workOutHotWork } from './work-out-hot-work.ts'
import { workOutLifts } from './work-out-lift.ts'
import { workOutPressure } from './work-out-pressure.ts'
import { workOutRules } from './work-out-rules.ts'
import { workOutSupports } from './work-out-support.ts'
import { workOutTorques } from './work-out-torque.ts'
import { workOutWear } from './work-out-wear.ts'

/** The figures of one topic that a step's block gives enough to work out; nothing is claimed where it does not. */
export type WorkOut = (step: Step, around: AroundFigures) => readonly Working[]

/** One a topic, in the order they are shown. */
const topics: readonly WorkOut[] = [
  (step) => workOutTorques(step),
  (step, { resources }) => workOutLifts(step, resources),
  (step, { resources }) => workOutSupports(step, resources),
  (step) => workOutHandling(step),
  workOutWear,
  workOutPressure,
  workOutHotWork,
  workOutRules,
]

/** Gives every step the figures that can be worked out for it, with how. */
export function workOutFigures(phases: readonly Phase[], document: Omit<AroundFigures, 'readings'>): readonly Phase[] {
  const around = { ...document, readings: phases.flatMap(({ steps }) => readingsIn(steps)) }
  const worked = (step: Step): Step => ({
    ...step,
    workings: topics.flatMap((workOut) => workOut(step, around)),
    steps: step.steps.map(worked),
  })
  return phases.map((phase) => ({ ...phase, steps: phase.steps.map(worked) }))
}

function readingsIn(steps: readonly Step[]): readonly Reading[] {
  return steps.flatMap((step) => [...step.readings, ...readingsIn(step.steps)])
}
