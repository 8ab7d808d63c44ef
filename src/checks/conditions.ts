import type { Phase, Procedure } from '../model/procedure.ts'
import { type ConditionSpace, spaceOf } from '../quantities/condition-cells.ts'
import {
  type LeafContext,
  type Logic,
  leavesOf,
  type NamedDomain,
  type Subject,
} from '../quantities/condition-leaves.ts'
import type { NameNode } from '../quantities/expression.ts'
import { parseExpression } from '../quantities/parse-expression.ts'
import { oncePer } from '../text/once-per.ts'
import type { Place } from '../text/place.ts'
import { positionOf } from './condition-domains.ts'
import { everyStep } from './every-step.ts'

/** A condition that readings decide, and where it stands. */
export interface PlacedCondition {
  readonly text: string
  readonly at: Place
  /** Position of the repeat, or null. */
  readonly here: string | null
}

/** Every `when` and `until`, and every condition of a decision. */
export const everyCondition = oncePer((procedure: Procedure): readonly PlacedCondition[] => {
  const ofPhase = (phase: Phase) => [
    { text: phase.when, at: phase.at, here: positionOf(phase) },
    { text: phase.until?.condition ?? null, at: phase.at, here: positionOf(phase) },
  ]
  const ofSteps = everyStep(procedure).flatMap(({ step, phase }) => [
    { text: step.when, at: step.at, here: positionOf(phase) },
    ...(step.decide?.branches ?? []).map(({ when, at }) => ({ text: when, at, here: positionOf(phase) })),
  ])
  return [...procedure.phases.flatMap(ofPhase), ...ofSteps].flatMap(({ text, at, here }) =>
    text === null ? [] : [{ text, at, here }],
  )
})

/** A condition as questions about readings; null where it is beyond that, and nothing is claimed about it. */
export interface ReadCondition {
  readonly logic: Logic
  readonly subjects: ReadonlyMap<string, Subject>
}

export function readCondition(text: string, domainOf: (node: NameNode) => NamedDomain | null): ReadCondition | null {
  const parsed = text.includes('??') ? null : parseExpression(text)
  if (!parsed?.ok) return null
  const context: LeafContext = { text, domainOf, subjects: new Map() }
  const logic = leavesOf(parsed.value, context)
  return logic && { logic, subjects: context.subjects }
}

/** What can be seen of everything that these conditions ask, and which of them holds then; null where it is too much. */
export function spaceOfConditions(conditions: readonly ReadCondition[]): ConditionSpace | null {
  const subjects = new Map(conditions.flatMap((condition) => [...condition.subjects]))
  return spaceOf(
    [...subjects.values()],
    conditions.map(({ logic }) => logic),
  )
}
