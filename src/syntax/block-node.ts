import type { Place } from '../text/place.ts'

/**
 * What stands in a YAML block, with the place of every word.
 * All scalars are text exactly as typed (failsafe schema): `0012` stays `0012`.
 */
export type BlockNode = ScalarNode | ListNode | MapNode

export interface ScalarNode {
  readonly kind: 'scalar'
  readonly text: string
  readonly at: Place
  /** Source offset of the first letter of `text`, or null where the source is not a verbatim copy of it (escapes, folded lines). */
  readonly contentStart: number | null
}

export interface ListNode {
  readonly kind: 'list'
  readonly items: readonly BlockNode[]
  readonly at: Place
}

export interface MapNode {
  readonly kind: 'map'
  readonly entries: readonly MapEntry[]
  readonly at: Place
}

export interface MapEntry {
  readonly key: string
  readonly keyAt: Place
  readonly value: BlockNode
}

/** The place of the letters `from` to `to` of a scalar; the whole scalar where the source is not verbatim. */
export function partOf(scalar: ScalarNode, from: number, to: number): Place {
  if (scalar.contentStart === null) return scalar.at
  return { file: scalar.at.file, start: scalar.contentStart + from, end: scalar.contentStart + to }
}

/** The value under a key of a map, or undefined. */
export function valueAt(node: BlockNode | undefined, key: string): BlockNode | undefined {
  if (node?.kind !== 'map') return undefined
  return node.entries.find((entry) => entry.key === key)?.value
}

/** The plain JSON value of a node: strings, arrays, objects without a prototype. */
export type PlainValue = string | readonly PlainValue[] | { readonly [key: string]: PlainValue }

export function plainValue(node: BlockNode): PlainValue {
  if (node.kind === 'scalar') return node.text
  if (node.kind === 'list') return node.items.map(plainValue)
  const plain: Record<string, PlainValue> = Object.create(null)
  for (const entry of node.entries) plain[entry.key] = plainValue(entry.value)
  return plain
}
