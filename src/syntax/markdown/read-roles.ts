import type { PhrasingContent } from 'mdast'
import type { WrittenRole } from '../written.ts'
import { endOf, placeOf, type Reading, sliceOf, startOf } from './reading.ts'

interface TakenRoles {
  readonly roles: readonly WrittenRole[]
  /** What is left of the text. */
  readonly children: readonly PhrasingContent[]
  /** Offset of the first letter behind the prefix. */
  readonly behind: number
}

/** Takes `**Fitter and second:**` off the start of an instruction or bullet. The colon may stand behind the stars. */
export function takeRoles(reading: Reading, children: readonly PhrasingContent[]): TakenRoles {
  const [first, second] = children
  const none = { roles: [], children, behind: first === undefined ? 0 : startOf(first) }
  if (first?.type !== 'strong') return none
  const inner = reading.source.text.slice(startOf(first) + 2, endOf(first) - 2)
  const colonInside = /[:：]\s*$/.exec(inner)
  const next = second?.type === 'text' ? sliceOf(reading, second) : ''
  const colonBehind = /^\s*[:：]/.exec(next)
  if (colonInside === null && colonBehind === null) return none
  const names = colonInside === null ? inner : inner.slice(0, colonInside.index)
  const roles = splitNames(reading, names, startOf(first) + 2)
  if (roles.length === 0) return none

  const rest = children.slice(1)
  let behind = endOf(first)
  if (colonInside === null && colonBehind !== null) behind += colonBehind[0].length
  if (second?.type === 'text') {
    const cutOff = colonInside === null ? /^\s*[:：]\s*/ : /^\s*/
    const blanks = cutOff.exec(second.value)?.[0].length ?? 0
    rest[0] = { ...second, value: second.value.slice(blanks) }
    if (rest[0].value === '') rest.shift()
  }
  while (/\s/.test(reading.source.text.charAt(behind))) behind++
  return { roles, children: rest, behind }
}

function splitNames(reading: Reading, names: string, start: number): readonly WrittenRole[] {
  const roles: WrittenRole[] = []
  for (const match of names.matchAll(/(?:(?!\s*,|\s+and\s|\s*&)[^,&])+/gi)) {
    const name = match[0].replace(/^\s*(?:and\s)?\s*|\s+$/gi, '')
    if (name === '') continue
    const from = start + match.index + match[0].indexOf(name)
    roles.push({ name: name.replace(/\s+/g, ' '), at: placeOf(reading, from, from + name.length) })
  }
  return roles
}
