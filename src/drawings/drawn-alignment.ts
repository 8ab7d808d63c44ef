import { inWords } from '../wording/state-text.ts'
import type { StepSheet } from '../wording/step-file-parts.ts'
import { alignmentDrawing } from './alignment-plan.ts'
import { namedFields } from './named-fields.ts'
import { type Drawing, drawingId } from './svg.ts'

/** Every `align` of a step as a drawing. */
export function alignmentDrawings(step: StepSheet): readonly Drawing[] {
  return namedFields(step, 'align').flatMap(({ name, fields }) => {
    const typed = (field: string): string | null => {
      const value = fields[field]
      return typeof value === 'string' ? value : null
    }
    const [method, toFront, toRear] = [typed('method'), typed('to-front'), typed('to-rear')]
    if ((method !== 'reverse-dial' && method !== 'rim-and-face') || toFront === null || toRear === null) return []
    return [
      alignmentDrawing({
        id: drawingId('align', `${step.id}/${name}`),
        moved: inWords(name),
        fixed: typed('fixed') ?? 'other machine',
        method,
        apart: typed('apart'),
        circle: typed('circle'),
        toFront,
        toRear,
        sag: typed('sag'),
        targetFront: typed('target-front'),
        targetRear: typed('target-rear'),
      }),
    ]
  })
}
