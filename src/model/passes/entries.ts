import { schemas } from '#generated/schemas'
import { type BlockNode, type MapNode, plainValue, valueAt } from '../../syntax/block-node.ts'
import { oncePer } from '../../text/once-per.ts'
import type { Entry, EntryLine } from '../entries.ts'
import { textAt } from './read-node.ts'

/** Properties that stand first in a short form and so need no name in print. */
const HEADS = new Set([
  'limit',
  'load',
  'asks',
  'expression',
  'what',
  'do',
  'says',
  'text',
  'method',
  'go',
  'because',
  'name',
  'thing',
  'likely',
  'phases',
  'zones',
  'steps',
  'values',
  'everyone',
])

/**
 * Every key of a block in words, whatever it is, so that print and page can show what they have no layout for.
 *
 *     lift: { hub: "640 kg, legs 2, with crane-1" }  →  Lift · hub: 640 kg, legs 2, with crane-1
 */
export function entriesFrom(block: MapNode | null): readonly Entry[] {
  return block === null ? [] : entriesOfBlock(block)
}

const entriesOfBlock = oncePer((block: MapNode): readonly Entry[] =>
  block.entries.map((entry) => ({
    key: entry.key,
    label: labelOf(entry.key),
    lines: linesOf(entry.value),
    data: plainValue(entry.value),
    at: entry.keyAt,
  })),
)

/** The title of the key's schema: the heading that people read. */
export function labelOf(key: string): string {
  const schema = schemas[`blocks/${key}`]
  if (typeof schema === 'object' && schema !== null && 'title' in schema && typeof schema.title === 'string')
    return schema.title
  return key.charAt(0).toUpperCase() + key.slice(1).replaceAll('-', ' ')
}

function linesOf(node: BlockNode): readonly EntryLine[] {
  if (node.kind === 'scalar') return [{ name: null, text: node.text }]
  if (node.kind === 'list') return node.items.map((item) => ({ name: null, text: inWords(item) }))
  return node.entries.map((entry) => ({ name: entry.key, text: inWords(entry.value), at: entry.keyAt }))
}

/** `{ likely: 10 min, least: 5 min, most: 20 min }` → `10 min (5 min to 20 min)`. */
export function takesInWords(node: BlockNode | undefined): string | null {
  const likely = textAt(node, 'likely')
  if (likely === null) return null
  const least = textAt(node, 'least')
  const most = textAt(node, 'most')
  return least === null && most === null ? likely : `${likely} (${least ?? '…'} to ${most ?? '…'})`
}

/** A value in one line; nothing of it is left out. */
export function inWords(node: BlockNode): string {
  if (node.kind === 'scalar') return node.text
  if (node.kind === 'list') {
    const short = node.items.every((item) => item.kind === 'scalar' || valueAt(item, 'thing') !== undefined)
    return node.items.map(inWords).join(short ? ', ' : '; ')
  }
  const thing = textAt(node, 'thing')
  const count = textAt(node, 'count')
  if (thing !== null) return count === null ? thing : `${count} × ${thing}`
  return node.entries
    .map((entry) => (HEADS.has(entry.key) ? inWords(entry.value) : `${spoken(entry.key)} ${inWords(entry.value)}`))
    .join(', ')
}

function spoken(key: string): string {
  return key.replaceAll('-', ' ')
}
