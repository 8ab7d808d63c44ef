import type { Entry, Meaning, Person, PhotoType, Verdict } from './entry.ts'

/**
 * What was done on one run, for the file and for other programs. `entries` is what happened, in order; everything else
 * is read off it for whoever reads the file. Shape: `schema/record.schema.json`.
 */
export interface RunRecord {
  readonly format: 'witnessmark-record'
  readonly formatVersion: '1.0'
  /** `sha256:` and 64 hexadecimal digits over the RFC 8785 form of everything but this field. */
  readonly digest: string
  readonly document: RecordedDocument
  readonly run: string
  readonly source: RecordSource
  readonly begun: string
  readonly saved: string
  readonly end: RecordedEnd | null
  /** Everything that applies is done and signed, nothing is left open, and nothing has stopped the work. */
  readonly complete: boolean
  readonly equipment: string
  readonly variants: { readonly [name: string]: string }
  readonly people: readonly RecordedPerson[]
  readonly steps: readonly RecordedStep[]
  readonly holds: readonly RecordedHold[]
  readonly decisions: readonly RecordedDecision[]
  readonly tries: readonly RecordedTry[]
  readonly waits: readonly RecordedWait[]
  readonly identities: readonly RecordedIdentity[]
  readonly deviations: readonly RecordedDeviation[]
  readonly notes: readonly RecordedNote[]
  readonly photos: readonly RecordedPhoto[]
  readonly handovers: readonly RecordedHandOver[]
  readonly stops: readonly RecordedStop[]
  /** Temporary things still on, off or open, in words. */
  readonly open: readonly string[]
  /** Everything as it happened, tries that failed and corrections included. */
  readonly entries: readonly Entry[]
}

/** `page`: kept as the work was done. `filled-print`: read from a print that was filled in. */
export type RecordSource = 'page' | 'filled-print'

interface RecordedDocument {
  readonly number: string
  readonly title: string
  readonly revision: string
  readonly status: string
  /** Of the step file that was worked from. */
  readonly digest: string
}

/** Who and when. */
interface Deed {
  readonly at: string
  readonly by: readonly Person[]
}

interface RecordedPerson extends Person {
  readonly at: string
}

interface RecordedEnd extends Deed {
  readonly how: 'finished' | 'stopped'
  readonly text: string
}

type StepOutcome = 'done' | 'open' | 'left-out'

export interface RecordedStep {
  readonly step: string
  readonly number: string
  readonly text: string
  readonly outcome: StepOutcome
  /** Why it was left out. */
  readonly because: string
  readonly at: string | null
  readonly by: readonly Person[]
  readonly attempt: number
  readonly readings: readonly RecordedReading[]
}

export interface RecordedReading extends Deed {
  readonly reading: string
  readonly name: string
  readonly position: string | null
  /** The try that it belongs to, counted from 1. */
  readonly attempt: number
  /** As typed, with its unit. */
  readonly typed: string
  /** The unit as typed; null for an answer, or where none was typed. */
  readonly unit: string | null
  readonly judgedAs: string
  readonly verdict: Verdict
  readonly limit: string
  /** Number of the instrument; empty where nobody wrote it. */
  readonly instrument: string
  /** False for tries before the last, and for what a later step made worthless. */
  readonly counts: boolean
  readonly corrections: readonly RecordedCorrection[]
}

/** An old value, and why another took its place. */
interface RecordedCorrection {
  readonly was: string
  readonly wasAt: string
  readonly wasBy: readonly Person[]
  readonly because: string
  readonly at: string
  readonly by: readonly Person[]
}

export interface RecordedHold {
  readonly hold: string
  readonly number: string
  readonly kind: string
  readonly role: string
  readonly says: string
  readonly meaning: Meaning
  readonly outcome: 'signed' | 'waived' | 'open' | 'left-out' | 'withdrawn'
  readonly name: string | null
  readonly initials: string | null
  readonly at: string | null
  /** The entry that signs; bound to everything that went before it. */
  readonly entry: string | null
}

export interface RecordedDecision {
  readonly step: string
  readonly number: string
  readonly ask: string
  readonly says: string
  readonly at: string
}

interface RecordedTry extends Deed {
  /** Step or phase done again. */
  readonly step: string
  readonly attempt: number
}

export interface RecordedWait {
  readonly step: string
  readonly number: string
  readonly says: string
  readonly begun: string | null
  /** Seconds waited until the step was done, or until now. */
  readonly elapsed: number
  readonly outcome: 'over' | 'running' | 'not-begun' | 'ended-early'
}

interface RecordedIdentity extends Deed {
  readonly for: string
  readonly part: string
  readonly text: string
}

interface RecordedDeviation extends Deed {
  readonly step: string | null
  readonly wait: string | null
  readonly text: string
  readonly because: string
}

interface RecordedNote extends Deed {
  readonly step: string
  readonly text: string
}

interface RecordedPhoto extends Deed {
  readonly step: string
  /** SHA-256 of its bytes, 64 hexadecimal digits. */
  readonly photo: string
  readonly mediaType: PhotoType
  readonly bytes: number
  /** In base64; null where it is kept apart. */
  readonly content: string | null
}

interface RecordedHandOver {
  readonly at: string
  readonly where: string
  readonly from: Person | null
  readonly to: Person
  readonly states: readonly (readonly [string, string])[]
  readonly open: readonly string[]
  readonly locks: readonly { readonly lock: string; readonly of: string }[]
  readonly withdrawn: readonly string[]
  readonly text: string
}

interface RecordedStop extends Deed {
  readonly item: string
  readonly because: string
}
