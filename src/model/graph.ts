import type { Claim } from './states.ts'

/** What can follow what. */
export interface Graph {
  readonly start: string
  readonly nodes: readonly GraphNode[]
  readonly edges: readonly GraphEdge[]
}

export interface GraphNode {
  readonly id: string
  /** `phase` is the doorway of a phase: where one goes to when told to go there. */
  readonly kind: 'start' | 'phase' | 'step' | 'end' | 'stop'
  readonly phase: string | null
  readonly step: string | null
  readonly reason: string | null
  readonly leave: readonly Claim[]
}

export interface GraphEdge {
  readonly from: string
  readonly to: string
  /** `skip`: the step, or the phase, is passed by without being done. */
  readonly kind: 'next' | 'branch' | 'else' | 'redo' | 'again' | 'skip' | 'stop'
  /** In the author's words: the answer, the condition, "end-play out of limit". */
  readonly says: string
  /** Condition as typed, where one decides. */
  readonly when: string | null
  /** How often this edge may be taken on one way, or null. */
  readonly atMost: number | null
  /** How the step is left: everything in limit, something out, or the step (the phase) not done at all. */
  readonly outcome: 'passed' | 'failed' | 'skipped'
  /** Name of the bounded way back that this edge is; the edges of one `until` share it. */
  readonly way: string | null
  /** Followed only once this bounded way back is used up. */
  readonly usedUp: string | null
}
