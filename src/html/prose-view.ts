import type { StepFile } from '../step-file/step-file.ts'

type ProseSheet = StepFile['purpose'][number]
type InlineSheet = StepFile['phases'][number]['steps'][number]['text']['inlines'][number]

/** What prose needs to know of the page it stands in. */
export interface ProseSurroundings {
  /** Anchor on this page of a step or phase that a reference names, or null. */
  readonly anchorOf: (reference: string) => string | null
  /** `data:` address of a figure, by its path as typed, or null where the step file has no such figure. */
  readonly figureSource: (file: string) => string | null
}

/** For `parts/inlines.hbs`: one object a run of text, with exactly one of its names filled. */
export type InlineView = Readonly<Record<string, unknown>>
/** For `parts/prose.hbs`. */
export type ProseView = Readonly<Record<string, unknown>>

export function inlineViews(inlines: readonly InlineSheet[], around: ProseSurroundings): readonly InlineView[] {
  return inlines.flatMap((inline) => inlineView(inline, around))
}

function inlineView(inline: InlineSheet, around: ProseSurroundings): InlineView | readonly InlineView[] {
  switch (inline.kind) {
    case 'text':
    case 'code':
      return { [inline.kind]: inline.text }
    case 'break':
      return { break: true }
    case 'strong':
    case 'emphasis':
      return { [inline.kind]: inlineViews(inline.children, around) }
    case 'link': {
      const children = inlineViews(inline.children, around)
      return isSafeAddress(inline.address) ? { link: { address: inline.address, children } } : children
    }
    case 'reference': {
      const anchor = around.anchorOf(inline.to)
      const words = inlineViews(inline.children, around)
      const number = { text: words.length > 0 && inline.text !== '' ? ` ${inline.text}` : inline.text }
      const children = [...words, number]
      return anchor === null ? children : { reference: { anchor, children } }
    }
    case 'value':
      return { value: inline.text }
  }
}

/** Web and mail only: the parser lets no other through, and nothing else is trusted to have done so. */
function isSafeAddress(address: string): boolean {
  return /^(?:https?:\/\/|mailto:)/i.test(address)
}

export function proseViews(prose: readonly ProseSheet[], around: ProseSurroundings): readonly ProseView[] {
  return prose.map((piece) => proseView(piece, around))
}

function proseView(piece: ProseSheet, around: ProseSurroundings): ProseView {
  switch (piece.kind) {
    case 'paragraph':
      return { paragraph: inlineViews(piece.children, around) }
    case 'list': {
      const items = piece.items.map((item) => proseViews(item, around))
      return piece.ordered ? { ordered: items } : { unordered: items }
    }
    case 'quote':
      return { quote: proseViews(piece.children, around) }
    case 'table':
      return {
        table: {
          head: piece.head.map((cell) => inlineViews(cell, around)),
          rows: piece.rows.map((row) => row.map((cell) => inlineViews(cell, around))),
        },
      }
    case 'figure':
      return { figure: { source: around.figureSource(piece.file), alt: piece.alt, caption: piece.caption } }
  }
}
