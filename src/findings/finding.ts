import type { Place } from '../text/place.ts'

/** `error` blocks every output of the procedure; `warning` and `advice` do not. */
export type Severity = 'error' | 'warning' | 'advice'

/** Another place that helps to understand a finding: "the first one stands here". */
export interface RelatedPlace {
  readonly at: Place
  readonly message: string
}

/** One place of the way that leads to a fault: a step done, an answer given. */
export interface StoryPlace {
  readonly at: Place
  /** Number, words and what changes there: `1.3 Slacken the take-up: take-up goes slack`. */
  readonly text: string
}

/** Replaces the text at a place. */
export interface TextChange {
  readonly at: Place
  readonly newText: string
}

/** A change of the text that is certain to be right. */
export interface Edit {
  readonly title: string
  /** Right once somebody has looked that nothing is missing: offered, and never made by itself. */
  readonly afterLooking?: true
  readonly changes: readonly TextChange[]
}

/** What a pass or a check says: where, what is wrong in the author's words, and what to type next. */
export interface Fault {
  readonly at: Place
  readonly message: string
  readonly advice: string
  readonly related?: readonly RelatedPlace[]
  /** The shortest way that leads to it, from the start of the work. */
  readonly story?: readonly StoryPlace[]
  readonly edit?: Edit
}

/** A kind of fault, declared once; its page has the same name and stands beside it. */
export interface FaultKind {
  /** `group/fault`, both in kebab-case; the fault is named, not the remedy. */
  readonly name: string
  readonly severity: Severity
  /** One sentence: what is wrong when this is reported. */
  readonly title: string
}

/** A fault with the stamp of its kind: what people and programs see. */
export interface Finding extends Fault {
  readonly name: string
  readonly severity: Severity
  /** What its kind is by itself, where the site takes it more seriously. */
  readonly raisedFrom?: Severity
}

/** What a stage hands on: its value, and what it found on the way. */
export interface Outcome<T> {
  readonly value: T
  readonly findings: readonly Finding[]
}

/** Stamps a fault with its kind. */
export function found(kind: FaultKind, fault: Fault): Finding {
  return { name: kind.name, severity: kind.severity, ...fault }
}
