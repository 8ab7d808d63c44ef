import type { Consequence } from '../model/outcomes.ts'
import type { State } from '../model/states.ts'
import type { Place } from '../text/place.ts'
import type { LastChange } from './path.ts'
import type { Plan } from './plan.ts'
import type { CompactClaim } from './subjects.ts'
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
  stepBefore,
  type Told,
} from './telling.ts'
import { listed, stateName, stepLabel, valueName, wantedValues } from './words.ts'

/** A step needs a state to be otherwise, or proves what is not so. */
export function tellNeed(seen: Seen): Told {
  const { plan, sighting, spot } = seen
  const { about: state } = sighting
  const { subjects } = plan
  const name = stateName(state, subjects)
  const isProof = sighting.other === 1
  const change = isProof ? changeBy(seen, state) : changeBefore(seen, state)
  const claims = isProof ? (spot.job?.proves ?? []) : (spot.job?.needs ?? [])
  const claim = claims.find((candidate) => candidate.state === state)
  const wanted = claim ? wantedValues(claim, subjects) : ''
  const typed = isProof ? spot.job?.step.proves : [...(spot.job?.step.needs ?? []), ...(spot.job?.phase.needs ?? [])]
  return {
    subject: name,
    cause: causeOf(seen, change.index),
    at: typed?.find((candidate) => candidate.state === name)?.at ?? placeHere(seen),
    message: `Step ${here(seen)} ${isProof ? 'proves' : 'needs'} ${name} ${wanted}, but ${history(seen, state, change)}.`,
    advice: isProof
      ? `Prove what is so, or bring ${name} to ${wanted} before.`
      : `Bring ${name} to ${wanted} before ${here(seen)}, on this way, too.`,
    related: relatedTo(seen, change.index, `Here ${name} went ${valueName(state, change.value, subjects)}.`),
    states: [state],
    roles: [],
  }
}

export function tellUnheld(seen: Seen): Told {
  const { plan, sighting } = seen
  const { about: state } = sighting
  const { subjects } = plan
  const name = stateName(state, subjects)
  const alternatives = plan.heldBy.get(state) ?? []
  const others = [...new Set([state, ...alternatives.flat().map((claim) => claim.state)])]
  const latest = latestOf(seen, others)
  const ways = alternatives.map((claims) => inWords(claims, seen))
  return {
    subject: name,
    cause: causeOf(seen, latest.change.index),
    at: placeOfChange(seen, latest.state),
    message: `Nothing holds ${name} at ${here(seen)}: ${history(seen, latest.state, latest.change)}. One of these must hold it: ${ways.join('; ')}.`,
    advice: `Have ${name} held another way before ${here(seen)}, and only then ${whatChanges(seen, latest)}.`,
    related: relatedTo(seen, latest.change.index, 'Here the last thing that held it is gone.'),
    states: others,
    roles: [],
  }
}

export function tellForbidden(seen: Seen): Told {
  const { plan, sighting } = seen
  const { subjects } = plan
  const ban = subjects.procedure.never[sighting.about]
  const claims = plan.never[sighting.about] ?? []
  const states = claims.map((claim) => claim.state)
  const latest = latestOf(seen, states)
  const because = ban?.because ? ` ${ban.because}` : ''
  return {
    subject: states
      .map((state) => stateName(state, subjects))
      .sort()
      .join('+'),
    cause: causeOf(seen, latest.change.index),
    at: placeOfChange(seen, latest.state),
    message: `At ${here(seen)} it comes about that ${inWords(claims, seen)}, which must never be.${because}`,
    advice: `Change the order, so that the other is over before ${whatChanges(seen, latest)}; or forbid it by \`needs\` and mend the way that leads here.`,
    related: ban ? [{ at: ban.at, message: 'It is forbidden here.' }] : [],
    states,
    roles: [],
  }
}

export function tellSpan(seen: Seen): Told {
  const { plan, sighting, spot } = seen
  const { about: state, other: keep } = sighting
  const { subjects } = plan
  const keeping = plan.keeps[keep]
  const claim = keeping?.claims.find((candidate) => candidate.state === state)
  const change = changeBy(seen, state)
  const wanted = claim ? wantedValues(claim, subjects) : ''
  const name = stateName(state, subjects)
  return {
    subject: name,
    cause: causeOf(seen, change.index),
    at: placeOfChange(seen, state),
    message: `"${keeping?.name ?? ''}" keeps ${name} ${wanted} throughout, but at ${here(seen)} ${history(seen, state, change)}.`,
    advice: `Leave ${name} alone until then, or end the \`keep\` before ${here(seen)} with \`through\`.`,
    related: spot.home?.keeps.map((one) => ({ at: one.at, message: 'It must hold from here.' })).slice(0, 1) ?? [],
    states: [state],
    roles: [],
  }
}

