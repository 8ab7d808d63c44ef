import type { Step } from '../../../src/model/procedure.ts'
import { actorsOf, type Facts, flat, idHere, positionsOf } from './facts.ts'
import { holds, isChosen } from './look.ts'
import type { Situation } from './situation.ts'
import { isProvedByReading, moved, needsOf } from './step.ts'

/** Whether a proof can be taken again behind a pause: by a role that signs, or by a step that can be done now. */
export function canBeResumed(id: string, s: Situation, facts: Facts): boolean {
  const state = facts.stateById.get(id)
  if (state === undefined) return true
  if (state.provedBy.some((by) => by !== 'reading' && by !== 'test')) return true
  return facts.steps.some(
    (step) =>
      isChosen(step, facts) &&
      step.proves.some((claim) => claim.state === id && holds(claim, s)) &&
      isProvedByReading(step, state.provedBy, facts) &&
      canBeDone(step, s, facts),
  )
}

function canBeDone(step: Step, s: Situation, facts: Facts): boolean {
  const { procedure, phaseOf } = facts
  const phase = phaseOf.get(step.id)
  const actors = actorsOf(step, facts)
  const siblings = flat(phase?.steps ?? [])
  const before = siblings.slice(0, siblings.indexOf(step))
  // Where they would be: as the phase says, then as the steps before it say, then as it says itself.
  let inside = moved({ ...s, people: {} }, phase?.where ?? [], actors)
  for (const other of before) inside = moved(inside, other.where, actorsOf(other, facts))
  inside = moved(moved(inside, step.where, actors), step.enters, actors)
  const zones = actors.flatMap((role) => inside.people[role] ?? [])
  const isSafe = zones.every((id) =>
    procedure.zones.find((zone) => zone.id === id)?.safeWhen.every((claim) => holds(claim, s)),
  )
  const thing = (typed: string) => s.values[idHere(typed, positionsOf(step, phase), procedure.states)]
  const isMade =
    step.sets.every((change) => s.values[change.state] === change.values.at(-1)) &&
    step.removes.every(({ id }) => thing(id) === 'removed') &&
    step.refits.every(({ id }) => thing(id) === 'fitted') &&
    step.putsOn.every(({ id }) => thing(id) === 'on') &&
    step.takesOff.every(({ id }) => thing(id) === 'off') &&
    step.snug.every(({ id }) => thing(id) === 'snug') &&
    step.torques.every(({ name }) => thing(name) !== 'snug')
  return needsOf(step, facts).every((claim) => holds(claim, s)) && isSafe && isMade
}
