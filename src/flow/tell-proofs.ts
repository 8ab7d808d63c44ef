import { lastPlace } from './path.ts'
import { claimOf, tellNotAdmitted } from './tell-zones.ts'
import {
  causeOf,
  changeBefore,
  changeBy,
  here,
  history,
  placeHere,
  placeOfMove,
  relatedTo,
  type Seen,
  type Told,
} from './telling.ts'
import { listed, person, stateName, stepLabel, valueName, wantedValues, zoneName, zoneWords } from './words.ts'

export function tellProofMissing(seen: Seen): Told {
  const { plan, sighting } = seen
  if (sighting.about < 0) return tellProvesWithoutProof(seen)
  const admits = sighting.other - plan.subjects.states.length
  if (admits >= 0) return tellNotAdmitted(seen, admits)
  return tellUnproved(seen, ({ name, value }) => `nothing on any way there proves that ${name} is ${value}`)
}

export function tellProofBypassed(seen: Seen): Told {
  const { plan, sighting, run } = seen
  const elsewhere = [...run.provedAt].flatMap((key) => {
    const [state, number] = key.split(' ')
    return Number(state) === sighting.other && number ? [number] : []
  })
  const { subjects } = plan
  const told = tellUnproved(
    seen,
    ({ name, value }) =>
      `this way goes past the step that proves ${name} ${value} (${listed([...new Set(elsewhere)], 'or')})`,
  )
  return {
    ...told,
    advice: `Prove ${stateName(sighting.other, subjects)} on this way, too, or where the ways have met again before ${here(seen)}.`,
  }
}

export function tellProofStale(seen: Seen): Told {
  const change = changeBy(seen, seen.sighting.other)
  return tellUnproved(seen, () => `${history(seen, seen.sighting.other, change)} and nothing has been proved since`)
}

export function tellProofLapsed(seen: Seen): Told {
  const { plan, path, sighting } = seen
  const { other: state } = sighting
  const waited = lastPlace(path, ({ spot }) => spot.job?.moments.some((moment) => moment.is === 'wait') ?? false)
  const proved = lastPlace(
    path,
    ({ spot, isOut }) => !isOut && (spot.job?.proves.some((one) => one.state === state) ?? false),
  )
  const label = (index: number): string => {
    const step = path[index]?.spot.job?.step
    return step ? stepLabel(step, plan.subjects) : 'the start'
  }
  const lapses = plan.subjects.states[state]?.lapses ?? ''
  const told = tellUnproved(
    seen,
    ({ name }) =>
      `the proof of ${name} from ${label(proved)} holds for ${lapses} and is too old after the wait at ${label(waited)}`,
  )
  const now = valueName(state, changeBy(seen, state).value, plan.subjects)
  return {
    ...told,
    cause: causeOf(seen, waited),
    advice: `Prove ${stateName(state, plan.subjects)} again after ${label(waited)} and before ${here(seen)}: ${howToProve(seen, state, now)}.`,
    related: relatedTo(seen, waited, 'Here time passes.'),
  }
}

interface Named {
  readonly name: string
  readonly value: string
}

function tellUnproved(seen: Seen, because: (named: Named) => string): Told {
  const { plan, sighting } = seen
  const { about: zone, other: state, role } = sighting
  const { subjects } = plan
  const change = changeBy(seen, state)
  const named = { name: stateName(state, subjects), value: wantedValues(claimOf(seen), subjects) }
  const now = valueName(state, change.value, subjects)
  const since = seen.path[change.index]?.spot.job?.step
  const span =
    since && since !== seen.spot.job?.step
      ? `between ${stepLabel(since, subjects)} and ${here(seen)}`
      : `before ${here(seen)}`
  return {
    subject: `${zoneName(zone, subjects)}/${named.name}`,
    cause: causeOf(seen, change.index),
    at: placeOfMove(seen, role),
    message: `${person(role, subjects)} is in ${zoneWords(zone, subjects)} at ${here(seen)}, but ${because(named)}.`,
    advice: `Prove ${named.name} ${now} ${span}: ${howToProve(seen, state, now)}.`,
    related: relatedTo(seen, change.index, `Here ${named.name} went ${now}.`),
    states: [state],
    roles: [role],
  }
}

