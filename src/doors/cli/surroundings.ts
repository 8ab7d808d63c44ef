/** What the command is given of the world around it. */
export interface Surroundings {
  readonly folder: string
  /** Standard output: findings, help, pages. */
  readonly print: (text: string) => void
  /** Standard error: progress and what went wrong. */
  readonly say: (text: string) => void
  /** Where a person looks at standard error: paints over its last line, for progress. */
  readonly paintOver?: (text: string) => void
  /** Whether a person looks at standard output. */
  readonly isTerminal: boolean
  readonly columns: number | null
  readonly noColour: boolean
  /** Milliseconds since 1970: only to tell old leftovers from new ones, never in an output. */
  readonly now: () => number
}
