/** What every part of a printed sheet is made of. */

/** `break` has no text. */
export interface Run {
  readonly style: 'plain' | 'strong' | 'emphasis' | 'code' | 'break'
  readonly text: string
}

export type ProseBlock =
  | { readonly kind: 'paragraph'; readonly runs: readonly Run[] }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly (readonly ProseBlock[])[] }
  | {
      readonly kind: 'table'
      readonly head: readonly (readonly Run[])[]
      readonly rows: readonly (readonly (readonly Run[])[])[]
    }
  | { readonly kind: 'quote'; readonly blocks: readonly ProseBlock[] }
  | FigureBlock

export interface FigureBlock {
  readonly kind: 'figure'
  /** Where the picture lies among the files of the print; null where there is none. */
  readonly path: string | null
  readonly alt: string
  readonly caption: string
  /** Smallest letters and width in the picture's own units: it is printed as large as they need. */
  readonly letters: number | null
  readonly across: number
}

export interface Labelled {
  readonly label: string
  readonly text: string
}

export interface EntryBlock {
  readonly key: string
  readonly label: string
  readonly strong: boolean
  readonly lines: readonly { readonly name: string | null; readonly text: string }[]
  /** Sentences on what was worked out. */
  readonly worked: readonly string[]
}
