import { type DocumentDrawing, documentDrawings } from '../../drawings/document-drawings.ts'
import { stepDrawings } from '../../drawings/step-drawings.ts'
import type { Drawing } from '../../drawings/svg.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { allSteps } from '../../wording/step-file-parts.ts'
import { pictureLetters } from './picture-letters.ts'
import type { FigureBlock } from './sheet.ts'

/** Drawings made from the data, as files of the print and as figures that name them. */

export interface DrawingFile {
  readonly path: string
  readonly pictureName: string
  readonly text: string
}

const pathOf = ({ id }: Drawing): string => `drawings/${id}.svg`

export function drawingFiles(stepFile: StepFile): readonly DrawingFile[] {
  const ofSteps = stepsOf(stepFile).flatMap((step) =>
    stepDrawings(step, stepFile).map((drawing) => fileOf(drawing, `drawn for step ${step.number}`)),
  )
  return [...documentDrawings(stepFile).map((drawing) => fileOf(drawing, 'drawn for the plan')), ...ofSteps]
}

function fileOf(drawing: Drawing, where: string): DrawingFile {
  return { path: pathOf(drawing), pictureName: `${drawing.title} (${where})`, text: drawing.svg }
}

/** By step id. */
export function figuresOfSteps(stepFile: StepFile): ReadonlyMap<string, readonly FigureBlock[]> {
  return new Map(
    stepsOf(stepFile).map((step) => [step.id, stepDrawings(step, stepFile).map((drawing) => figureOf(drawing))]),
  )
}

export function figuresOfPlan(stepFile: StepFile, of: DocumentDrawing['of']): readonly FigureBlock[] {
  return documentDrawings(stepFile)
    .filter((drawing) => drawing.of === of)
    .map((drawing) => figureOf(drawing))
}

function figureOf(drawing: Drawing): FigureBlock {
  const { title, says, svg } = drawing
  return { kind: 'figure', path: pathOf(drawing), alt: says, caption: title, ...pictureLetters(svg) }
}

function stepsOf({ phases }: StepFile) {
  return phases.flatMap(({ steps }) => allSteps(steps))
}
