import type { StepFile } from '../step-file/step-file.ts'
import { flowChart } from './flow-chart.ts'
import { scheduleChart } from './schedule-chart.ts'
import { stateTimeline } from './state-timeline.ts'
import type { Drawing } from './svg.ts'

export interface DocumentDrawing extends Drawing {
  readonly of: 'flow' | 'schedule' | 'states'
}

/** What can be drawn of the whole procedure: the way through it, its times, how the equipment stands along the steps. */
export function documentDrawings(stepFile: StepFile): readonly DocumentDrawing[] {
  const schedule = scheduleChart(stepFile)
  return [
    ...flowChart(stepFile).map((drawing): DocumentDrawing => ({ ...drawing, of: 'flow' })),
    ...(schedule === null ? [] : [{ ...schedule, of: 'schedule' as const }]),
    ...stateTimeline(stepFile).map((drawing): DocumentDrawing => ({ ...drawing, of: 'states' })),
  ]
}
