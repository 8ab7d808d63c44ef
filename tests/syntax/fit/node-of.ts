import type { BlockNode } from '../../../src/syntax/block-node.ts'

/** What an author would have typed to get a value; every part has a place of its own, in no real text. */
export function nodeOf(value: unknown): BlockNode {
  const at = { file: 'made-up.yaml', start: 0, end: 1 }
  if (typeof value === 'string') return { kind: 'scalar', text: value, at, contentStart: 0 }
  if (Array.isArray(value)) return { kind: 'list', items: value.map(nodeOf), at }
  const entries = Object.entries(value as object).map(([key, inner]) => ({
    key,
    keyAt: { ...at },
    value: nodeOf(inner),
  }))
  return { kind: 'map', entries, at }
}
