import type { StepFile } from '../../step-file/step-file.ts'
import type { StepSheet } from '../../wording/step-file-parts.ts'
import { pictureLetters } from './picture-letters.ts'
import type { FigureBlock, ProseBlock, Run } from './sheet-parts.ts'

type ProsePart = StepSheet['details'][number]
type InlinePart = StepSheet['text']['inlines'][number]

/** Prose as blocks and runs; a picture becomes the path of its file among the sources of the print. */
export function proseBlocks(prose: readonly ProsePart[], figures: StepFile['figures']): readonly ProseBlock[] {
  return prose.map((part) => proseBlock(part, figures))
}

function proseBlock(part: ProsePart, figures: StepFile['figures']): ProseBlock {
  switch (part.kind) {
    case 'paragraph':
      return { kind: 'paragraph', runs: runsOf(part.children) }
    case 'list':
      return { kind: 'list', ordered: part.ordered, items: part.items.map((item) => proseBlocks(item, figures)) }
    case 'table':
      return {
        kind: 'table',
        head: part.head.map((cell) => runsOf(cell)),
        rows: part.rows.map((row) => row.map((cell) => runsOf(cell))),
      }
    case 'quote':
      return { kind: 'quote', blocks: proseBlocks(part.children, figures) }
    case 'figure':
      return figureBlock(part, figures)
  }
}

function figureBlock(
  part: { readonly file: string; readonly alt: string; readonly caption: string },
  figures: StepFile['figures'],
): FigureBlock {
  const index = figures.findIndex((figure) => figure.file === part.file || figure.file.endsWith(`/${part.file}`))
  const figure = figures[index]
  return {
    kind: 'figure',
    path: figure ? figurePath(index, figure.mediaType) : null,
    alt: part.alt,
    caption: part.caption,
    ...(figure?.mediaType === 'image/svg+xml' ? pictureLetters(figure.content) : { letters: null, across: 1 }),
  }
}

/** Numbered, because an author's file name need not be a path everywhere. */
export function figurePath(index: number, mediaType: StepFile['figures'][number]['mediaType']): string {
  const ending = { 'image/svg+xml': 'svg', 'image/png': 'png', 'image/jpeg': 'jpg' }[mediaType]
  return `figures/${index + 1}.${ending}`
}

export function runsOf(inlines: readonly InlinePart[], style: Run['style'] = 'plain'): readonly Run[] {
  return inlines.flatMap((inline) => runsOfOne(inline, style))
}

function runsOfOne(inline: InlinePart, style: Run['style']): readonly Run[] {
  switch (inline.kind) {
    case 'text':
      return [{ style, text: inline.text }]
    case 'code':
      return [{ style: 'code', text: inline.text }]
    case 'break':
      return [{ style: 'break', text: '' }]
    case 'strong':
      return runsOf(inline.children, 'strong')
    case 'emphasis':
      return runsOf(inline.children, 'emphasis')
    case 'link':
      return [...runsOf(inline.children, style), { style, text: ` (${inline.address})` }]
    case 'reference':
      return inline.children.length === 0
        ? [{ style: 'strong', text: inline.text }]
        : [...runsOf(inline.children, style), { style: 'strong', text: ` ${inline.text}` }]
    case 'value':
      return [{ style: 'strong', text: inline.text }]
  }
}
