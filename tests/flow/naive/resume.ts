import type { Step } from '../../../src/model/procedure.ts'
import { actorsOf, type Facts, idHere, positionsOf } from './facts.ts'
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
  const out: Situation = { ...s, people: {} }
  const placed = step.where.length > 0 ? out : moved(out, phase?.where ?? [], actors)
  const inside = moved(moved(placed, step.where, actors), step.enters, actors)
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
    step.locks.every(({ id }) => thing(id) === 'locked') &&
    step.unlocks.every(({ id }) => thing(id) === 'unlocked')
  return needsOf(step, facts).every((claim) => holds(claim, s)) && isSafe && isMade
}
