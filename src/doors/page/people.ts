import type { Job, SignItem } from '../../outputs/page/job.ts'
import type { JobState, Person } from './job-log.ts'

/** A name as two people would compare it aloud. */
function sameName(a: string, b: string): boolean {
  const spoken = (name: string): string =>
    name
      .normalize('NFKC')
      .trim()
      .replace(/[\s.]+/g, ' ')
      .toLowerCase()
  return spoken(a) === spoken(b)
}

/** Who does a step, by the names given for its roles. */
export function peopleOf(roles: readonly string[], state: JobState): readonly Person[] {
  return roles.map((role) => ({ role, name: state.crew.get(role) ?? '' }))
}

/** Everyone who has worked in a role on this job: as named now, and as ticked before a change of crew. */
function namesIn(role: string, state: JobState): readonly string[] {
  const ticked = [...state.ticks.values()].flatMap(({ by }) => by.filter((person) => person.role === role))
  return [...(state.crew.has(role) ? [state.crew.get(role) ?? ''] : []), ...ticked.map(({ name }) => name)]
}

/** Why a person may not sign a hold, or null: the signer must be another person than those whose work is signed for. */
export function whyNotSigner(job: Job, state: JobState, item: SignItem, name: string): string | null {
  const role = job.roles.find(({ id }) => id === item.role)
  const workers = item.holdKind === 'verify' ? workersOf(job, item.step) : []
  const others = [...new Set([...(role?.differentFrom ?? []), ...workers])].filter((other) => other !== item.role)
  const clash = others.find((other) => namesIn(other, state).some((worker) => sameName(worker, name)))
  return clash === undefined ? null : `${name} works here as ${clash}. ${item.number} must be signed by another person.`
}

function workersOf(job: Job, step: string): readonly string[] {
  return job.items.flatMap((item) => (item.kind === 'step' && item.step === step ? item.by : []))
}

/** Why a person may not take a role, or null: he or she has already signed as someone who must be another. */
export function whyNotCrew(job: Job, state: JobState, role: string, name: string): string | null {
  for (const item of job.items) {
    if (item.kind !== 'sign') continue
    const signature = state.signatures.get(item.hold)
    if (signature === undefined || signature.waived || !sameName(signature.name, name)) continue
    const signer = job.roles.find(({ id }) => id === item.role)
    if (signer?.differentFrom.includes(role))
      return `${name} has signed ${item.number} as ${item.role} and cannot also work as ${role}.`
  }
  return null
}
