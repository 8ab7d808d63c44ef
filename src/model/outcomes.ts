import type { Place } from '../text/place.ts'
import type { Claim } from './states.ts'

/** What follows when a reading or check is not in limit, or a repeat runs out of tries. */
export interface Consequence {
  /** `out` for either side. */
  readonly on: 'out' | 'low' | 'high'
  /** Only this reading of the step; null for any of them. */
  readonly reading: string | null
  readonly action: 'continue' | 'go' | 'redo' | 'stop'
  /** Step or phase ids to go to or to do again, and their printed numbers. */
  readonly targets: readonly Target[]
  readonly atMost: number | null
  /** After the last try. */
  readonly then: Consequence | null
  /** Why the job stops. */
  readonly reason: string | null
  /** What is left as it is when the job stops. */
  readonly leave: readonly Claim[]
  readonly at: Place
}

export interface Target {
  readonly id: string
  readonly number: string
}

export interface Decide {
  readonly ask: string
  readonly branches: readonly DecideBranch[]
}

export interface DecideBranch {
  readonly answer: string | null
  readonly when: string | null
  readonly otherwise: boolean
  /** A phase or branch, or null with `action`. */
  readonly target: Target | null
  readonly action: 'go' | 'continue' | 'stop'
  readonly reason: string | null
  /** What is left as it is where this way stops. */
  readonly leave: readonly Claim[]
  readonly at: Place
}
