import type { BlockNode, MapNode, ScalarNode } from '../syntax/block-node.ts'
import {
  type BlockPlace,
  itemSchema,
  type LocatedSchema,
  propertySchema,
  schemaNamed,
} from '../syntax/fit-block-schema.ts'
import { withoutEmptyValues } from '../syntax/fit-empty.ts'
import { noGaps } from '../syntax/fit-gaps.ts'
import { expandShortForm } from '../syntax/short-form.ts'
import type { WrittenBlock, WrittenPhase, WrittenProcedure, WrittenStep } from '../syntax/written.ts'
import type { Place } from '../text/place.ts'

/** A block of the text with the place where its keys are looked up. */
export interface PlacedBlock {
  readonly place: BlockPlace
  readonly block: WrittenBlock
}

/** Every block that could be read, from top to bottom. */
export function blocksOf(written: WrittenProcedure): readonly PlacedBlock[] {
  return [
    ...placed(written.frontMatter, 'front-matter'),
    ...placed(written.block, 'document'),
    ...written.phases.flatMap(blocksOfPhase),
  ]
}

function blocksOfPhase(phase: WrittenPhase): readonly PlacedBlock[] {
  return [
    ...placed(phase.block, 'phase'),
    ...phase.steps.flatMap(blocksOfStep),
    ...phase.branches.flatMap(blocksOfPhase),
  ]
}

export function blocksOfStep(step: WrittenStep): readonly PlacedBlock[] {
  return [...placed(step.block, 'step'), ...step.steps.flatMap(blocksOfStep)]
}

function placed(block: WrittenBlock | null, place: BlockPlace): readonly PlacedBlock[] {
  return block === null ? [] : [{ place, block }]
}

/** What whoever walks over a value is told, in the order of the text. */
export interface Visitor {
  /** A key of a map: of the language, or a name of the author's where the schema says what it names. */
  readonly key: (key: VisitedKey) => void
  readonly scalar: (scalar: VisitedScalar) => void
}

export interface VisitedKey {
  readonly key: string
  readonly at: Place
  /** The map it stands in. */
  readonly schema: LocatedSchema | null
  readonly value: BlockNode
  /** Keys above it, the outermost first; items of lists are not among them. */
  readonly path: readonly string[]
  /** Spelt out by its author and not only implied by a short form. */
  readonly isTyped: boolean
}

export interface VisitedScalar {
  readonly scalar: ScalarNode
  readonly schema: LocatedSchema | null
  readonly path: readonly string[]
  /** The map that it is a value of, itself or in a list. */
  readonly parent: MapNode | null
}

/** Walks over a block with its short forms written out; nothing is judged, and nothing is left out. */
export function visitBlock({ block, place }: PlacedBlock, visitor: Visitor): void {
  if (place === 'front-matter') {
    const located = schemaNamed('front-matter')
    visit(
      expanded(block.map, located),
      { schema: located, path: [], parent: null },
      visitor,
      new Set(keyStarts(block.map)),
    )
    return
  }
  for (const entry of block.map.entries) {
    const located = schemaNamed(`blocks/${entry.key}`)
    visitor.key({ key: entry.key, at: entry.keyAt, schema: null, value: entry.value, path: [], isTyped: true })
    const here = { schema: located, path: [entry.key], parent: null }
    visit(expanded(entry.value, located), here, visitor, new Set(keyStarts(entry.value)))
  }
}

function expanded(node: BlockNode, located: LocatedSchema | null): BlockNode {
  const gaps = noGaps()
  const filled = withoutEmptyValues(node, gaps).value
  if (filled === null || located === null) return filled ?? node
  return expandShortForm(filled, located, gaps).value
}

function keyStarts(node: BlockNode): readonly number[] {
  if (node.kind === 'scalar') return []
  if (node.kind === 'list') return node.items.flatMap(keyStarts)
  return node.entries.flatMap((entry) => [entry.keyAt.start, ...keyStarts(entry.value)])
}

interface Here {
  readonly schema: LocatedSchema | null
  readonly path: readonly string[]
  readonly parent: MapNode | null
}

function visit(node: BlockNode, here: Here, visitor: Visitor, typed: ReadonlySet<number>): void {
  const { schema, path } = here
  if (node.kind === 'scalar') {
    visitor.scalar({ scalar: node, ...here })
    return
  }
  if (node.kind === 'list') {
    const items = schema && itemSchema(schema)
    for (const item of node.items) visit(item, { ...here, schema: items }, visitor, typed)
    return
  }
  for (const { key, keyAt, value } of node.entries) {
    visitor.key({ key, at: keyAt, schema, value, path, isTyped: typed.has(keyAt.start) })
    visit(value, { schema: schema && propertySchema(schema, key), path: [...path, key], parent: node }, visitor, typed)
  }
}
