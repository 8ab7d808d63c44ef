import type { PrintedLimit } from '../quantities/quantity-types.ts'
import type { WorkedLimit } from '../quantities/worked-limit.ts'
import type { Place } from '../text/place.ts'
import type { NamedText } from './entries.ts'
import type { Only } from './variants.ts'

export interface Torque {
  readonly id: string
  /** As typed: what `snug` calls the same bolts. Ways that may be chosen instead of one another share it. */
  readonly name: string
  readonly limit: PrintedLimit
  /** `12 × M16 10.9`. */
  readonly fastener: string | null
  readonly lubrication: string | null
  /** `star`, `cross`, or the drawn order. */
  readonly pattern: string | null
  /** One line a pass, in order: "50 % — 125 N·m (92 lbf·ft)". */
  readonly passes: readonly TorquePass[]
  readonly tool: string | null
  readonly only: Only | null
  /** Everything else of the long form, for print: extension, then-angle, turning … */
  readonly facts: readonly NamedText[]
  readonly at: Place
}

export interface TorquePass {
  readonly share: string | null
  readonly text: string
}

/** What the instrument may be off at worst: readings nearer to an end of the limit than this are in doubt. */
export interface ReadingUncertainty {
  readonly typed: string
  /** Exact, `p/q` or an integer. */
  readonly exact: string
  /** A unit of the limit's kind, or `%` of what is read. */
  readonly unit: string
}

export interface Reading {
  readonly id: string
  readonly name: string
  /** `measure` a figure, `check` a judgement by hand or eye, `set` an adjustment, `derive` a worked-out value, `count` a number for later. */
  readonly kind: 'measure' | 'check' | 'set' | 'derive' | 'count'
  /** What is asked, for a check; null otherwise. */
  readonly asks: string | null
  readonly limit: PrintedLimit | null
  /** Unit of the blank, where no limit says it. */
  readonly unit: string | null
  readonly positions: readonly string[]
  readonly instrument: string | null
  readonly instance: 'as-found' | 'as-left' | null
  /** For `derive`: the expression as typed. */
  readonly expression: string | null
  /** For a check: what passes and what fails, as answers to tick. */
  readonly passes: readonly string[]
  readonly fails: readonly string[]
  readonly given: string | null
  /** The limit, where only readings settle it; `limit` is null then. */
  readonly workedLimit?: WorkedLimit
  /** Where the author gave it for the reading or its instrument: the limit is judged with guard bands. */
  readonly uncertainty?: ReadingUncertainty
  readonly facts: readonly NamedText[]
  readonly only: Only | null
  readonly at: Place
}
