import type { MapNode } from '../syntax/block-node.ts'
import type { WrittenPhase } from '../syntax/written.ts'
import type { Place } from '../text/place.ts'
import type { Parameters } from './passes/substitute.ts'
import type { Position } from './procedure.ts'

/** One pass through one phase: fragments included, numbered, its place in a repeat known; steps still as written. */
export interface DraftPhase {
  readonly id: string
  readonly baseId: string
  readonly number: string
  readonly kind: 'phase' | 'branch'
  /** Id of the draft phase that a branch belongs to. */
  readonly under: string | null
  readonly position: Position | null
  /** Behind the `@` of ids: `left`, or empty. */
  readonly suffix: string
  readonly parameters: Parameters
  readonly written: WrittenPhase
  readonly block: MapNode | null
  /** The loop this phase is the last phase of, if any. */
  readonly loop: DraftLoop | null
}

/** `repeat: { until: … }`: from `first` to the phase that carries it. */
export interface DraftLoop {
  /** Id of the first phase that is done again. */
  readonly first: string
  readonly condition: string
  readonly atMost: string | null
  readonly repeat: MapNode
  readonly at: Place
}
