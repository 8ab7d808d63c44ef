import type { Person } from './entry.ts'
import type { Job, SignItem } from './job.ts'
import type { JobState } from './job-state.ts'

/** A name as two people would compare it aloud. */
export function samePerson(a: string, b: string): boolean {
  const spoken = (name: string): string =>
    name
      .normalize('NFKC')
      .trim()
      .replace(/[\s.]+/g, ' ')
      .toLowerCase()
  return spoken(a) === spoken(b)
}

/** `control room`, where the procedure writes `control-room`. */
export function roleInWords(role: string): string {
  return role.replaceAll('-', ' ')
}

/** Who does a step, as signed in for its roles. */
export function peopleOf(roles: readonly string[], state: JobState): readonly Person[] {
  return roles.flatMap((role) => state.people.get(role) ?? [])
}

/** Everyone who does steps in this run. */
export function crewOf(job: Job, state: JobState): readonly Person[] {
  return peopleOf(
    job.roles.filter(({ acts }) => acts).map(({ id }) => id),
    state,
  )
}

/** `AL` for Ann Lee. */
export function initialsOf(name: string): string {
  return name
    .split(/[\s-]+/)
    .flatMap((word) => [...word][0] ?? [])
    .join('')
    .toUpperCase()
}

/** Everyone who has worked in a role on this job: as signed in now and before, and as ticked. */
function namesIn(role: string, state: JobState): readonly string[] {
  const ticked = [...state.ticks.values()].flatMap(({ by }) => by.filter((person) => person.role === role))
  const now = state.people.get(role)
  return [...(now === undefined ? [] : [now]), ...ticked].map(({ name }) => name)
}

/** Why a person may not sign a hold, or null: the signer must be another person than those whose work is signed for. */
export function whyNotSigner(job: Job, state: JobState, item: SignItem, name: string): string | null {
  const role = job.roles.find(({ id }) => id === item.role)
  const workers = item.holdKind === 'verify' ? workersOf(job, item.step) : []
  const others = [...new Set([...(role?.differentFrom ?? []), ...workers])].filter((other) => other !== item.role)
  const clash = others.find((other) => namesIn(other, state).some((worker) => samePerson(worker, name)))
  return clash === undefined
    ? null
    : `${name} works here as ${roleInWords(clash)}. ${item.number} must be signed by another person.`
}

function workersOf(job: Job, step: string): readonly string[] {
  return job.items.flatMap((item) => (item.kind === 'step' && item.step === step ? item.by : []))
}

/** Why a person may not take a role, or null: he or she has already signed as someone who must be another. */
export function whyNotCrew(job: Job, state: JobState, role: string, name: string): string | null {
  for (const item of job.items) {
    if (item.kind !== 'sign') continue
    const signature = state.signatures.get(item.hold)
    if (signature === undefined || signature.waived || !samePerson(signature.name, name)) continue
    const signer = job.roles.find(({ id }) => id === item.role)
    if (signer?.differentFrom.includes(role))
      return `${name} has signed ${item.number} as ${roleInWords(item.role)} and cannot also work as ${roleInWords(role)}.`
  }
  return null
}
