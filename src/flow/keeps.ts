import type { Phase } from '../model/procedure.ts'
import type { Layout } from './layout.ts'
import { type CompactClaim, compactClaims, type Subjects, withSubSteps } from './subjects.ts'

/** A `keep` with states: what must hold, from where, and to where. */
export interface Keeping {
  readonly name: string
  readonly claims: readonly CompactClaim[]
  readonly phase: Phase | null
  readonly step: string | null
  readonly through: string | null
  /** Byte that says whether it is on, for those that end with a step. */
  readonly slot: number
}

export function keepsOf(subjects: Subjects): readonly Omit<Keeping, 'slot'>[] {
  return subjects.procedure.phases
    .flatMap((phase) => [
      ...phase.keeps.map((keep) => ({ keep, phase, step: null })),
      ...withSubSteps(phase.steps).flatMap((step) => step.keeps.map((keep) => ({ keep, phase: null, step: step.id }))),
    ])
    .flatMap(({ keep, phase, step }) => {
      const claims = compactClaims(keep.states, subjects)
      return claims.length === 0 ? [] : [{ name: keep.name, claims, phase, step, through: keep.through?.id ?? null }]
    })
}

export function withSlots(keeps: readonly Omit<Keeping, 'slot'>[], layout: Layout): readonly Keeping[] {
  let next = 0
  return keeps.map((keep) => ({ ...keep, slot: keep.through === null ? -1 : (layout.keeping[next++] ?? -1) }))
}
