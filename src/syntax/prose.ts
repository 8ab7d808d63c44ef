import type { Place } from '../text/place.ts'

/** A run of text inside a paragraph. Raw HTML never becomes one. */
export type Inline =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'code'; readonly text: string }
  | { readonly kind: 'break' }
  | { readonly kind: 'strong'; readonly children: readonly Inline[] }
  | { readonly kind: 'emphasis'; readonly children: readonly Inline[] }
  /** A web or mail address (`http:`, `https:`, `mailto:` only). */
  | { readonly kind: 'link'; readonly address: string; readonly children: readonly Inline[] }
  /** A link to `#id`. `text` is filled when linked: the printed number of the step or phase. */
  | {
      readonly kind: 'reference'
      readonly to: string
      readonly text: string
      readonly children: readonly Inline[]
      readonly at?: Place
    }
  /** `[=id]`. `text` is filled when linked: the value in every printed unit. */
  | { readonly kind: 'value'; readonly name: string; readonly text: string; readonly at?: Place }

/** A paragraph-like piece of prose. */
export type Prose =
  | { readonly kind: 'paragraph'; readonly children: readonly Inline[] }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly (readonly Prose[])[] }
  | {
      readonly kind: 'table'
      readonly head: readonly (readonly Inline[])[]
      readonly rows: readonly (readonly (readonly Inline[])[])[]
    }
  | { readonly kind: 'quote'; readonly children: readonly Prose[] }
  /** A picture: the path as typed, its description for those who do not see it, its caption (the Markdown title). */
  | {
      readonly kind: 'figure'
      readonly file: string
      readonly alt: string
      readonly caption: string
      readonly at?: Place
    }

/** The words of prose without any marks. */
export function plainText(inlines: readonly Inline[]): string {
  return inlines
    .map((inline) => {
      switch (inline.kind) {
        case 'text':
        case 'code':
          return inline.text
        case 'break':
          return ' '
        case 'strong':
        case 'emphasis':
        case 'link':
          return plainText(inline.children)
        case 'reference':
          return inline.children.length > 0
            ? [plainText(inline.children), inline.text].filter(Boolean).join(' ')
            : inline.text
        case 'value':
          return inline.text
      }
    })
    .join('')
}
