import type { Place } from '../text/place.ts'
import { duplicateId } from './faults/faults.ts'
import { type Reading, report } from './markdown/reading.ts'
import type { WrittenId, WrittenPhase, WrittenStep } from './written.ts'

type WithIds = Pick<WrittenPhase, 'id' | 'steps' | 'branches'>

/** Phases, branches, steps and sub-steps share their ids: a link to one must lead to one place. */
export function checkIds(reading: Reading, phases: readonly WithIds[]): void {
  const seen = new Map<string, Place>()
  for (const { id, at } of phases.flatMap(idsOf)) {
    const first = seen.get(id)
    if (first === undefined) {
      seen.set(id, at)
      continue
    }
    report(reading, duplicateId, {
      at,
      message: `The id "${id}" stands twice.`,
      advice: `Give this one another name, for example {#${id}-2}, and look at the links to it.`,
      related: [{ at: first, message: `The first "${id}" stands here.` }],
    })
  }
}

function idsOf(phase: WithIds): readonly WrittenId[] {
  return [...ownId(phase), ...phase.steps.flatMap(stepIds), ...phase.branches.flatMap(idsOf)]
}

function stepIds(step: WrittenStep): readonly WrittenId[] {
  return [...ownId(step), ...step.steps.flatMap(stepIds)]
}

function ownId(part: { readonly id: WrittenId | null }): readonly WrittenId[] {
  return part.id === null ? [] : [part.id]
}
