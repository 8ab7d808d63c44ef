import { type Finding, found } from '../../findings/finding.ts'
import type { LibraryReader } from '../../library/library-reader.ts'
import type { Prose } from '../../syntax/prose.ts'
import { figureMissing, figureRefused } from '../faults/faults.ts'
import type { Figure, Phase, Step } from '../procedure.ts'

const MEDIA_TYPES: Readonly<Record<string, Figure['mediaType']>> = {
  svg: 'image/svg+xml',
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
}

export interface WithFigures {
  readonly purpose: readonly Prose[]
  readonly phases: readonly Phase[]
  readonly figures: readonly Figure[]
}

/** Reads every figure once and turns its path into one from the library's root. */
export function collectFigures(
  purpose: readonly Prose[],
  phases: readonly Phase[],
  library: LibraryReader,
  findings: Finding[],
): WithFigures {
  const figures = new Map<string, Figure | null>()

  const read = (path: string, figure: Extract<Prose, { kind: 'figure' }>): Figure | null => {
    const mediaType = MEDIA_TYPES[path.slice(path.lastIndexOf('.') + 1).toLowerCase()]
    const report = (because: string, advice: string, kind = figureRefused): null => {
      if (figure.at) findings.push(found(kind, { at: figure.at, message: because, advice }))
      return null
    }
    if (mediaType === undefined)
      return report(
        `The figure "${figure.file}" is no SVG, PNG or JPEG.`,
        'Save the drawing as .svg, or the photo as .jpg or .png.',
      )
    const answer = mediaType === 'image/svg+xml' ? library.readText(path) : library.readBytes(path)
    if (answer.kind === 'missing')
      return report(
        `There is no figure "${figure.file}".`,
        `Put the file at ${path}, or correct its name here.`,
        figureMissing,
      )
    if (answer.kind === 'refused')
      return report(
        `The figure "${figure.file}" is not read: ${answer.because}`,
        'Use a file inside the library, best in `figures/` beside the procedure.',
      )
    const content = answer.kind === 'text' ? answer.text : answer.base64
    return { file: path, alt: figure.alt, caption: figure.caption, mediaType, content }
  }

  const visit = (prose: readonly Prose[]): readonly Prose[] =>
    prose.map((piece): Prose => {
      if (piece.kind === 'list') return { ...piece, items: piece.items.map(visit) }
      if (piece.kind === 'quote') return { ...piece, children: visit(piece.children) }
      if (piece.kind !== 'figure') return piece
      const path = pathFrom(piece.at?.file ?? '', piece.file)
      if (!figures.has(path)) figures.set(path, read(path, piece))
      return { ...piece, file: path }
    })
  const visitStep = (step: Step): Step => ({ ...step, details: visit(step.details), steps: step.steps.map(visitStep) })

  const result = {
    purpose: visit(purpose),
    phases: phases.map((phase) => ({ ...phase, prose: visit(phase.prose), steps: phase.steps.map(visitStep) })),
  }
  return { ...result, figures: [...figures.values()].filter((figure) => figure !== null) }
}

/** `figures/a.svg` written in `procedures/hub/hub.md` → `procedures/hub/figures/a.svg`; `..` stays for the door to refuse. */
export function pathFrom(writtenIn: string, typed: string): string {
  if (typed.startsWith('/') || /^[a-z]+:/i.test(typed)) return typed
  const folder = writtenIn.includes('/') ? writtenIn.slice(0, writtenIn.lastIndexOf('/') + 1) : ''
  const parts: string[] = []
  for (const part of (folder + typed).split('/')) {
    if (part === '.' || part === '') continue
    if (part === '..' && parts.length > 0 && parts.at(-1) !== '..') parts.pop()
    else parts.push(part)
  }
  return parts.join('/')
}
