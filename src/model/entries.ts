import type { PlainValue } from '../syntax/block-node.ts'
import type { Place } from '../text/place.ts'

export interface NamedText {
  readonly name: string
  readonly text: string
}

export interface NamedSentence {
  readonly name: string
  readonly says: string
}

export interface LookUpTable {
  readonly id: string
  readonly columns: readonly string[]
  readonly rows: readonly (readonly string[])[]
  readonly at: Place
}

/** One key of a block, whatever it is: what outputs fall back on, so that nothing written is ever dropped. */
export interface Entry {
  readonly key: string
  /** Heading in print: "Lift", "Hot work". */
  readonly label: string
  readonly lines: readonly EntryLine[]
  /** The long form, every scalar as typed. */
  readonly data: PlainValue
  readonly at: Place
}

export interface EntryLine {
  readonly name: string | null
  readonly text: string
  /** Of the name, where there is one. */
  readonly at?: Place
}
