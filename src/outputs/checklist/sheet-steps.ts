import type { EntryBlock, Labelled, ProseBlock, Run } from './sheet-parts.ts'

/** A step as the print templates are handed it. */

export interface Panel {
  readonly signal: 'danger' | 'warning' | 'caution' | 'notice'
  readonly word: string
  readonly hazard: string
  readonly consequence: string
  readonly avoid: string
  readonly controls: readonly string[]
}

export interface OutLine {
  readonly head: string
  readonly text: string
  readonly stops: boolean
  readonly targets: readonly string[]
}

export interface StepBlock {
  readonly id: string
  readonly field: string
  readonly number: string
  /** Surely shorter than a page, with what closes its phase. */
  readonly isShort: boolean
  readonly tries: number
  /** Who does it, where it is not who does the phase. */
  readonly tag: string | null
  /** States as they must be, in short, for the head of a page that this step begins. */
  readonly now: string
  readonly panels: readonly Panel[]
  readonly opening: readonly HoldBand[]
  readonly marks: readonly Labelled[]
  readonly runs: readonly Run[]
  readonly acts: readonly { readonly by: string; readonly runs: readonly Run[] }[]
  readonly details: readonly ProseBlock[]
  readonly entries: readonly EntryBlock[]
  readonly ticks: readonly {
    readonly verb: string
    readonly count: string
    readonly what: string
    /** What is written beside it: `counted`, `lock no`. */
    readonly blank: string
  }[]
  readonly steps: readonly StepBlock[]
  readonly waits: readonly { readonly text: string; readonly withDate: boolean }[]
  readonly torques: readonly TorqueBlock[]
  readonly readings: readonly ReadingBlock[]
  readonly out: readonly OutLine[]
  readonly decide: {
    readonly ask: string
    readonly branches: readonly {
      readonly answer: string
      readonly way: string
      readonly stops: boolean
      readonly targets: readonly string[]
    }[]
  } | null
  readonly worked: readonly string[]
  readonly after: string | null
  readonly holds: readonly HoldBand[]
}

export interface TorqueBlock {
  readonly field: string
  readonly name: string
  readonly value: string
  readonly fastener: string
  readonly tool: string | null
  readonly facts: readonly Labelled[]
  readonly passes: readonly string[]
  readonly worked: readonly string[]
  readonly only: string | null
}

export interface ReadingBlock {
  /** One a place; one alone where there are no places. */
  readonly fields: readonly string[]
  readonly name: string
  readonly kind: 'measure' | 'check' | 'set' | 'derive' | 'count'
  readonly asks: string | null
  /** `as found` or `as left`. */
  readonly instance: string | null
  readonly limit: string | null
  readonly unit: string
  readonly judged: boolean
  readonly instrument: string | null
  readonly notes: readonly Labelled[]
  readonly positions: readonly string[]
  /** For a check: answers to tick, and whether each passes. */
  readonly answers: readonly { readonly text: string; readonly passes: boolean }[]
  /** For a worked-out value: words and blanks in turn. */
  readonly arithmetic: readonly ArithmeticPiece[]
  readonly only: string | null
}

export type ArithmeticPiece =
  | { readonly kind: 'words'; readonly text: string }
  | { readonly kind: 'blank'; readonly text: string }

export interface HoldBand {
  readonly field: string
  readonly label: string
  readonly word: string
  /** Number of the step that may not begin before it is signed; null where it closes the step. */
  readonly opens: string | null
  readonly rule: string
  readonly role: string
  readonly not: string | null
  readonly says: string
  readonly proves: string | null
  readonly mayBeWaived: boolean
  readonly signatures: number
}
