import { type Finding, found, type Outcome } from '../findings/finding.ts'
import type { Place } from '../text/place.ts'
import type { BlockNode, ListNode, MapEntry, MapNode } from './block-node.ts'
import type { Gaps } from './fit-gaps.ts'
import { emptyValue } from './schema-faults.ts'

/**
 * The value without its entries and items of which nothing is typed. What the YAML reader has reported already
 * (nothing behind a colon or dash) goes silently; quotes with nothing in them are reported here.
 */
export function withoutEmptyValues(node: BlockNode, gaps: Gaps): Outcome<BlockNode | null> {
  const findings: Finding[] = []
  const value = isEmpty(node) ? null : filled(node, { gaps, report: (finding) => findings.push(finding) })
  return { value, findings }
}

interface Filling {
  readonly gaps: Gaps
  readonly report: (finding: Finding) => void
}

function filled(node: BlockNode, filling: Filling): BlockNode {
  if (node.kind === 'scalar') return node
  return node.kind === 'list' ? filledList(node, filling) : filledMap(node, filling)
}

function filledList(list: ListNode, filling: Filling): ListNode {
  const items = list.items.filter((item) => {
    if (!isEmpty(item)) return true
    filling.gaps.leave(list.at)
    if (item.at.end > item.at.start) filling.report(emptyItem(item.at))
    return false
  })
  return { ...list, items: items.map((item) => filled(item, filling)) }
}

function filledMap(map: MapNode, filling: Filling): MapNode {
  const entries = map.entries.filter((entry) => {
    if (!isEmpty(entry.value)) return true
    filling.gaps.leave(map.at, entry.key)
    if (entry.value.at.start !== entry.keyAt.start) filling.report(emptyEntry(entry))
    return false
  })
  return { ...map, entries: entries.map((entry) => ({ ...entry, value: filled(entry.value, filling) })) }
}

function isEmpty(node: BlockNode): boolean {
  return node.kind === 'scalar' && node.text.trim() === ''
}

function emptyEntry(entry: MapEntry): Finding {
  return found(emptyValue, {
    at: entry.value.at,
    message: `\`${entry.key}\` has no value: its quotes are empty.`,
    advice: `Type the value between the quotes, or take \`${entry.key}:\` out. For a value not known yet, type ??.`,
  })
}

function emptyItem(at: Place): Finding {
  return found(emptyValue, {
    at,
    message: 'An item of this list is empty.',
    advice: 'Type the item between the quotes, or take it out.',
  })
}
