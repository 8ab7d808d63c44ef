import type { Fault } from '../findings/finding.ts'
import { nearestName } from '../text/nearest-name.ts'
import type { Place } from '../text/place.ts'

/** The fault of a name that nothing carries, with the nearest that something does, and the edit where there is one. */
export function unknownName(
  at: Place,
  message: string,
  typed: string,
  known: readonly string[],
  otherwise: string,
): Fault {
  const near = nearestName(typed, known)
  if (near === null) return { at, message, advice: otherwise }
  const advice = `Did you mean "${near}"?`
  if (at.end - at.start !== typed.length) return { at, message, advice }
  return { at, message, advice, edit: { title: `Write ${near}`, changes: [{ at, newText: near }] } }
}

/** "a", "a or b", "a, b or c", the first of many. */
export function choices(names: readonly string[], atMost = 6): string {
  if (names.length > atMost) return `${names.slice(0, atMost).join(', ')} …`
  if (names.length < 2) return names.join('')
  return `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`
}
