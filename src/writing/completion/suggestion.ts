/** Something that could be typed at the cursor. */
export interface Suggestion {
  readonly label: string
  readonly kind: SuggestionKind
  /** A few words beside the label. */
  readonly detail: string
  /** More about it, as Markdown; may be empty. */
  readonly documentation: string
  /** What it replaces: what is typed of it so far. */
  readonly start: number
  readonly end: number
  /** Plain text that goes there. */
  readonly insert: string
  /** Where in `insert` the cursor goes. */
  readonly caret: number
}

export type SuggestionKind =
  | 'key'
  | 'word'
  | 'block'
  | 'choice'
  | 'unit'
  | 'step'
  | 'reading'
  | 'torque'
  | 'state'
  | 'value'
  | 'zone'
  | 'role'
  | 'resource'
  | 'thing'
  | 'hazard'
  | 'table'
  | 'variant'
  | 'machine'
  | 'fragment'
  | 'parameter'
  | 'finding'

/** A suggestion before it is known what it replaces. */
export interface Offer {
  readonly label: string
  readonly kind: SuggestionKind
  readonly detail?: string
  readonly documentation?: string
  /** Else the label; `¦` stands where the cursor goes. */
  readonly insert?: string
}

/** Offers as suggestions that replace a stretch; of two with one label the first stays. */
export function suggestionsFrom(offers: readonly Offer[], start: number, end: number): readonly Suggestion[] {
  const first = new Map<string, Offer>()
  for (const offer of offers) if (!first.has(offer.label)) first.set(offer.label, offer)
  return [...first.values()].map(({ label, kind, detail = '', documentation = '', insert = label }) => {
    const caret = insert.indexOf('¦')
    const text = insert.replace('¦', '')
    return { label, kind, detail, documentation, start, end, insert: text, caret: caret < 0 ? text.length : caret }
  })
}
