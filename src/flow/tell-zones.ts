import { lastPlace } from './path.ts'
import type { CompactClaim } from './subjects.ts'
import {
  causeOf,
  changeBefore,
  changeBy,
  here,
  history,
  placeOfChange,
  placeOfMove,
  relatedTo,
  type Seen,
  type Told,
} from './telling.ts'
import { listed, person, stateName, stepLabel, valueName, wantedValues, zoneName, zoneWords } from './words.ts'

/** Somebody is, or comes, where it is not safe. */
export function tellZoneUnsafe(seen: Seen): Told {
  const { plan, sighting } = seen
  const { about: zone, other: state, role } = sighting
  const { subjects } = plan
  const change = changeBefore(seen, state)
  const wanted = wantedValues(claimOf(seen), subjects)
  const where = here(seen)
  return {
    subject: `${zoneName(zone, subjects)}/${stateName(state, subjects)}`,
    cause: causeOf(seen, change.index),
    at: placeOfMove(seen, role),
    message: `${person(role, subjects)} is in ${zoneWords(zone, subjects)} at ${where}, but ${history(seen, state, change)}. There, ${stateName(state, subjects)} must be ${wanted}.`,
    advice: `Bring ${stateName(state, subjects)} to ${wanted}${proofWords(seen, state)} before ${where}, or keep ${person(role, subjects).toLowerCase()} out of ${zoneName(zone, subjects)} there.`,
    related: relatedTo(
      seen,
      change.index,
      `Here ${stateName(state, subjects)} went ${valueName(state, change.value, subjects)}.`,
    ),
    states: [state],
    roles: [role],
  }
}

/** A state leaves what makes a zone safe, and somebody is still in it. */
export function tellZoneNotCleared(seen: Seen): Told {
  const { plan, sighting, path } = seen
  const { about: zone, other: state, role } = sighting
  const { subjects } = plan
  const change = changeBy(seen, state)
  const label = here(seen)
  const value = worstValue(seen, change.value)
  const went = cameIn(seen)
  const step = path[went]?.spot.job?.step
  const since = step && step !== seen.spot.job?.step ? ` since ${stepLabel(step, subjects)}` : ''
  const name = person(role, subjects)
  return {
    subject: `${zoneName(zone, subjects)}/${stateName(state, subjects)}`,
    cause: seen.spot.job?.step.id ?? 'start',
    at: placeOfChange(seen, state),
    message: `${stateName(state, subjects)} goes ${value} at ${label}, and ${name.toLowerCase()} is in ${zoneWords(zone, subjects)}${since}. There, it must be ${wantedValues(claimOf(seen), subjects)}.`,
    advice: `Count everyone out first: write \`clear: [${zoneName(zone, subjects)}]\` at ${label}, or send ${name.toLowerCase()} out before it.`,
    related: step ? [{ at: step.at, message: `${name} goes in here.` }] : [],
    states: [state],
    roles: [role],
  }
}

/** Somebody goes into a zone to which a role must admit him. */
export function tellNotAdmitted(seen: Seen, admits: number): Told {
  const { plan, sighting } = seen
  const { about: zone, role } = sighting
  const { subjects } = plan
  const officer = subjects.roles[admits] ?? ''
  const where = here(seen)
  return {
    subject: `${zoneName(zone, subjects)}/${officer}`,
    cause: seen.spot.job?.step.id ?? 'start',
    at: placeOfMove(seen, role),
    message: `${person(role, subjects)} is in ${zoneWords(zone, subjects)} at ${where}, and ${officer.replaceAll('-', ' ')} has let nobody in.`,
    advice: `Let ${officer} sign first: write \`hold-before: { ${officer}: what he has checked }\` at ${where}, or a \`permit\` of ${officer}.`,
    related: [],
    states: [],
    roles: [role],
  }
}

export function claimOf(seen: Seen): CompactClaim {
  const { about: zone, other: state } = seen.sighting
  const claim = seen.plan.subjects.safeWhen[zone]?.find((candidate) => candidate.state === state)
  return claim ?? { state, ok: new Uint8Array() }
}

/** Of the values a step runs through, the one that is not safe. */
function worstValue(seen: Seen, last: number): string {
  const { other: state } = seen.sighting
  const { ok } = claimOf(seen)
  const moments = seen.spot.job?.moments ?? []
  const values = moments.flatMap((moment) => {
    if (moment.is === 'change' && moment.state === state) return [moment.value]
    if (moment.is === 'any-order') return moment.lists.flat().flatMap((one) => (one.state === state ? [one.value] : []))
    return []
  })
  return valueName(state, values.find((value) => ok[value] !== 1) ?? last, seen.plan.subjects)
}

/** The place on the way where he was last told where to be. */
function cameIn(seen: Seen): number {
  const { role } = seen.sighting
  return lastPlace(seen.path, ({ spot }) =>
    (spot.job ? [...spot.job.moves, ...spot.job.enters] : (spot.door?.moves ?? [])).some((move) => move.role === role),
  )
}

function proofWords(seen: Seen, state: number): string {
  const provers = seen.plan.subjects.states[state]?.provedBy ?? []
  return provers.length === 0 ? '' : `, and have it proved by ${listed(provers, 'or')},`
}
