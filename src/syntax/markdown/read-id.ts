import type { PhrasingContent } from 'mdast'
import { unusableId } from '../faults/faults.ts'
import { isReserved } from '../reserved-names.ts'
import type { WrittenId } from '../written.ts'
import { placeOf, type Reading, report, sliceOf, startOf } from './reading.ts'

interface TakenId {
  readonly id: WrittenId | null
  /** What is left of the text. */
  readonly children: readonly PhrasingContent[]
}

const AT_END = /\s*\{#([^{}]*)\}\s*$/

/** Takes `{#id}` off the end of a heading or instruction. */
export function takeId(reading: Reading, children: readonly PhrasingContent[]): TakenId {
  const last = children.at(-1)
  if (last?.type !== 'text') return { id: null, children }
  const match = AT_END.exec(last.value)
  const typed = sliceOf(reading, last)
  const brace = typed.lastIndexOf('{#')
  if (match === null || brace < 0 || typed[brace - 1] === '\\') return { id: null, children }
  const words = last.value.slice(0, match.index)
  const start = startOf(last) + brace
  const end = startOf(last) + typed.lastIndexOf('}') + 1
  const name = (match[1] ?? '').trim()
  const at = placeOf(reading, start, end)
  const kept =
    words === ''
      ? children.slice(0, -1)
      : [...children.slice(0, -1), { ...last, value: words, position: cut(last, start) }]
  if (!checkId(reading, name, at)) return { id: null, children: kept }
  return { id: { id: name, at }, children: kept }
}

/** The node ends where the id begins. */
function cut(node: PhrasingContent, end: number): PhrasingContent['position'] {
  if (node.position === undefined) return undefined
  return { start: node.position.start, end: { ...node.position.end, offset: end } }
}

const USABLE = /^[a-z][a-z0-9]*(?:-[a-z0-9]+)*$/

function checkId(reading: Reading, name: string, at: WrittenId['at']): boolean {
  if (USABLE.test(name) && !isReserved(name)) return true
  const better = name
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^[^a-z]+|-+$/g, '')
  const isBetter = USABLE.test(better) && !isReserved(better)
  report(reading, unusableId, {
    at,
    message: name === '' ? 'The id is empty.' : `The id "${name}" cannot be referred to.`,
    advice: `Use small letters a to z, digits and single hyphens, a letter first: {#${isBetter ? better : 'tighten-bolts'}}.`,
    ...(isBetter ? { edit: { title: `Change it to {#${better}}`, changes: [{ at, newText: `{#${better}}` }] } } : {}),
  })
  return false
}
