/** One thing that happened on a job. Nothing is ever changed or taken out: a correction is a new entry. */
export type Entry = EntryHead & Happening

interface EntryHead {
  /** The first 32 hexadecimal digits of SHA-256 over the RFC 8785 form of the run, the procedure's digest and all else that stands here. */
  readonly id: string
  /** The entries that were the last ones when this was written: one, or several after two tablets have been brought together. */
  readonly after: readonly string[]
  /** ISO 8601 with offset, to the second; `2026-03-02` or empty where paper says no more. */
  readonly at: string
  /** Who did it, or who signs. */
  readonly by: readonly Person[]
}

/** As signed in for this run. */
export interface Person {
  readonly role: string
  readonly name: string
  readonly initials: string
}

export type Happening =
  | { readonly kind: 'begin'; readonly run: string }
  | { readonly kind: 'equipment'; readonly text: string }
  /** Signs in for a role; who had it before has left it. */
  | { readonly kind: 'person'; readonly person: Person }
  | { readonly kind: 'variant'; readonly name: string; readonly value: string }
  /** `item`: a step item or a small tick. */
  | { readonly kind: 'tick'; readonly item: string }
  | { readonly kind: 'untick'; readonly item: string; readonly because: string }
  | ReadingHappening
  /** The number of an instrument, the lot of a material: `part` of what `for` names. */
  | {
      readonly kind: 'identity'
      readonly for: string
      readonly part: string
      readonly text: string
      readonly correction: Correction | null
    }
  | { readonly kind: 'sign'; readonly hold: string; readonly meaning: Meaning }
  | { readonly kind: 'waive'; readonly hold: string }
  | {
      readonly kind: 'decide'
      readonly step: string
      readonly branch: number
      readonly says: string
      readonly move: Move
    }
  /** A decision taken back before anything rests on it. */
  | { readonly kind: 'undecide'; readonly step: string; readonly because: string }
  /** Steps are done again, after a reading out of limit. */
  | { readonly kind: 'again'; readonly step: string; readonly attempt: number; readonly move: Move }
  | { readonly kind: 'go'; readonly step: string; readonly move: Move }
  | {
      readonly kind: 'until'
      readonly phase: string
      readonly met: boolean
      readonly attempt: number
      readonly move: Move
    }
  /** A step or phase whose condition does not hold. */
  | { readonly kind: 'skip'; readonly part: string }
  | { readonly kind: 'unskip'; readonly part: string }
  /** A timer begins. */
  | { readonly kind: 'wait'; readonly wait: string }
  /** `step`: where, or null; `wait`: the timer that it ends early, or null. */
  | {
      readonly kind: 'deviation'
      readonly step: string | null
      readonly wait: string | null
      readonly text: string
      readonly because: string
    }
  | { readonly kind: 'note'; readonly step: string; readonly text: string }
  /** `photo`: SHA-256 of its bytes in 64 hexadecimal digits. The picture itself is kept beside the entries. */
  | {
      readonly kind: 'photo'
      readonly step: string
      readonly photo: string
      readonly mediaType: PhotoType
      readonly bytes: number
    }
  | HandOverHappening
  /** Proofs too old to rest on are taken again. */
  | { readonly kind: 'prove-again'; readonly withdrawn: readonly string[]; readonly move: Move }
  | { readonly kind: 'stop'; readonly item: string; readonly because: string }
  /** The run is closed: nothing follows. */
  | { readonly kind: 'end'; readonly how: 'finished' | 'stopped'; readonly text: string }

interface ReadingHappening {
  readonly kind: 'reading'
  readonly reading: string
  readonly position: string | null
  /** As typed, with its unit. Empty: taken back. */
  readonly typed: string
  readonly verdict: Verdict
  /** As judged, in the unit of the limit; empty where nothing was worked out. */
  readonly judgedAs: string
  /** The limit that it was judged by, in words; empty where there was none. */
  readonly limit: string
  readonly correction: Correction | null
}

interface HandOverHappening {
  readonly kind: 'handover'
  /** Step or phase where the work stands still. */
  readonly where: string
  /** Who takes over; who leaves is `by`. */
  readonly to: Person
  /** State to value, in words. */
  readonly states: readonly (readonly [state: string, value: string])[]
  /** Temporary things that are on, off or open, in words. */
  readonly open: readonly string[]
  /** Locks on, each with whose it is. */
  readonly locks: readonly { readonly lock: string; readonly of: string }[]
  /** Proofs that lapse and are taken again before the work goes on, in words. */
  readonly withdrawn: readonly string[]
  readonly text: string
  readonly move: Move
}

/** An old value that a new one takes the place of. */
export interface Correction {
  readonly was: string
  readonly because: string
}

/**
 * `noted`: written down, nothing to judge it by. `in-doubt`: nearer to an end than its uncertainty. `waiting`: its limit
 * rests on readings that are not taken yet.
 */
export type Verdict = (typeof verdicts)[number]
export const verdicts = ['in', 'low', 'high', 'out', 'in-doubt', 'noted', 'waiting', 'unreadable'] as const

/** What a signature means (21 CFR 11.50(a)(3)). */
export type Meaning = (typeof meanings)[number]
export const meanings = ['released', 'witnessed', 'verified', 'reviewed'] as const

export const meaningOf = { hold: 'released', witness: 'witnessed', verify: 'verified', review: 'reviewed' } as const

export type PhotoType = (typeof photoTypes)[number]
export const photoTypes = ['image/jpeg', 'image/png', 'image/webp'] as const

/** Where the work goes on: items to do afresh, items left out, the branch that opens. */
export interface Move {
  readonly clears: readonly string[]
  readonly passesOver: readonly string[]
  readonly opens: string | null
}

export const noMove: Move = { clears: [], passesOver: [], opens: null }
