import type { StepFile } from '../step-file/step-file.ts'
import { inWords } from '../wording/state-text.ts'
import type { StepSheet, TorqueSheet } from '../wording/step-file-parts.ts'
import { workingsOfTorque } from '../wording/working-text.ts'
import { type BoltPattern, boltPatternDrawing } from './bolt-pattern.ts'
import { alignmentDrawings } from './drawn-alignment.ts'
import { liftDrawings, supportDrawings } from './drawn-loads.ts'
import { type Drawing, drawingId } from './svg.ts'

/** What can be drawn from the data of one step (its sub-steps have their own): nothing where a figure is missing. */
export function stepDrawings(step: StepSheet, stepFile: StepFile): readonly Drawing[] {
  return [
    ...step.torques.flatMap((torque) => torqueDrawing(step, torque) ?? []),
    ...liftDrawings(step, stepFile),
    ...supportDrawings(step, stepFile),
    ...alignmentDrawings(step),
  ]
}

function torqueDrawing(step: StepSheet, torque: TorqueSheet): Drawing | null {
  const order = orderOf(step, torque)
  return (
    order &&
    boltPatternDrawing({
      id: drawingId('torque', `${step.id}/${torque.id}`),
      name: inWords(torque.name),
      layout: layoutOf(torque, order.length),
      order,
      passes: torque.passes.map(({ share, text }) => share ?? text.split(':')[0] ?? text),
    })
  )
}

/**
 * The author's own order where bolts in a circle or rectangle are numbered 1, 2, 3 …; else the one that was worked out. An order over
 * bolts whose places nobody told is not drawn, nor one that has other bolts than the rectangle.
 */
function orderOf(step: StepSheet, torque: TorqueSheet): readonly number[] | null {
  const isRectangle = rectangleText(torque) !== undefined
  const [, shape, order] = /^(?:([a-z]+): )?(\d[\d ]*)$/.exec(torque.pattern ?? '') ?? []
  const typed = isRectangle || (shape !== undefined && ['star', 'cross', 'circle'].includes(shape)) ? order : undefined
  const worked = workingsOfTorque(step, torque)
    .flatMap(({ figures }) => figures)
    .find(({ name }) => name === 'order')?.value
  const numbers = (typed?.split(' ') ?? worked?.split(', '))?.map(Number)
  if (numbers === undefined) return null
  const isWhole = numbers.toSorted((a, b) => a - b).every((bolt, index) => bolt === index + 1)
  const count = /^(\d+)\s*[×x]/.exec(torque.fastener ?? '')?.[1]
  const fits = !isRectangle || layoutOf(torque, numbers.length).kind === 'rectangle'
  return isWhole && fits && (count === undefined || Number(count) === numbers.length) ? numbers : null
}

function layoutOf(torque: TorqueSheet, count: number): BoltPattern['layout'] {
  const [rows, columns] = rectangleText(torque)?.split(/[×x]/).map(Number) ?? []
  return rows && columns && rows * columns === count ? { kind: 'rectangle', rows, columns } : { kind: 'circle' }
}

function rectangleText({ facts }: TorqueSheet): string | undefined {
  return facts.find(({ name }) => name === 'rectangle')?.text
}
