import type { LookUpTable } from '../entries.ts'
import type { Reading } from '../readings.ts'
import type { Resources } from '../resources.ts'

/** What the figures of a step rest on beside the step. */
export interface AroundFigures {
  readonly resources: Resources
  readonly tables: readonly LookUpTable[]
  /** Whose limits hold; null for the strictest of all. */
  readonly ruleSet: string | null
  /** Every reading of the document, in its order. */
  readonly readings: readonly Reading[]
}
