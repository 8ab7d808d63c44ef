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

/** A zone as its author describes it: `below the front axle`; `out` → `out of every zone`. */
export function zoneInWords(stepFile: StepFile, id: string): string {
  if (id === 'out') return 'out of every zone'
  const zone = stepFile.zones.find((candidate) => candidate.id === id)
  if (!zone) return inWords(id.replaceAll('.', ' '))
  const name = inWords(zone.name) + (zone.position === null ? '' : ` ${inWords(zone.position)}`)
  return zone.what === '' ? name : `${name} (${zone.what})`
}

/** Where people are: `in under axle (below the front axle)`, `rigger: out of every zone`. */
export function whereInWords(stepFile: StepFile, where: StepSheet['where']): readonly string[] {
  return where.map(({ role, zones }) => {
    const places = zones.map((zone) => zoneInWords(stepFile, zone)).join(', ')
    return role === null ? places : `${inWords(role)}: ${places}`
  })
}

/** `wheel stud m22 or m24`. */
export function onlyInWords(only: OnlySheet): string {
  return `${inWords(only.variant)} ${only.values.map(inWords).join(' or ')}`
}
