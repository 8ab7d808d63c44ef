import type { Severity } from '../../findings/finding.ts'

/** What the desk's page and its server say to one another, as JSON. Offsets are UTF-16 offsets of the text that was sent. */

/** A place in the text of the open procedure, or in another file of the library. */
export interface ShownPlace {
  /** Null: the procedure that is open. */
  readonly file: string | null
  readonly start: number
  readonly end: number
  /** Counted from 1; null where the file is no text. */
  readonly line: number | null
}

export interface ShownFinding extends ShownPlace {
  readonly name: string
  readonly severity: Severity
  readonly message: string
  readonly advice: string
  readonly related: readonly (ShownPlace & { readonly message: string })[]
  /** The shortest way that leads to it; empty for faults that need no way. */
  readonly story: readonly (ShownPlace & { readonly text: string })[]
  readonly edit: ShownEdit | null
}

export interface ShownEdit {
  readonly title: string
  /** To be looked over once it is made. */
  readonly afterLooking: boolean
  /** All in the open procedure. */
  readonly changes: readonly ShownChange[]
}

export interface ShownChange {
  readonly start: number
  readonly end: number
  readonly newText: string
}

/** A phase or step, in the order of the text; a step reaches to the next one. */
export interface StepMark {
  readonly kind: 'phase' | 'step'
  readonly number: string
  readonly title: string
  readonly start: number
  readonly end: number
  /** Its `id` on the page. */
  readonly anchor: string
}

/** The states along the steps of the straight path. */
export interface StateStrips {
  readonly steps: readonly { readonly number: string; readonly title: string; readonly start: number }[]
  readonly strips: readonly StateStrip[]
}

export interface StateStrip {
  readonly name: string
  /** The value after each step. */
  readonly values: readonly StateCell[]
}

export interface StateCell {
  readonly value: string
  readonly isSafe: boolean | null
  /** The step changes it, or proves it. */
  readonly happens: 'changes' | 'proves' | null
}

export interface CheckAnswer {
  /** As the page numbered its question: an older answer is dropped. */
  readonly version: number
  readonly findings: readonly ShownFinding[]
  readonly steps: readonly StepMark[]
  /** What can be shown: the real thing, a first sight of what is not finished, or nothing yet. */
  readonly page: 'ready' | 'unfinished' | 'none'
  /** What was shown of every way through; empty where it was not followed. */
  readonly proved: readonly string[]
  readonly title: string
  /** Milliseconds that the compiler took. */
  readonly took: number
}

/** What the view of the path shows; asked for while it is looked at. */
export interface PathAnswer {
  readonly states: StateStrips | null
  readonly drawings: readonly { readonly title: string; readonly says: string; readonly svg: string }[]
}

export interface ProcedureLine {
  readonly file: string
  readonly number: string
  readonly title: string
  readonly revision: string
  readonly status: string
}

export interface ReadAnswer {
  readonly file: string
  readonly text: string
  /** Of the text as it stands on the disk. */
  readonly hash: string
}

export type SaveAnswer =
  | { readonly kind: 'saved'; readonly hash: string }
  /** The file is no longer the one that was read: it was left alone, and this is what stands there. */
  | { readonly kind: 'changed'; readonly text: string; readonly hash: string }
  | { readonly kind: 'failed'; readonly because: string }

export type MadeAnswer =
  | { readonly kind: 'made'; readonly file: string }
  | { readonly kind: 'failed'; readonly because: string }

export type FigureAnswer =
  | { readonly kind: 'made'; readonly path: string }
  | { readonly kind: 'failed'; readonly because: string }

export type News = { readonly kind: 'file'; readonly file: string } | { readonly kind: 'library' }

export interface NewsAnswer {
  /** How much has happened since the desk was opened; to be asked from there the next time. */
  readonly at: number
  readonly news: readonly News[]
}
