import { isAlias, isMap, isScalar, isSeq, type Node, type Pair, type Scalar, type YAMLMap } from 'yaml'
import type { Place } from '../../text/place.ts'
import type { BlockNode, MapEntry, ScalarNode } from '../block-node.ts'
import { commaInBraces, duplicateKey, emptyValue, mergeKey, reservedKey, unusableKey } from '../faults/faults.ts'
import { placeOf, type Reading, report } from '../markdown/reading.ts'
import { isReserved } from '../reserved-names.ts'
import { quoted } from './quoting.ts'
import type { ReportedLines } from './report-tokens.ts'
import { toSource, type YamlText, yamlLineAt, yamlLineText } from './yaml-text.ts'

interface Building {
  readonly reading: Reading
  readonly yaml: YamlText
  readonly reported: ReportedLines
}

/** The located tree of what the YAML parser understood; null where it found nothing. */
export function buildNode(
  reading: Reading,
  yaml: YamlText,
  node: Node | null,
  reported: ReportedLines,
): BlockNode | null {
  if (node === null || (isScalar(node) && isNothing(node))) return null
  return build({ reading, yaml, reported }, node)
}

function build(building: Building, node: Node): BlockNode {
  if (isMap(node)) return { kind: 'map', entries: buildEntries(building, node), at: placeOfNode(building, node) }
  if (isSeq(node)) {
    const items = node.items.map((item) => {
      const value = item as Node
      if (isScalar(value) && isNothing(value)) reportEmptyItem(building, value)
      return build(building, value)
    })
    return { kind: 'list', items, at: placeOfNode(building, node) }
  }
  if (isScalar(node)) return buildScalar(building, node)
  // An alias, reported where it stands.
  const at = placeOfNode(building, node)
  const text = isAlias(node) ? `*${node.source}` : ''
  return { kind: 'scalar', text, at, contentStart: null }
}

function buildScalar(building: Building, node: Scalar): ScalarNode {
  const text = node.type === 'PLAIN' ? (node.source ?? '') : String(node.value ?? '')
  const [start = 0, end = 0] = node.range ?? []
  const at = placeOfRange(building, start, end)
  const source = building.reading.source.text
  const from = toSource(building.yaml, start) + firstLetter(building, node, start)
  return { kind: 'scalar', text, at, contentStart: source.startsWith(text, from) ? from : null }
}

/** How far behind the start of a value its first letter stands: behind the quote, or on the line below `|`. */
function firstLetter(building: Building, node: Scalar, start: number): number {
  if (node.type === 'QUOTE_DOUBLE' || node.type === 'QUOTE_SINGLE') return 1
  if (node.type !== 'BLOCK_LITERAL' && node.type !== 'BLOCK_FOLDED') return 0
  const { yaml } = building
  const line = yamlLineAt(yaml, start) + 1
  const indent = yamlLineText(yaml, line).search(/\S/)
  return toSource(yaml, (yaml.lines[line]?.start ?? start) + Math.max(0, indent)) - toSource(yaml, start)
}

function buildEntries(building: Building, map: YAMLMap): MapEntry[] {
  const { reading, yaml } = building
  const entries: MapEntry[] = []
  const seen = new Map<string, Place>()
  map.items.forEach((pair, index) => {
    const keyNode = pair.key as Node | null
    const key = isScalar(keyNode) ? String(keyNode.value ?? '') : ''
    const keyAt = keyNode === null ? placeOfNode(building, map) : placeOfNode(building, keyNode)
    if (!isUsableKey(building, key, keyAt)) return
    const first = seen.get(key)
    if (first !== undefined) {
      report(reading, duplicateKey, {
        at: keyAt,
        message: `The key "${key}" stands twice in one place.`,
        advice: 'Delete one of the two, or give this one another name.',
        related: [{ at: first, message: `The first "${key}" stands here.` }],
      })
      return
    }
    seen.set(key, keyAt)
    const valueNode = pair.value as Node | null
    if (valueNode === null || (isScalar(valueNode) && isNothing(valueNode))) {
      if (!building.reported.lines.has(yamlLineAt(yaml, keyNode?.range?.[0] ?? 0)))
        reportEmpty(building, map, index, key, keyAt)
      entries.push({ key, keyAt, value: { kind: 'scalar', text: '', at: keyAt, contentStart: null } })
      return
    }
    entries.push({ key, keyAt, value: build(building, valueNode) })
  })
  return entries
}

