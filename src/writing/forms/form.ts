import type { BlockPlace } from '../../syntax/fit-block-schema.ts'

/** What a form holds: the long form of a value, as plain data. */
export type FormValue = string | readonly FormValue[] | { readonly [name: string]: FormValue }

/** One thing that can be picked, with a few words about it. */
export interface Pick {
  readonly name: string
  readonly about: string
}

/** How a value is asked for. */
export type FormShape =
  /** One text. `closed`: only what can be picked. `figure`: a limit or figure with one of these units. */
  | {
      readonly kind: 'text'
      readonly picks: readonly Pick[]
      readonly closed: boolean
      readonly figure: 'limit' | 'quantity' | null
      readonly units: readonly string[]
      readonly long: boolean
      /** A field beside it whose items are picked from, too: the start of a state is one of its values. */
      readonly from: string | null
    }
  /** Done or not, with words that may be left out: `stop`. */
  | { readonly kind: 'said' }
  | { readonly kind: 'list'; readonly of: FormShape }
  /** States with their values: picked, not spelt. */
  | { readonly kind: 'claims'; readonly states: readonly StatePick[] }
  /** Names with a value each. */
  | { readonly kind: 'named'; readonly names: readonly Pick[]; readonly of: FormShape }
  | { readonly kind: 'group'; readonly fields: readonly FormField[] }

export interface StatePick {
  readonly name: string
  readonly values: readonly string[]
}

export interface FormField {
  readonly name: string
  readonly label: string
  /** A sentence or two about it. */
  readonly help: string
  /** What is wanted, with an example. */
  readonly wants: string
  readonly required: boolean
  /** Asked for at once; the others on demand. */
  readonly usual: boolean
  readonly shape: FormShape
}

/** Which value of the text a form is about. */
export interface FormTarget {
  readonly place: BlockPlace
  /** Anywhere in the step, phase or document it belongs to. */
  readonly offset: number
  readonly key: string
  /** For keys that hold one entry a name (`torque`, `measure`): its name; null for a new one, and for all other keys. */
  readonly name: string | null
}

export interface Form {
  readonly target: FormTarget
  readonly title: string
  readonly help: string
  /** The key holds one entry a name, and the name is asked for, too. */
  readonly isNamed: boolean
  /** Names to pick from, for an entry that the library or the machine file knows. */
  readonly names: readonly NamePick[]
  readonly shape: FormShape
  /** What stands in the text, or the empty value. */
  readonly value: FormValue
  /** It stands in the text already. */
  readonly isThere: boolean
}

export interface NamePick extends Pick {
  /** What the entry is then filled with; null where the name alone is enough. */
  readonly value: FormValue | null
}

export type Written =
  | { readonly kind: 'changes'; readonly changes: readonly WrittenChange[] }
  | { readonly kind: 'refused'; readonly because: string }

export interface WrittenChange {
  readonly start: number
  readonly end: number
  readonly newText: string
}
