import { type Finding, found, type Outcome } from '../findings/finding.ts'
import type { Place } from '../text/place.ts'
import type { BlockNode, ListNode, MapEntry, MapNode, ScalarNode } from './block-node.ts'
import { itemSchema, type LocatedSchema, propertySchema, type ShortForm } from './fit-block-schema.ts'
import type { Gaps } from './fit-gaps.ts'
import { duplicateItem } from './schema-faults.ts'
import { rowsOfMaps, textItems } from './short-form-lists.ts'
import { countedParts, fastenerParts, isLeftOpen, type NamedPieces, spanParts } from './short-form-looks.ts'
import { impliedScalar, type Piece, scalarOf, trimmed } from './short-form-pieces.ts'
import { readPieces } from './short-form-words.ts'

/**
 * Writes out the short forms of a value, as its schema describes them:
 *
 *     350 to 430 N·m, 4 × M20 8.8, oiled      →   limit: 350 to 430 N·m
 *                                                 fastener: { count: 4, size: M20, grade: 8.8 }
 *                                                 lubrication: oiled
 *
 * Each new node stands at the words it was made from. What has no short form stays as it is; the fit judges it.
 */
export function expandShortForm(node: BlockNode, schema: LocatedSchema, gaps: Gaps): Outcome<BlockNode> {
  const findings: Finding[] = []
  const value = expand(node, schema, (finding, partOf) => {
    findings.push(finding)
    if (partOf !== undefined) gaps.leave(partOf)
  })
  return { value, findings }
}

/** Reports a finding, and the place of the value that lost a part by it. */
type Report = (finding: Finding, partOf?: Place) => void

function expand(node: BlockNode, schema: LocatedSchema, report: Report): BlockNode {
  switch (schema.schema.type) {
    case 'array':
      return expandList(node, schema, report)
    case 'object':
      return expandMap(node, schema, report)
    default:
      return node
  }
}

function expandList(node: BlockNode, schema: LocatedSchema, report: Report): BlockNode {
  const items = itemSchema(schema)
  if (items === null) return node
  if (node.kind === 'scalar') {
    const exact = own(schema.schema.short?.exact, node.text)
    if (Array.isArray(exact))
      return listOf(
        node,
        exact.map((text) => impliedScalar(text, node.at)),
      )
    return expandList(listOf(node, textItems(node, schema.schema, items.schema)), schema, report)
  }
  if (node.kind === 'map') {
    // One entry of a list of maps, written without its dash.
    if (items.schema.type !== 'object') return node
    return expandList(listOf(node, [node]), schema, report)
  }
  return { ...node, items: node.items.map((item) => expand(item, items, report)) }
}

function expandMap(node: BlockNode, schema: LocatedSchema, report: Report): BlockNode {
  const { short } = schema.schema
  if (node.kind === 'map') return expandEntries(short === undefined ? node : withCopies(node, short), schema, report)
  if (short === undefined) return node
  const map = node.kind === 'list' ? fromList(node, short, report) : fromText(node, schema, short, report)
  return map === null ? node : expandEntries(map, schema, report)
}

function expandEntries(map: MapNode, schema: LocatedSchema, report: Report): MapNode {
  return {
    ...map,
    entries: map.entries.map((entry) => {
      const property = propertySchema(schema, entry.key)
      return property === null ? entry : { ...entry, value: expand(entry.value, property, report) }
    }),
  }
}

/** `{ otherwise: renew }` goes to `renew`. */
function withCopies(map: MapNode, short: ShortForm): MapNode {
  const entries = [...map.entries]
  for (const [absent, from] of Object.entries(short.missing ?? {})) {
    if (entries.some((entry) => entry.key === absent)) continue
    const source = entries.find((entry) => entry.key === from)
    if (source !== undefined) entries.push({ ...source, key: absent })
  }
  return { ...map, entries }
}

