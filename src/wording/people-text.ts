import type { StepFile } from '../step-file/step-file.ts'
import { inWords } from './state-text.ts'
import type { OnlySheet, StepSheet } from './step-file-parts.ts'

/** `fitter, rigger and second`. */
export function rolesInWords(roles: readonly string[]): string {
  const words = roles.map(inWords)
  if (words.length < 2) return words.join('')
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}

/** Whether a step is done by others than its phase says, and so must name them. */
export function namesItsPeople(step: StepSheet, phaseBy: readonly string[]): boolean {
  return step.by.length > 0 && [...step.by].sort().join() !== [...phaseBy].sort().join()
}

/**
 * A zone as its author describes it, its name before it unless that says nothing more: `wheel end left (within reach of
 * the hub)`, but `below the motor` for `below-motor`; `out` → `out of every zone`.
 */
export function zoneInWords(stepFile: StepFile, id: string): string {
  if (id === 'out') return 'out of every zone'
  const zone = stepFile.zones.find((candidate) => candidate.id === id)
  if (!zone) return inWords(id.replaceAll('.', ' '))
  const name = zoneInShort(stepFile, id)
  if (zone.what === '') return name
  if (!repeats(zone.what, inWords(zone.name))) return `${name} (${zone.what})`
  return zone.position === null ? zone.what : `${zone.what}, ${inWords(zone.position)}`
}

/** Only its name: `wheel end left`. What it is, the list of places says. */
export function zoneInShort(stepFile: StepFile, id: string): string {
  if (id === 'out') return 'out of every zone'
  const zone = stepFile.zones.find((candidate) => candidate.id === id)
  if (!zone) return inWords(id.replaceAll('.', ' '))
  return inWords(zone.name) + (zone.position === null ? '' : ` ${inWords(zone.position)}`)
}

/** `In wheel end left`, but `Below the motor`. */
export function inPlace(place: string): string {
  return wordsOfPlace.test(place) ? `${place.charAt(0).toUpperCase()}${place.slice(1)}` : `In ${place}`
}

const wordsOfPlace =
  /^(?:above|along|around|at|before|behind|below|beneath|beside|between|by|close to|in|inside|near|next to|on|opposite|out of|outside|over|to the side|under|underneath|up to|within)\b/i

function repeats(text: string, name: string): boolean {
  const words = new Set(text.toLowerCase().split(/[^\p{L}\p{N}]+/u))
  return name
    .toLowerCase()
    .split(' ')
    .every((word) => words.has(word))
}

/** Where people are: `under axle (below the front axle)`, `rigger: out of every zone`; by name alone where `say` is so. */
export function whereInWords(
  stepFile: StepFile,
  where: StepSheet['where'],
  say: typeof zoneInWords = zoneInWords,
): readonly string[] {
  return where.map(({ role, zones }) => {
    const places = zones.map((zone) => say(stepFile, zone)).join(', ')
    return role === null ? places : `${inWords(role)}: ${places}`
  })
}

/** `wheel stud m22 or m24`. */
export function onlyInWords(only: OnlySheet): string {
  return `${inWords(only.variant)} ${only.values.map(inWords).join(' or ')}`
}
