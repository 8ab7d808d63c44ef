import { lastPlace } from './path.ts'
import {
  causeOf,
  changeBefore,
  changeBy,
  here,
  history,
  placeHere,
  placeOfChange,
  relatedTo,
  type Seen,
  type Told,
} from './telling.ts'
import { listed, person, stateName, stepLabel, zoneName, zoneWords } from './words.ts'

export function tellUnpaired(seen: Seen): Told {
  const { plan, sighting, spot, path } = seen
  const { about: thing, role } = sighting
  const { subjects } = plan
  const name = stateName(thing, subjects)
  const named = (subjects.roles[role] ?? '').replaceAll('-', ' ')
  const isAtEnd = spot.job === null
  const isLocking = spot.job?.moments.some((moment) => moment.is === 'lock' && moment.thing === thing) ?? false
  const putOn = lastPlace(path.slice(0, -1), (passed) =>
    (passed.spot.job?.moments ?? []).some(
      (moment) => moment.is === 'lock' && moment.thing === thing && moment.roles.includes(role),
    ),
  )
  const step = path[putOn]?.spot.job?.step
  const since = step ? `; it went on at ${stepLabel(step, subjects)}` : ''
  const lock = named === '' ? 'A lock' : `The lock of ${named}`
  const message = isAtEnd
    ? `${lock} is still on ${name} at the end${since}.`
    : isLocking
      ? `${lock} goes on ${name} at ${here(seen)}, and is on it already${since}.`
      : `${lock} comes off ${name} at ${here(seen)}, but none is on it.`
  return {
    subject: name,
    cause: isAtEnd ? causeOf(seen, putOn) : (spot.job?.step.id ?? 'start'),
    at: step && isAtEnd ? step.at : placeHere(seen),
    message,
    advice: isAtEnd
      ? `Write \`unlocks: [${name}]\`${named === '' ? '' : `, by ${named},`} on every way to the end.`
      : 'Each person puts one lock on, and takes off the same one.',
    related: [],
    states: [thing],
    roles: [],
  }
}

export function tellLockout(seen: Seen): Told {
  const { plan, sighting, spot } = seen
  const { about: thing, other: state, role } = sighting
  const { subjects } = plan
  const lock = stateName(thing, subjects)
  const name = stateName(state, subjects)
  const safe = listed(subjects.states[state]?.safe ?? [], 'or')
  const moments = spot.job?.moments ?? []
  const change = changeBy(seen, state)
  const common = {
    subject: lock,
    cause: spot.job?.step.id ?? 'start',
    related: relatedTo(seen, changeBefore(seen, state).index, `The last change of ${name}.`),
    states: [state, thing],
    roles: role >= 0 ? [role] : [],
  }
  if (role >= 0)
    return {
      ...common,
      at: placeHere(seen),
      message: `The lock comes off ${lock} at ${here(seen)} while ${person(role, subjects).toLowerCase()} is where ${name} must be ${safe}.`,
      advice: 'Bring everyone out and count heads before a lock comes off.',
    }
  if (
    moments.some(
      (moment) => moment.is === 'locked' && moment.pairs.some((pair) => pair.thing === thing && pair.state === state),
    )
  )
    return {
      ...common,
      at: placeHere(seen),
      message: `The lock goes on ${lock} at ${here(seen)}, but ${history(seen, state, change)}. It locks nothing that is ${safe}.`,
      advice: `Bring ${name} to ${safe} first, then lock.`,
    }
  if (spot.job?.proves.some((proof) => proof.state === state))
    return {
      ...common,
      at: placeHere(seen),
      message: `At ${here(seen)} ${name} is proved ${safe}, and no lock is on ${lock}. Anybody can undo it behind the back of those who rely on it.`,
      advice: `Lock first (\`locks: [${lock}]\`), then try and prove.`,
    }
  return {
    ...common,
    at: placeOfChange(seen, state),
    message: `${name} leaves ${safe} at ${here(seen)} while a lock is on ${lock}.`,
    advice: `Bring everyone out, take the locks off (\`unlocks: [${lock}]\`), and only then change ${name}.`,
  }
}

export function tellReading(seen: Seen): Told {
  const { plan, sighting, spot, path } = seen
  const { subjects } = plan
  const reading = plan.readings.tracked[sighting.about]
  const name = reading?.name ?? ''
  const spoiled = lastPlace(path, (passed) => passed.spot.job?.spoils.includes(sighting.about) ?? false)
  const isStale = sighting.fault === 'reading-stale'
  const by = path[spoiled]?.spot.job?.step
  return {
    subject: reading?.id ?? '',
    cause: isStale ? causeOf(seen, spoiled) : (spot.job?.step.id ?? spot.node.id),
    at: placeHere(seen),
    message: isStale
      ? `${capital(here(seen))} looks at ${name}, but ${by ? stepLabel(by, subjects) : 'a step'} made it worthless and nobody has taken it anew.`
      : `${capital(here(seen))} looks at ${name}, and on this way nobody has taken it.`,
    advice: isStale
      ? `Take ${name} again after ${by ? stepLabel(by, subjects) : 'that step'} and before ${here(seen)}.`
      : `Take ${name} on every way that comes to ${here(seen)}, or go past ${here(seen)} where it was not taken.`,
    related: isStale ? relatedTo(seen, spoiled, `Here ${name} is spoiled.`) : [],
    states: [],
    roles: [],
  }
}

export function tellExposed(seen: Seen): Told {
  const { plan, sighting, spot } = seen
  const { subjects } = plan
  const all = [...(spot.job?.step.exposed ?? []), ...(spot.job?.phase.exposed ?? [])]
  const exposed = all[sighting.other]
  const who = (exposed?.who ?? []).map((role) => role.replaceAll('-', ' '))
  return {
    subject: zoneName(sighting.about, subjects),
    cause: exposed ? `${exposed.at.file} ${exposed.at.start}` : 'start',
    at: exposed?.at ?? placeHere(seen),
    message:
      `${capital(listed(who, 'and'))} ${who.length > 1 ? 'are' : 'is'} on purpose in ${zoneWords(sighting.about, subjects)} at ${here(seen)}. ${exposed?.because ?? ''}`.trim(),
    advice:
      'Nothing shows that this place is safe. Whoever issues the procedure answers for the controls that are named.',
    related: [],
    states: [],
    roles: [],
  }
}

export function tellStuck(seen: Seen): Told {
  const { spot } = seen
  return {
    subject: spot.job?.step.id ?? spot.node.id,
    cause: spot.job?.step.id ?? spot.node.id,
    at: placeHere(seen),
    message: `From ${here(seen)} no way leads on: with these answers and readings nothing says what follows.`,
    advice: 'Give every answer and every side of a limit a way on: another branch, `otherwise`, or `stop`.',
    related: [],
    states: [],
    roles: [],
  }
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
