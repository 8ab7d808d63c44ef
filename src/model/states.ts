import type { Place } from '../text/place.ts'

export interface State {
  /** `hub` or, where there is one a position, `hub.left`. */
  readonly id: string
  /** Name without the position. */
  readonly name: string
  readonly position: string | null
  readonly values: readonly string[]
  readonly start: string
  /** Values it may have at the end. */
  readonly end: readonly string[]
  readonly energy: string | null
  /** Values in which it cannot hurt anyone; empty where the author named none. */
  readonly safe: readonly string[]
  /** Role, `reading` or `test`; empty where no proof is asked for. */
  readonly provedBy: readonly string[]
  readonly lapses: string | null
  /** Alternatives, one of which must hold: each is a set of claims. */
  readonly heldBy: readonly (readonly Claim[])[]
  /** Made by `removes`, `locks`, `puts-on`, `snug` rather than declared. */
  readonly implied: boolean
  readonly at: Place
}

/** `state` has one of `values`. */
export interface Claim {
  readonly state: string
  readonly values: readonly string[]
  readonly at: Place
}

/** `state` goes through `values` in order; usually one. */
export interface Change {
  readonly state: string
  readonly values: readonly string[]
  readonly at: Place
}

export interface Zone {
  readonly id: string
  readonly name: string
  readonly position: string | null
  readonly what: string
  readonly safeWhen: readonly Claim[]
  /** The role that must admit people (confined space), or null. */
  readonly entry: string | null
  readonly at: Place
}

export interface NeverTogether {
  readonly when: readonly Claim[]
  readonly because: string
  readonly at: Place
}

/** State id to value, along the straight path (first way of each decision, everything in limit). */
export type StateValues = { readonly [state: string]: string }
