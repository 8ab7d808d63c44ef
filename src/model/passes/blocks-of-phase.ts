import type { MapNode } from '../../syntax/block-node.ts'
import type { WrittenStep } from '../../syntax/written.ts'
import type { DraftPhase } from '../draft.ts'

/** The phase's own block, then those of its steps and sub-steps in the order written. */
export function blocksOf(phase: DraftPhase): readonly MapNode[] {
  return [...(phase.block ? [phase.block] : []), ...blocksOfSteps(phase.written.steps)]
}

function blocksOfSteps(steps: readonly WrittenStep[]): readonly MapNode[] {
  return steps.flatMap((step) => [...(step.block ? [step.block.map] : []), ...blocksOfSteps(step.steps)])
}
