import type { Place } from '../text/place.ts'
import type { MapNode } from './block-node.ts'
import type { Inline, Prose } from './prose.ts'

/** A procedure as it was written: phases, steps and blocks with their places, nothing resolved yet. */
export interface WrittenProcedure {
  readonly file: string
  readonly frontMatter: WrittenBlock | null
  readonly title: WrittenTitle | null
  /** Purpose and scope: the prose before the first phase. */
  readonly prose: readonly Prose[]
  readonly block: WrittenBlock | null
  readonly phases: readonly WrittenPhase[]
}

export interface WrittenTitle {
  readonly text: string
  readonly at: Place
}

export interface WrittenId {
  readonly id: string
  readonly at: Place
}

/** One YAML block: always a map, each key one kind of the language, short forms already written out. */
export interface WrittenBlock {
  readonly map: MapNode
  /** From the opening fence to the closing fence. */
  readonly at: Place
}

/** A `##` phase, or a `###` branch under the phase that ends in its `decide`. */
export interface WrittenPhase {
  readonly level: 2 | 3
  readonly title: string
  readonly id: WrittenId | null
  readonly at: Place
  readonly prose: readonly Prose[]
  readonly block: WrittenBlock | null
  readonly steps: readonly WrittenStep[]
  /** Branches (`###`) of this phase, in the order written; always empty on a branch. */
  readonly branches: readonly WrittenPhase[]
}

/** One item of an ordered list. */
export interface WrittenStep {
  /** The number as typed, `1` in `1.`; only used to notice numbers that jump. */
  readonly typedNumber: string
  readonly id: WrittenId | null
  /** From the number to the end of the instruction's first paragraph. */
  readonly at: Place
  /** `**Fitter and second:**` at the start, split at commas and `and`; already taken off `text`. */
  readonly roles: readonly WrittenRole[]
  /** The instruction, without id and role. */
  readonly text: readonly Inline[]
  /** The instruction as typed (Markdown), without id and role. */
  readonly markdown: string
  /** Bullets with a role at their start: people acting at the same time. */
  readonly acts: readonly WrittenAct[]
  /** Everything else below the instruction: further paragraphs, bullets, figures, tables. */
  readonly details: readonly Prose[]
  readonly block: WrittenBlock | null
  readonly steps: readonly WrittenStep[]
}

export interface WrittenRole {
  readonly name: string
  readonly at: Place
}

export interface WrittenAct {
  readonly roles: readonly WrittenRole[]
  readonly text: readonly Inline[]
  readonly markdown: string
  readonly at: Place
}
