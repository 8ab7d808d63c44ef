/**
 * A half-open range of UTF-16 offsets in one source text.
 * Lines and columns are worked out once, at the edge, by `source-text.ts`.
 */
export interface Place {
  /** Path of the text, relative to the library's root, with forward slashes. */
  readonly file: string
  readonly start: number
  readonly end: number
}