function fromList(list: ListNode, short: ShortForm, report: Report): MapNode | null {
  if (short.list === 'names') return namesMap(list, report)
  if (short.list === 'rows of maps') return rowsOfMaps(list)
  if (short.list === undefined) return null
  return { kind: 'map', at: list.at, entries: [{ key: short.list, keyAt: list.at, value: list }] }
}

/** `[a, b]` refers to a and b: each name with an empty map. An item `c: { … }` defines c beside them. */
function namesMap(list: ListNode, report: Report): MapNode | null {
  const entries: MapEntry[] = []
  for (const item of list.items) {
    if (item.kind === 'list') return null
    if (item.kind === 'map') entries.push(...item.entries)
    else entries.push({ key: item.text, keyAt: item.at, value: { kind: 'map', at: item.at, entries: [] } })
  }
  return { kind: 'map', at: list.at, entries: withoutDuplicates(entries, report) }
}

function withoutDuplicates(entries: readonly MapEntry[], report: Report): readonly MapEntry[] {
  const first = new Map<string, MapEntry>()
  for (const entry of entries) {
    const before = first.get(entry.key)
    if (before === undefined) first.set(entry.key, entry)
    else report(found(duplicateItem, duplicated(entry, before)))
  }
  return [...first.values()]
}

function duplicated(entry: MapEntry, before: MapEntry) {
  return {
    at: entry.keyAt,
    message: `The list names \`${entry.key}\` twice.`,
    advice: 'Take one of the two out.',
    related: [{ at: before.keyAt, message: `\`${entry.key}\` stands here already.` }],
  }
}

function fromText(node: ScalarNode, schema: LocatedSchema, short: ShortForm, report: Report): MapNode | null {
  const whole = trimmed({ text: node.text, from: 0 })
  if (whole.text === '') return null
  const exact = own(short.exact, whole.text)
  if (exact !== undefined) return mapOf(node, impliedEntries(node, exact))
  if (short.list === 'names') return namesMap(listOf(node, textItems(node, schema.schema, {})), report)
  if (short.whole !== undefined) return mapOf(node, [entryFor(node, short.whole, whole)])
  if (short.counted) return mapOf(node, named(node, countedParts(whole)))
  if (short.looks !== undefined) return fromLook(node, short.looks, whole)
  if (short.head === undefined && short.heads === undefined && short.first === undefined) return null
  return readPieces(node, whole, schema, short, report)
}

function fromLook(node: ScalarNode, looks: 'fastener' | 'span', whole: Piece): MapNode | null {
  const parts = looks === 'fastener' ? fastenerParts(whole) : spanParts(whole)
  if (parts !== null) return mapOf(node, named(node, parts))
  // `??` stands for the whole value until somebody knows it.
  if (looks === 'fastener' && isLeftOpen(whole.text)) return mapOf(node, [entryFor(node, 'size', whole)])
  return null
}

function named(node: ScalarNode, parts: NamedPieces): MapEntry[] {
  return parts.map(([property, piece]) => entryFor(node, property, piece))
}

function entryFor(node: ScalarNode, key: string, piece: Piece): MapEntry {
  const value = scalarOf(node, piece)
  return { key, keyAt: value.at, value }
}

function impliedEntries(node: ScalarNode, values: Readonly<Record<string, string>> | readonly string[]): MapEntry[] {
  return Object.entries(values).map(([key, text]) => ({ key, keyAt: node.at, value: impliedScalar(text, node.at) }))
}

const mapOf = (node: BlockNode, entries: readonly MapEntry[]): MapNode => ({ kind: 'map', at: node.at, entries })
const listOf = (node: BlockNode, items: readonly BlockNode[]): ListNode => ({ kind: 'list', at: node.at, items })

function own<T>(table: Readonly<Record<string, T>> | undefined, key: string): T | undefined {
  return table !== undefined && Object.hasOwn(table, key) ? table[key] : undefined
}
