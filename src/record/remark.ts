/** Something about a record that a reader must know before trusting it. */
export interface Remark {
  readonly what: 'missing' | 'out-of-limit' | 'unsigned' | 'open' | 'corrected' | 'misjudged' | 'nobody' | 'withdrawn'
  /** `3.1`, `H2`; empty for the run as a whole. */
  readonly number: string
  readonly says: string
}
