import { type BlockNode, valueAt } from '../../syntax/block-node.ts'
import { idsFor, type Names } from '../names.ts'
import type { CountedThing, Whereabouts } from '../procedure.ts'
import type { Change, Claim } from '../states.ts'
import { entriesOf, itemsOf, scalarsOf, textAt } from './read-node.ts'

/** Names as they mean here: in which pass of a repeat, and what there is. */
export interface Scope {
  readonly positions: readonly string[]
  readonly states: Names
  readonly zones: Names
}

/** `{ power: isolated, axle: [on-tyres, on-stands] }`. */
export function claimsFrom(node: BlockNode | undefined, scope: Scope): readonly Claim[] {
  return entriesOf(node).flatMap((entry) =>
    idsFor(entry.key, scope.positions, scope.states).map((state) => ({
      state,
      values: scalarsOf(entry.value).map((scalar) => scalar.text),
      at: entry.keyAt,
    })),
  )
}

/** `{ engine: [running, stopped] }`: there and back, in order. */
export function changesFrom(node: BlockNode | undefined, scope: Scope): readonly Change[] {
  return claimsFrom(node, scope)
}

/** `{ everyone: [out] }` or `{ fitter: [under-belt], driver: [cab] }`. */
export function whereaboutsFrom(node: BlockNode | undefined, scope: Scope): readonly Whereabouts[] {
  return entriesOf(node).map((entry) =>
    whereabouts(entry.key === 'everyone' ? null : roleId(entry.key), entry.value, scope),
  )
}

function whereabouts(role: string | null, zones: BlockNode, scope: Scope): Whereabouts {
  return {
    role,
    zones: scalarsOf(zones).flatMap((zone) => (zone.text === 'out' ? ['out'] : zonesFor(zone.text, scope))),
    at: zones.at,
  }
}

export function zonesFor(typed: string, scope: Scope): readonly string[] {
  return idsFor(typed, scope.positions, scope.zones)
}

/** `[{ thing: wheel-nut, count: 24 }]`; a count is a number or the name of a count. */
export function countedThings(node: BlockNode | undefined): readonly CountedThing[] {
  return itemsOf(node).flatMap((item) => {
    const thing = valueAt(item, 'thing')
    return thing?.kind === 'scalar' ? [{ id: thing.text, count: textAt(item, 'count'), at: thing.at }] : []
  })
}

/** Letter case and blanks do not matter in a role: `Shift supervisor` is `shift-supervisor`. */
export function roleId(typed: string): string {
  return typed.trim().toLowerCase().replace(/\s+/g, '-')
}
