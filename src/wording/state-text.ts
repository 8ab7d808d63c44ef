import type { StepFile } from '../step-file/step-file.ts'
import type { ClaimSheet, StateSheet } from './step-file-parts.ts'

/** A name of the language as words: `on-stands` → `on stands`. Names made of figures and signs (`0451E2`, `5-8`) stay. */
export function inWords(name: string): string {
  return name.replace(/(?<=\p{L})[-_](?=[\p{L}\p{N}])/gu, ' ')
}

/** `hub` of the left side → `hub left`. */
export function stateInWords(state: Pick<StateSheet, 'name' | 'position'>): string {
  return state.position === null ? inWords(state.name) : `${inWords(state.name)} ${inWords(state.position)}`
}

/** A state id as words, declared or not: `hub.left` → `hub left`. */
export function stateIdInWords(stepFile: StepFile, id: string): string {
  const state = stepFile.states.find((candidate) => candidate.id === id)
  return state ? stateInWords(state) : inWords(id.replaceAll('.', ' '))
}

/** `axle on tyres or on stands`. */
export function claimInWords(stepFile: StepFile, claim: ClaimSheet): string {
  return `${stateIdInWords(stepFile, claim.state)} ${claim.values.map(inWords).join(' or ')}`
}

/** `power isolated, axle on stands`. */
export function claimsInWords(stepFile: StepFile, claims: readonly ClaimSheet[]): string {
  return claims.map((claim) => claimInWords(stepFile, claim)).join(', ')
}

/** What is said where work stops and no state is open. Where no state is declared, nobody follows the equipment. */
export function nothingOpenInWords({ states }: StepFile): string {
  return states.some(({ implied }) => !implied)
    ? 'Every state named in this procedure is as at the end of the job.'
    : 'This procedure does not follow how the equipment stands. Look for yourself, and write it down.'
}

/** A change in order: `engine running, then stopped`. */
export function changeInWords(stepFile: StepFile, change: ClaimSheet): string {
  return `${stateIdInWords(stepFile, change.state)} ${change.values.map(inWords).join(', then ')}`
}
