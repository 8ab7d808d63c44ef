/**
 * How long the job takes and who is busy how long, as far as its steps say what they take (`takes`) and how long they wait.
 * Nobody takes a break, every hold is signed at once, everything is in limit at the first try, the longest of several ways is taken.
 * Minutes, from the start of the job, rounded to a tenth.
 */
export interface Schedule {
  readonly expected: number
  readonly least: number
  readonly most: number
  /** Standard deviation of the longest way; 0 where no step says least and most. */
  readonly deviation: number
  /** Steps on the way taken, and those of them that say, by themselves or by their phase, how long they take or wait. */
  readonly steps: number
  readonly timedSteps: number
  readonly personMinutes: readonly RoleMinutes[]
  /** Ids of the steps and phases that make the job so long, in order. */
  readonly critical: readonly string[]
  /** In the order of the print. */
  readonly phases: readonly PhaseTimes[]
  readonly finishBy: readonly FinishBy[]
  /** `wheel-stud: m22` where only the longest of several variants is counted, else null. */
  readonly variant: string | null
}

interface RoleMinutes {
  readonly role: string
  readonly minutes: number
}

export interface PhaseTimes {
  readonly phase: string
  readonly start: number
  readonly finish: number
  /** Whether the job gets longer where this phase does. */
  readonly isCritical: boolean
  /** False for a branch that is not the longest, and for a phase of another variant. */
  readonly isOnTheWay: boolean
}

/** The chance to be done after so many minutes, 0 to 1, by the spread of the longest way alone. */
interface FinishBy {
  readonly minutes: number
  readonly chance: number
}
