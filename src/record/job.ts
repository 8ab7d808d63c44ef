import type { PrintedLimit } from '../quantities/quantity-types.ts'
import type { WorkedLimit } from '../quantities/worked-limit.ts'

/**
 * What working a procedure needs to know of it: who acts, what stops the work, what is judged. The page hands it to its
 * script as JSON; a record is made and read with it.
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
  readonly states: readonly JobStateSheet[]
  /** Everything to be done, signed or decided, in the order of the print. */
  readonly items: readonly JobItem[]
}

export interface JobStateSheet {
  readonly id: string
  readonly words: string
  readonly position: string | null
  readonly start: string
  /** Values it may have at the end. */
  readonly end: readonly string[]
  /** Made by `removes`, `locks`, `puts-on`, `snug` rather than declared. */
  readonly implied: boolean
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
  /** What each state is once this step is done. */
  readonly sets: readonly (readonly [state: string, value: string])[]
  /** Proofs that stand once this step is done and its holds are signed. */
  readonly proves: readonly JobProof[]
  readonly waits: readonly JobWait[]
}

export interface JobTick {
  readonly id: string
  /** `Lock on: belt isolator`, `390 N·m`. */
  readonly says: string
  readonly only: JobOnly | null
  /** What it puts on, takes off, opens or closes; null for a pass of a torque that closes nothing. */
  readonly thing: JobThing | null
}

/** A temporary thing: open from the tick that does it until the tick that undoes it. */
export interface JobThing {
  /** `lock:belt-isolator`: what opens it and what closes it name the same. */
  readonly key: string
  readonly does: 'opens' | 'closes'
  readonly isLock: boolean
  /** How many of them; null for all. */
  readonly count: number | null
  /** `lock on: belt isolator`. */
  readonly says: string
}

export interface JobProof {
  readonly state: string
  readonly values: readonly string[]
  /** `power isolated`. */
  readonly says: string
  /** `H1 at 1.8`, or `reading or test at 1.7`. */
  readonly how: string
  /** Ids of the holds that sign for it. */
  readonly holds: readonly string[]
  /** Seconds after which it is too old; null where nobody said. */
  readonly lapses: number | null
}

/** A time that must pass, in seconds. */
export interface JobWait {
  readonly id: string
  readonly says: string
  readonly earliest: number
  readonly latest: number | null
  /**
   * `started`: someone presses start, and the step is not done before it is over. `since`: counted from the end of the
   * items `after`, and the step is not begun before. `watch`: begins when the step is ticked, and nothing is signed before
   * it is over.
   */
  readonly begins: 'started' | 'since' | 'watch'
  /** Step items that it is counted from. */
  readonly after: readonly string[]
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
