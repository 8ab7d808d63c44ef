import type { Consequence } from '../model/outcomes.ts'
import type { Procedure, Step, Whereabouts } from '../model/procedure.ts'
import type { Claim } from '../model/states.ts'
import { withSubSteps } from './subjects.ts'

/**
 * Whether every state, value, zone and role that the ways rest on is declared. Where one is not, checks of names say so;
 * following ways past a misspelt name would only tell the same mistake again in other words.
 */
export function hasKnownNames(procedure: Procedure): boolean {
  const states = new Map(procedure.states.map((state) => [state.id, new Set([...state.values, 'unknown'])]))
  const zones = new Set(['out', ...procedure.zones.map((zone) => zone.id)])
  const roles = new Set(procedure.roles.map((role) => role.id))
  const isRole = (role: string): boolean => roles.size === 0 || roles.has(role)
  const isClaim = ({ state, values }: Claim): boolean => {
    const known = states.get(state)
    return known !== undefined && values.length > 0 && values.every((value) => known.has(value))
  }
  const isWhere = (where: Whereabouts): boolean =>
    (where.role === null || isRole(where.role)) && where.zones.every((zone) => zones.has(zone))
  const steps = procedure.phases.flatMap((phase) => withSubSteps(phase.steps))
  return (
    procedure.states.every((state) => isClaim({ ...state, state: state.id, values: [state.start, ...state.end] })) &&
    [
      ...procedure.states.flatMap((state) => state.heldBy.flat()),
      ...procedure.zones.flatMap((zone) => zone.safeWhen),
      ...procedure.never.flatMap((never) => never.when),
      ...procedure.phases.flatMap((phase) => [...phase.needs, ...phase.keeps.flatMap((keep) => keep.states)]),
      ...steps.flatMap(claimsOf),
    ].every(isClaim) &&
    procedure.zones.every((zone) => zone.entry === null || isRole(zone.entry)) &&
    procedure.phases.every((phase) => phase.where.every(isWhere) && phase.clear.every((zone) => zones.has(zone))) &&
    procedure.phases.every((phase) => phase.by.every(isRole)) &&
    steps.every(
      (step) =>
        [...step.where, ...step.enters].every(isWhere) &&
        step.clear.every((zone) => zones.has(zone)) &&
        [...step.by, ...step.acts.flatMap((act) => act.by)].every(isRole),
    )
  )
}

function claimsOf(step: Step): readonly Claim[] {
  return [
    ...step.needs,
    ...step.sets,
    ...step.proves,
    ...step.keeps.flatMap((keep) => keep.states),
    ...step.consequences.flatMap(leftBy),
    ...(step.decide?.branches.flatMap((branch) => branch.leave) ?? []),
  ]
}

function leftBy(consequence: Consequence): readonly Claim[] {
  return [...consequence.leave, ...(consequence.then ? leftBy(consequence.then) : [])]
}