export function tellGuard(seen: Seen): Told {
  const { plan, sighting } = seen
  const { about: state } = sighting
  const { subjects } = plan
  const name = stateName(state, subjects)
  // A guard that the same step refits is still off while the state changes.
  const isOff = (guard: Plan['guards'][number]): boolean =>
    changeBefore(seen, guard.state).value === guard.removed || changeBy(seen, guard.state).value === guard.removed
  const off = plan.guards.filter(isOff)
  const guards = off.map((guard) => {
    const step = seen.path[changeBefore(seen, guard.state).index]?.spot.job?.step
    return `${stateName(guard.state, subjects)} (removed at ${step ? stepLabel(step, subjects) : 'the start'})`
  })
  const [value] = (seen.spot.job?.step.sets ?? []).flatMap((set) =>
    set.state === name ? set.values.filter((one) => !(subjects.states[state]?.safe ?? []).includes(one)) : [],
  )
  return {
    subject: name,
    cause: seen.spot.job?.step.id ?? 'start',
    at: placeOfChange(seen, state),
    message: `${name} goes ${value ?? 'unsafe'} at ${here(seen)} while a guard is off: ${listed(guards, 'and')}.`,
    advice: `Refit it before ${here(seen)}, or say by \`exposed\` why it must stay off.`,
    related: [],
    states: [state, ...off.map((guard) => guard.state)],
    roles: [],
  }
}

export function tellNotPutBack(seen: Seen): Told {
  const { plan, sighting } = seen
  const { about: state } = sighting
  const { subjects } = plan
  const name = stateName(state, subjects)
  const change = changeBefore(seen, state)
  const value = valueName(state, change.value, subjects)
  const wanted = listed(subjects.states[state]?.end ?? [], 'or')
  const step = seen.path[change.index]?.spot.job?.step
  const isSnug = value === 'snug'
  const typed = typedReturn(name, subjects.states[state])
  return {
    subject: name,
    cause: causeOf(seen, change.index),
    at: step?.at ?? subjects.states[state]?.at ?? placeHere(seen),
    message: isSnug
      ? `${name} is only snug at the end: ${history(seen, state, change)}, and nothing tightens it on this way.`
      : `At the end ${name} must be ${wanted}, but ${history(seen, state, change)}.`,
    advice: isSnug
      ? `Write the final \`torque\` of ${name} on every way that comes here.`
      : `Bring ${name} back to ${wanted} on every way to the end${step ? ` after ${stepLabel(step, subjects)}` : ''}${typed === null ? '' : `: \`${typed}\` at the step that does it`}.`,
    related: subjects.states[state] ? [{ at: subjects.states[state].at, message: `${name} is first named here.` }] : [],
    states: [state],
    roles: [],
  }
}

/** What brings a state back, as it is typed; null where that is not one line. */
function typedReturn(name: string, declared: State | undefined): string | null {
  const [end] = declared?.end ?? []
  if (declared === undefined || end === undefined) return null
  if (!declared.implied) return `sets: { ${name}: ${end} }`
  return end === 'fitted' ? `refits: [${name}]` : null
}

export function tellStop(seen: Seen): Told {
  const { plan, sighting, spot, path } = seen
  const { about: state } = sighting
  const { subjects } = plan
  const name = stateName(state, subjects)
  const isStop = spot.node.kind === 'stop'
  const change = isStop ? changeBefore(seen, state) : changeBy(seen, state)
  const value = valueName(state, change.value, subjects)
  const named = spot.leave.find((claim) => claim.state === state)
  const step = stepBefore(path)
  const what = isStop ? `Where the job stops at ${here(seen)}` : `While ${here(seen)} waits an hour or more`
  return {
    subject: name,
    cause: `${spot.job?.step.id ?? step?.id ?? 'start'} ${causeOf(seen, change.index)}`,
    at: (step && placeOfStop(step.consequences, spot.node.reason)) ?? placeHere(seen),
    message: named
      ? `${what}, \`leave\` says ${name} ${wantedValues(named, subjects)}, but ${history(seen, state, change)}.`
      : `${what}, ${name} is left ${value}: ${history(seen, state, change)}. That is neither safe nor as it must be at the end.`,
    advice: isStop
      ? `Name it there: \`leave: { ${name}: ${value} }\`, or make it safe before. If ${value} hurts nobody, add it to \`safe\` of ${name}.`
      : `Make ${name} safe before the wait, or, if ${value} hurts nobody, add it to its \`safe\`.`,
    related: relatedTo(seen, change.index, `Here ${name} went ${value}.`),
    states: [state],
    roles: [],
  }
}

function placeOfStop(consequences: readonly Consequence[], reason: string | null): Place | null {
  for (const consequence of consequences) {
    if (consequence.action === 'stop' && consequence.reason === reason) return consequence.at
    const then = consequence.then && placeOfStop([consequence.then], reason)
    if (then) return then
  }
  return null
}

interface Latest {
  readonly state: number
  readonly change: LastChange
}

/** Of several states, the one that changed last. */
function latestOf(seen: Seen, states: readonly number[]): Latest {
  const changes = states.map((state): Latest => ({ state, change: changeBy(seen, state) }))
  return changes.reduce(
    (latest, next) => (next.change.index > latest.change.index ? next : latest),
    changes[0] ?? { state: 0, change: { index: -1, value: 0 } },
  )
}

function whatChanges(seen: Seen, { state, change }: Latest): string {
  const { subjects } = seen.plan
  return `${stateName(state, subjects)} goes ${valueName(state, change.value, subjects)}`
}

function inWords(claims: readonly CompactClaim[], seen: Seen): string {
  const { subjects } = seen.plan
  return listed(
    claims.map((claim) => `${stateName(claim.state, subjects)} ${wantedValues(claim, subjects)}`),
    'and',
  )
}
