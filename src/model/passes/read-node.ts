import { type BlockNode, type MapEntry, type ScalarNode, valueAt } from '../../syntax/block-node.ts'

/** The text of a scalar under a key, or null. */
export function textAt(node: BlockNode | undefined, key: string): string | null {
  const value = valueAt(node, key)
  return value?.kind === 'scalar' ? value.text : null
}

/** The scalars of a node: itself, its items, or none. */
export function scalarsOf(node: BlockNode | undefined): readonly ScalarNode[] {
  if (node?.kind === 'scalar') return [node]
  if (node?.kind === 'list') return node.items.flatMap((item) => (item.kind === 'scalar' ? [item] : []))
  return []
}

export function scalarsAt(node: BlockNode | undefined, key: string): readonly ScalarNode[] {
  return scalarsOf(valueAt(node, key))
}

export function textsAt(node: BlockNode | undefined, key: string): readonly string[] {
  return scalarsAt(node, key).map((scalar) => scalar.text)
}

export function entriesOf(node: BlockNode | undefined): readonly MapEntry[] {
  return node?.kind === 'map' ? node.entries : []
}

/** The keys of a map: the names that it defines or refers to. */
export function keysAt(node: BlockNode | undefined, key: string): readonly string[] {
  return entriesOf(valueAt(node, key)).map((entry) => entry.key)
}

export function itemsOf(node: BlockNode | undefined): readonly BlockNode[] {
  if (node === undefined) return []
  return node.kind === 'list' ? node.items : [node]
}
