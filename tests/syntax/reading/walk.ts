import type { BlockNode, ScalarNode } from '../../../src/syntax/block-node.ts'
import type { WrittenBlock, WrittenPhase, WrittenProcedure, WrittenStep } from '../../../src/syntax/written.ts'
import type { Place } from '../../../src/text/place.ts'

export function phasesOf(procedure: WrittenProcedure): readonly WrittenPhase[] {
  return procedure.phases.flatMap((phase) => [phase, ...phase.branches])
}

export function stepsOf(procedure: WrittenProcedure): readonly WrittenStep[] {
  const below = (step: WrittenStep): readonly WrittenStep[] => [step, ...step.steps.flatMap(below)]
  return phasesOf(procedure).flatMap((phase) => phase.steps.flatMap(below))
}

export function blocksOf(procedure: WrittenProcedure): readonly WrittenBlock[] {
  const blocks = [
    procedure.frontMatter,
    procedure.block,
    ...phasesOf(procedure).map((phase) => phase.block),
    ...stepsOf(procedure).map((step) => step.block),
  ]
  return blocks.filter((block) => block !== null)
}

export function scalarsIn(node: BlockNode): readonly ScalarNode[] {
  if (node.kind === 'scalar') return [node]
  if (node.kind === 'list') return node.items.flatMap(scalarsIn)
  return node.entries.flatMap((entry) => scalarsIn(entry.value))
}

/** Every place anywhere in a value. */
export function placesIn(value: unknown): readonly Place[] {
  if (Array.isArray(value)) return value.flatMap(placesIn)
  if (typeof value !== 'object' || value === null) return []
  const here = 'start' in value && 'end' in value ? [value as Place] : []
  return [...here, ...Object.values(value).flatMap(placesIn)]
}

/** Every text anywhere in a value, keys of blocks included; without places and the names of kinds. */
export function textsIn(value: unknown): readonly string[] {
  if (typeof value === 'string') return [value]
  if (Array.isArray(value)) return value.flatMap(textsIn)
  if (typeof value !== 'object' || value === null || ('start' in value && 'end' in value)) return []
  return Object.entries(value).flatMap(([name, part]) => (name === 'markdown' || name === 'kind' ? [] : textsIn(part)))
}
