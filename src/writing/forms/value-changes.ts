import type { TextChange } from '../../findings/finding.ts'
import type { BlockNode, MapEntry, MapNode } from '../../syntax/block-node.ts'
import { type LocatedSchema, propertySchema } from '../../syntax/fit-block-schema.ts'
import type { FormValue } from './form.ts'
import { inlineText, keyLines } from './value-text.ts'
import { isMap, isSame, longForm } from './values.ts'

/**
 * The least change of the text that makes a value mean another: comments, order, and what the language does not know
 * stay as they are.
 */
export function valueChanges(
  text: string,
  node: BlockNode,
  located: LocatedSchema,
  next: FormValue,
  isInline: boolean,
): readonly TextChange[] {
  if (isSame(longForm(node, located), next)) return []
  if (node.kind !== 'map' || !isMap(next) || located.schema.type !== 'object')
    return [{ at: node.at, newText: inlineText(next, located, isInline) }]
  const wanted = withoutCopies(next, node, located)
  const isFlow = isInline || isFlowMap(text, node)
  const known = node.entries.filter(({ key }) => propertySchema(located, key) !== null)
  const gone = known.filter(({ key }) => wanted[key] === undefined)
  if (gone.length === node.entries.length) return [{ at: node.at, newText: inlineText(wanted, located, true) }]
  const changes = known.flatMap((entry) => {
    const property = propertySchema(located, entry.key)
    const own = wanted[entry.key]
    return property === null || own === undefined ? [] : valueChanges(text, entry.value, property, own, isFlow)
  })
  const fresh = Object.entries(wanted).filter(([name]) => !node.entries.some(({ key }) => key === name))
  const added = fresh.flatMap(([name, value]) => {
    const property = propertySchema(located, name)
    return property === null ? [] : [{ name, value, property }]
  })
  return [
    ...changes,
    ...gone.map((entry) => removal(text, node, entry)),
    ...(added.length === 0 ? [] : [addition(text, node, added)]),
  ]
}

interface Added {
  readonly name: string
  readonly value: FormValue
  readonly property: LocatedSchema
}

/** New entries behind the last one. */
export function addition(text: string, map: MapNode, added: readonly Added[]): TextChange {
  const last = map.entries.at(-1)
  const { file } = map.at
  if (last === undefined || isFlowMap(text, map)) {
    const entries = added.map(({ name, value, property }) => `${name}: ${inlineText(value, property, true)}`).join(', ')
    if (last === undefined) return { at: map.at, newText: `{ ${entries} }` }
    const end = last.value.at.end
    return { at: { file, start: end, end }, newText: `, ${entries}` }
  }
  const first = map.entries[0] ?? last
  const indent = ' '.repeat(first.keyAt.start - lineStart(text, first.keyAt.start))
  const end = lineEnd(text, lastLetter(text, last))
  const lines = added.flatMap(({ name, value, property }) => keyLines(name, value, property))
  return { at: { file, start: end, end }, newText: lines.map((line) => `\n${indent}${line}`).join('') }
}

/** Takes an entry out, with its line where it has one of its own. */
export function removal(text: string, map: MapNode, entry: MapEntry): TextChange {
  const { file } = map.at
  if (isFlowMap(text, map)) {
    const index = map.entries.indexOf(entry)
    const next = map.entries[index + 1]
    const before = map.entries[index - 1]
    if (next !== undefined) return { at: { file, start: entry.keyAt.start, end: next.keyAt.start }, newText: '' }
    return { at: { file, start: before?.value.at.end ?? entry.keyAt.start, end: entry.value.at.end }, newText: '' }
  }
  const start = lineStart(text, entry.keyAt.start)
  const end = lineEnd(text, lastLetter(text, entry))
  return { at: { file, start, end: Math.min(end + 1, text.length) }, newText: '' }
}

export function isFlowMap(text: string, map: MapNode): boolean {
  return text[map.at.start] === '{'
}

/** `{ otherwise: renew }` says `go: renew` without its author having written it. */
function withoutCopies(
  next: { readonly [name: string]: FormValue },
  node: MapNode,
  located: LocatedSchema,
): { readonly [name: string]: FormValue } {
  const copies = Object.entries(located.schema.short?.missing ?? {}).filter(
    ([absent, from]) => isSame(next[absent], next[from]) && !node.entries.some(({ key }) => key === absent),
  )
  return Object.fromEntries(Object.entries(next).filter(([name]) => !copies.some(([absent]) => absent === name)))
}

/** A value over several lines may end with its line end. */
function lastLetter(text: string, entry: MapEntry): number {
  let end = Math.max(entry.value.at.end, entry.keyAt.end)
  while (end > entry.keyAt.end && /\s/.test(text[end - 1] ?? '')) end--
  return end
}

export function lineStart(text: string, offset: number): number {
  return text.lastIndexOf('\n', offset - 1) + 1
}

export function lineEnd(text: string, offset: number): number {
  const end = text.indexOf('\n', offset)
  return end < 0 ? text.length : end
}
