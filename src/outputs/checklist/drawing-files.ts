import { type DocumentDrawing, documentDrawings } from '../../drawings/document-drawings.ts'
import { stepDrawings } from '../../drawings/step-drawings.ts'
import type { Drawing } from '../../drawings/svg.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { oncePer } from '../../text/once-per.ts'
import { allSteps } from '../../wording/step-file-parts.ts'
import { pictureLetters } from './picture-letters.ts'
import type { FigureBlock } from './sheet-parts.ts'

/** Drawings made from the data, as files of the print and as figures that name them. */

interface DrawingFile {
  readonly path: string
  readonly pictureName: string
  readonly text: string
}

const drawnPlan = oncePer(documentDrawings)

const drawnSteps = oncePer((stepFile: StepFile) =>
  stepFile.phases
    .flatMap(({ steps }) => allSteps(steps))
    .map((step) => ({ step, drawings: stepDrawings(step, stepFile) })),
)

const pathOf = ({ id }: Drawing): string => `drawings/${id}.svg`

export function drawingFiles(stepFile: StepFile): readonly DrawingFile[] {
  const fileOf = (drawing: Drawing, where: string): DrawingFile => ({
    path: pathOf(drawing),
    pictureName: `${drawing.title} (${where})`,
    text: drawing.svg,
  })
  return [
    ...drawnPlan(stepFile).map((drawing) => fileOf(drawing, 'drawn for the plan')),
    ...drawnSteps(stepFile).flatMap(({ step, drawings }) =>
      drawings.map((drawing) => fileOf(drawing, `drawn for step ${step.number}`)),
    ),
  ]
}

/** By step id. */
export function figuresOfSteps(stepFile: StepFile): ReadonlyMap<string, readonly FigureBlock[]> {
  return new Map(drawnSteps(stepFile).map(({ step, drawings }) => [step.id, drawings.map(figureOf)]))
}

export function figuresOfPlan(stepFile: StepFile, of: DocumentDrawing['of']): readonly FigureBlock[] {
  return drawnPlan(stepFile)
    .filter((drawing) => drawing.of === of)
    .map(figureOf)
}

function figureOf(drawing: Drawing): FigureBlock {
  const { title, says, svg } = drawing
  return { kind: 'figure', path: pathOf(drawing), alt: says, caption: title, ...pictureLetters(svg) }
}