/** `hold: { supervisor: what he saw }` with `proves: { power: isolated }`. */
export function howToProve(seen: Seen, state: number, value: string): string {
  const { subjects } = seen.plan
  const provers = subjects.states[state]?.provedBy ?? []
  const role = provers.find((prover) => subjects.roleNumber.has(prover))
  const ways = role
    ? `\`hold: { ${role}: what was seen }\``
    : provers.includes('test')
      ? 'a `check` that passes'
      : 'a `measure` with a limit'
  return `${ways} with \`proves: { ${stateName(state, subjects)}: ${value} }\``
}

function tellProvesWithoutProof(seen: Seen): Told {
  const { plan, sighting, spot } = seen
  const { other: state } = sighting
  const { subjects } = plan
  const name = stateName(state, subjects)
  const provers = subjects.states[state]?.provedBy ?? []
  const claim = spot.job?.step.proves.find((proof) => proof.state === name)
  return {
    subject: name,
    cause: spot.job?.step.id ?? 'start',
    at: claim?.at ?? placeHere(seen),
    message: `Step ${here(seen)} says that it proves ${name}, but ${name} is proved by ${listed(provers, 'or')}, and the step has no such thing.`,
    advice: `Add ${howToProve(seen, state, claim?.values[0] ?? '').split(' with ')[0]} to the step, or take \`proves\` out.`,
    related: [],
    states: [state],
    roles: [],
  }
}

export function tellSigner(seen: Seen): Told {
  const { plan, sighting, spot } = seen
  const { about: state, role } = sighting
  const { subjects } = plan
  const change = changeBefore(seen, state)
  const name = stateName(state, subjects)
  const by = seen.path[change.index]?.spot.job?.step
  const isActor = spot.job?.actors.includes(role) ?? false
  const did = isActor || by === undefined ? 'does that step' : `made it so at ${stepLabel(by, subjects)}`
  return {
    subject: name,
    cause: isActor ? (spot.job?.step.id ?? 'start') : causeOf(seen, change.index),
    at: spot.job?.step.holds.find((hold) => hold.role === subjects.roles[role])?.at ?? placeHere(seen),
    message: `${person(role, subjects)} signs at ${here(seen)} for ${name}, and ${did}. Nobody proves his own work.`,
    advice: `Let another role of \`proved-by\` sign, or give the work to somebody else.`,
    related: isActor ? [] : relatedTo(seen, change.index, 'The change that is proved.'),
    states: [state],
    roles: [],
  }
}

export function tellResume(seen: Seen): Told {
  const { plan, sighting, path } = seen
  const { about: state } = sighting
  const { subjects } = plan
  const name = stateName(state, subjects)
  const change = changeBefore(seen, state)
  const value = valueName(state, change.value, subjects)
  const proved = lastPlace(
    path,
    ({ spot, isOut }) => !isOut && (spot.job?.proves.some((one) => one.state === state) ?? false),
  )
  const step = path[proved]?.spot.job?.step
  const at = step ? ` The step that proved it, ${stepLabel(step, subjects)}, cannot be done then as it stands.` : ''
  return {
    subject: name,
    cause: causeOf(seen, proved),
    at: placeHere(seen),
    message: `If the work pauses before ${here(seen)}, somebody later relies on ${name} ${value}, and no step can prove it again.${at}`,
    advice: `Write a step that proves ${name} ${value} from outside and changes nothing, or add a role to its \`proved-by\`.`,
    related: step ? [{ at: step.at, message: 'It is proved here.' }] : [],
    states: [state],
    roles: [],
  }
}