function isUsableKey({ reading }: Building, key: string, at: Place): boolean {
  if (key.trim() === '' || key.includes('\n')) {
    report(reading, unusableKey, {
      at,
      message: key.trim() === '' ? 'A value has no key in front of its colon.' : 'A key runs over several lines.',
      advice: 'Type a plain word, a colon and a blank in front of the value.',
    })
    return false
  }
  if (key === '<<') {
    report(reading, mergeKey, {
      at,
      message: '"<<" merges another map into this one; the language does not have this.',
      advice: 'Write the keys out here.',
    })
    return false
  }
  if (isReserved(key)) {
    report(reading, reservedKey, {
      at,
      message: `"${key}" is a name that the machine keeps for itself.`,
      advice: `Choose another name, for example "${key.replaceAll('_', '')}-1".`,
    })
    return false
  }
  return true
}

function reportEmpty(building: Building, map: YAMLMap, index: number, key: string, keyAt: Place): void {
  const { reading, yaml } = building
  const source = reading.source.text
  const hasColon = /^["']?[ \t]*:/.test(source.slice(keyAt.end, keyAt.end + 40))
  const before = map.items[index - 1] as Pair<Node, Node | null> | undefined
  if (map.flow && !hasColon) {
    const value = before?.value
    const start = isScalar(value) && value.type === 'PLAIN' ? value.range?.[0] : undefined
    const whole = start === undefined ? null : source.slice(toSource(yaml, start), keyAt.end)
    report(reading, commaInBraces, {
      at: keyAt,
      message: `"${key}" has no value: between { and } a comma starts a new key.`,
      advice:
        whole === null || whole.includes('\n')
          ? `Type ${key}: and its value, or put the whole value in quotes.`
          : `If it belongs to the value before it, type ${quoted(whole)}; otherwise type ${key}: and its value.`,
    })
    return
  }
  report(reading, emptyValue, {
    at: keyAt,
    message: `The key "${key}" has no value.`,
    advice: `Type the value behind "${key}:", or indent the lines that belong to it by two spaces more. For a value not known yet, type ??.`,
  })
}

function reportEmptyItem(building: Building, item: Scalar): void {
  const { reading, yaml } = building
  const offset = item.range?.[0] ?? 0
  if (building.reported.lines.has(yamlLineAt(yaml, offset))) return
  // YAML places nothing behind the dash, possibly lines below it.
  const dash = yaml.text.lastIndexOf('-', Math.max(0, offset - 1))
  const start = toSource(yaml, Math.max(0, dash))
  report(reading, emptyValue, {
    at: placeOf(reading, start, start + 1),
    message: 'An item of a list has no value.',
    advice: 'Type the value behind the dash, or delete the dash.',
  })
}

/** Nothing was typed; `""` is something. */
function isNothing(node: Scalar): boolean {
  return node.type === 'PLAIN' || node.type === undefined ? (node.source ?? '') === '' && !node.value : false
}

function placeOfNode(building: Building, node: Node): Place {
  const [start = 0, end = 0] = node.range ?? []
  return placeOfRange(building, start, end)
}

/** Without the blanks and line ends that YAML counts to a value. */
function placeOfRange({ reading, yaml }: Building, start: number, end: number): Place {
  let last = end
  while (last > start && /\s/.test(yaml.text.charAt(last - 1))) last--
  const from = toSource(yaml, start)
  if (last === start) return placeOf(reading, from, from)
  return placeOf(reading, from, toSource(yaml, last - 1) + 1)
}
