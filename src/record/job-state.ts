import type { Entry, Move, Person, PhotoType, Verdict } from './entry.ts'

export interface Signature {
  readonly at: string
  readonly name: string
  readonly initials: string
  readonly role: string
  readonly waived: boolean
  /** The entry that signs: it is bound to all that went before. */
  readonly entry: string
}

/** What was done and by whom. */
interface Deed {
  readonly at: string
  readonly by: readonly Person[]
}

export interface Reading {
  readonly at: string
  readonly by: readonly Person[]
  readonly typed: string
  readonly verdict: Verdict
  readonly judgedAs: string
  readonly limit: string
  /** Values of the same try that this one took the place of, the oldest first. */
  readonly before: readonly CorrectedValue[]
}

interface CorrectedValue {
  readonly typed: string
  readonly at: string
  readonly by: readonly Person[]
  /** Why it was changed, and who changed it when. */
  readonly because: string
  readonly changed: string
  readonly changedBy: readonly Person[]
}

interface Decision {
  readonly at: string
  readonly branch: number
  readonly says: string
  readonly move: Move
}

export interface Deviation extends Deed {
  readonly step: string | null
  readonly wait: string | null
  readonly text: string
  readonly because: string
}

export interface JobState {
  run: string
  begun: string
  equipment: string
  /** Who is signed in, by role. */
  readonly people: Map<string, Person>
  /** Everyone who ever signed in, with the time. */
  readonly signedIn: (Person & { readonly at: string })[]
  readonly variants: Map<string, string>
  /** In the order of the work: what is ticked again stands last. */
  readonly ticks: Map<string, Deed>
  /** By `readingKey`. */
  readonly readings: Map<string, Reading>
  /** Values taken out of blanks that are empty now. */
  readonly emptied: Map<string, readonly CorrectedValue[]>
  /** Of tries before this one, the oldest first. */
  readonly earlierReadings: Map<string, readonly Reading[]>
  /** Readings that no longer count, each with the item that made them so. */
  readonly spoiled: Map<string, string>
  /** Numbers of instruments, lots of materials, by `identityKey`. */
  readonly identities: Map<string, Deed & { readonly text: string }>
  /** By hold id. */
  readonly signatures: Map<string, Signature>
  /** Signatures that no longer stand, the oldest first. */
  readonly withdrawn: (Signature & { readonly hold: string })[]
  /** By step id. */
  readonly decisions: Map<string, Decision>
  /** Phases whose condition for ending is met. */
  readonly ended: Set<string>
  /** By step or phase id: the try under way, counted from 1. */
  readonly attempts: Map<string, number>
  readonly opened: Set<string>
  readonly passedOver: Set<string>
  readonly skipped: Set<string>
  /** Timers by id: when they began. */
  readonly waits: Map<string, string>
  readonly stopped: Map<string, Deed & { readonly name: string; readonly because: string }>
  readonly handovers: Extract<Entry, { kind: 'handover' }>[]
  readonly deviations: Deviation[]
  readonly notes: (Deed & { readonly step: string; readonly text: string })[]
  readonly photos: (Deed & {
    readonly step: string
    readonly photo: string
    readonly mediaType: PhotoType
    readonly bytes: number
  })[]
  end: (Deed & { readonly how: 'finished' | 'stopped'; readonly text: string }) | null
}

/** What an item of the job holds that is lost when it is done afresh. */
export interface ItemContents {
  readonly ticks: readonly string[]
  readonly readings: readonly string[]
  readonly hold: string | null
  /** Step that decides. */
  readonly decision: string | null
  /** Repeated phase that ends. */
  readonly phase: string | null
  /** Step or phase whose tries are counted. */
  readonly tried: string | null
  /** Readings that no longer count once it is done. */
  readonly spoils: readonly string[]
  /** Timers. */
  readonly waits: readonly string[]
}

export function identityKey(what: string, part: string): string {
  return `${what}|${part}`
}

export function readingKey(reading: string, position: string | null): string {
  return position === null ? reading : `${reading}|${position}`
}
