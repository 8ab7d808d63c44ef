import type { PrintedLimit } from '../../quantities/quantity-types.ts'
import type { WorkedLimit } from '../../quantities/worked-limit.ts'

/**
 * What the script of the page knows of a procedure: who acts, what stops the work, what is judged.
 * Handed over as JSON in the page; the words to read stand in the page itself.
 */
export interface Job {
  readonly number: string
  readonly title: string
  readonly revision: string
  readonly status: string
  readonly digest: string
  readonly variants: readonly JobVariant[]
  readonly roles: readonly JobRole[]
  readonly phases: readonly JobPhase[]
  readonly tables: readonly JobTable[]
  /** Everything to be done, signed or decided, in the order of the print. */
  readonly items: readonly JobItem[]
}

export interface JobVariant {
  readonly name: string
  readonly values: readonly string[]
}

export interface JobTable {
  readonly id: string
  readonly columns: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

export interface JobRole {
  readonly id: string
  readonly who: string
  readonly differentFrom: readonly string[]
  /** Does steps, rather than only signing. */
  readonly acts: boolean
}

export interface JobPhase {
  readonly id: string
  readonly number: string
  readonly title: string
  /** The phase a branch belongs to. */
  readonly under: string | null
  /** In a repeat: the position, as names carry it behind their point. */
  readonly position: string | null
}

export interface JobOnly {
  readonly variant: string
  readonly values: readonly string[]
}

export interface JobCondition {
  /** Step or phase. */
  readonly id: string
  /** As typed. */
  readonly when: string
}

export type JobItem = StepItem | SignItem | DecideItem | UntilItem

interface ItemBase {
  /** Unique on the page: `step:…`, `sign:…`, `decide:…`, `until:…`. */
  readonly id: string
  readonly phase: string
  /** Printed number to show: `3.1`, `H2`. */
  readonly number: string
  readonly text: string
  /** The step it belongs to and those above it; empty for the end of a repeated phase. */
  readonly within: readonly string[]
  /** Conditions of the step it stands in and of those above. */
  readonly only: readonly JobOnly[]
  /** Steps and phases around it that apply only if a condition holds. */
  readonly conditions: readonly JobCondition[]
}

export interface StepItem extends ItemBase {
  readonly kind: 'step'
  readonly step: string
  readonly by: readonly string[]
  /** Small ticks inside the step: torque passes, things taken off. */
  readonly ticks: readonly JobTick[]
  readonly readings: readonly JobReading[]
  readonly consequences: readonly JobConsequence[]
  /** Readings that no longer count once this step is done, by name. */
  readonly spoils: readonly string[]
}

export interface JobTick {
  readonly id: string
  readonly only: JobOnly | null
}

export interface SignItem extends ItemBase {
  readonly kind: 'sign'
  readonly step: string
  readonly hold: string
  readonly holdKind: 'hold' | 'witness' | 'verify' | 'review'
  readonly role: string
}

export interface DecideItem extends ItemBase {
  readonly kind: 'decide'
  readonly step: string
  readonly branches: readonly JobBranch[]
}

export interface JobBranch {
  readonly says: string
  /** Condition as typed, where readings decide. */
  readonly when: string | null
  readonly otherwise: boolean
  readonly action: 'go' | 'continue' | 'stop'
  /** Step or phase id. */
  readonly target: string | null
  readonly reason: string | null
}

export interface UntilItem extends ItemBase {
  readonly kind: 'until'
  readonly condition: string
  readonly atMost: number | null
  readonly otherwise: JobConsequence | null
}

export interface JobReading {
  readonly id: string
  /** As conditions call it. */
  readonly name: string
  readonly words: string
  readonly kind: 'measure' | 'check' | 'set' | 'derive' | 'count'
  /** One entry a position; a single null where there are none. */
  readonly positions: readonly (string | null)[]
  readonly limit: JobLimit | null
  /** The limit, where readings settle it here at the bench. */
  readonly workedLimit: WorkedLimit | null
  /** Judged with guard bands where it is given. */
  readonly uncertainty: JobUncertainty | null
  readonly unit: string | null
  readonly passes: readonly string[]
  readonly fails: readonly string[]
  readonly expression: string | null
  readonly only: JobOnly | null
}

export type JobLimit = PrintedLimit

export interface JobUncertainty {
  readonly typed: string
  /** Exact, `p/q` or an integer. */
  readonly exact: string
  readonly unit: string
}

export interface JobConsequence {
  readonly on: 'out' | 'low' | 'high'
  readonly reading: string | null
  readonly action: 'continue' | 'go' | 'redo' | 'stop'
  /** Step or phase ids. */
  readonly targets: readonly string[]
  readonly atMost: number | null
  /** What to do, in words. */
  readonly says: string
  readonly then: JobConsequence | null
}
