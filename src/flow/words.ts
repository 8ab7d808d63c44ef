import type { Phase, Step } from '../model/procedure.ts'
import type { CompactClaim, Subjects } from './subjects.ts'

/** Names as the author typed them, put into sentences. */

/** `4.2`, or `5.4 (left)` in a repeat. */
export function stepLabel(step: Step, subjects: Subjects): string {
  const position = positionOf(step, subjects)
  return position === null ? step.number : `${step.number} (${position})`
}

export function positionOf(step: Step, subjects: Subjects): string | null {
  return subjects.phaseOfStep.get(step.id)?.position?.label ?? null
}

/** `Tyre fitter`; somebody, where the document names no roles. */
export function person(role: number, subjects: Subjects): string {
  const name = (subjects.roles[role] ?? '').replaceAll('-', ' ')
  return name === '' ? 'Somebody' : name.charAt(0).toUpperCase() + name.slice(1)
}

/** `rim-path.left (in front of the rim or behind it)`. */
export function zoneWords(zone: number, subjects: Subjects): string {
  const { id, what } = subjects.procedure.zones[zone] ?? { id: '', what: '' }
  return what === '' ? id : `${id} (${what})`
}

export function zoneName(zone: number, subjects: Subjects): string {
  return subjects.procedure.zones[zone]?.id ?? ''
}

export function stateName(state: number, subjects: Subjects): string {
  return subjects.states[state]?.id ?? ''
}

export function valueName(state: number, value: number, subjects: Subjects): string {
  return subjects.values[state]?.[value] ?? ''
}

/** `on-tyres or on-stands`. */
export function wantedValues(claim: CompactClaim, subjects: Subjects): string {
  const names = (subjects.values[claim.state] ?? []).filter((_, value) => claim.ok[value] === 1)
  return listed(names, 'or')
}

export function listed(words: readonly string[], joint: 'and' | 'or'): string {
  if (words.length < 2) return words[0] ?? ''
  return `${words.slice(0, -1).join(', ')} ${joint} ${words.at(-1)}`
}

/** Words of a step, short enough for a line. */
export function shortWords(text: string, most = 70): string {
  const plain = text.replace(/\s+/g, ' ').trim().replace(/\.$/, '')
  if (plain.length <= most) return plain
  const cut = plain.slice(0, most - 1)
  return `${cut.slice(0, Math.max(cut.lastIndexOf(' '), most / 2)).replace(/[,;:]$/, '')} …`
}

/** `phase 5 (left), Take the wheels off`. */
export function phaseWords(phase: Phase): string {
  const position = phase.position === null ? '' : ` (${phase.position.label})`
  return `${phase.title}${position}`
}
