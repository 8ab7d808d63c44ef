import type { Place } from '../text/place.ts'

/** How a figure of a step was worked out, so that anybody can follow it with a pencil. */
export interface Working {
  /** Key of the block it serves. */
  readonly key: 'torque' | 'lift' | 'support' | 'handle' | 'hot-work' | 'pressure' | 'takes' | 'wear' | 'rules'
  /** Name within the block: `housing-bolts`. */
  readonly of: string
  /** What comes out, for a person: `Each of 2 legs carries 8.4 kN at 60° from the horizontal.` */
  readonly says: string
  /** The figures that come out, for programs and checks. */
  readonly figures: readonly WorkedFigure[]
  /** With symbols, as printed. */
  readonly formula: string
  /** The same with the numbers put in, a line each. */
  readonly lines: readonly string[]
  /** Title, edition, section; says so where it is from memory. */
  readonly source: string
  /** What a qualified person must still look at. */
  readonly caution: string
  readonly at: Place
}

export interface WorkedFigure {
  readonly name: string
  /** Decimal, as printed. */
  readonly value: string
  /** `p/q` where it is exact, else null. */
  readonly exact: string | null
  readonly unit: string
  readonly kind: string
}
