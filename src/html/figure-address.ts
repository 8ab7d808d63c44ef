import type { StepFile } from '../step-file/step-file.ts'
import { base64 } from './base64.ts'

type FigureSheet = StepFile['figures'][number]

/** A figure as a `data:` address for an `<img>`, where no script of an SVG runs and nothing it names is loaded. */
export function figureAddress({ mediaType, content }: FigureSheet): string {
  if (mediaType !== 'image/svg+xml') return `data:${mediaType};base64,${content.replace(/[^A-Za-z0-9+/=]/g, '')}`
  return `data:image/svg+xml;base64,${base64(new TextEncoder().encode(content))}`
}

/** The figure that prose names by the path as typed: paths of figures are relative to the library. */
export function findFigure(stepFile: StepFile, typed: string): FigureSheet | null {
  const wanted = typed.replace(/^\.\//, '')
  return (
    stepFile.figures.find(({ file }) => file === wanted) ??
    stepFile.figures.find(({ file }) => file.endsWith(`/${wanted}`)) ??
    null
  )
}
