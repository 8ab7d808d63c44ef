import type { GraphNode } from '../model/graph.ts'
import type { Phase, Procedure } from '../model/procedure.ts'
import type { Spot } from './spots.ts'
import { homeOf, withSubSteps } from './subjects.ts'

/** A phase worked `together`: its steps run side by side, each on its own strand. */
export interface SideBySide {
  /** Number of the spot that stands for the phase while it lasts. */
  readonly spot: number
  readonly phase: Phase
  readonly strands: readonly Strand[]
}

/** One step of such a phase, with the steps that are done again on the way back to it. */
export interface Strand {
  readonly home: Spot
  /** All moments in a row; a situation says which comes next, counted from 1. */
  readonly moments: readonly { readonly spot: Spot; readonly moment: number }[]
  /** By number of a spot: its first moment. */
  readonly starts: ReadonlyMap<number, number>
}

/** The phases worked `together`, each with a spot of its own behind those of the graph. */
export function sideBySide(procedure: Procedure, spots: readonly Spot[]): readonly SideBySide[] {
  return procedure.phases
    .filter((phase) => phase.together && phase.steps.length > 0)
    .map((phase, index) => ({
      spot: spots.length + index,
      phase,
      strands: withSubSteps(phase.steps).flatMap((step) => {
        const own = spots.filter((spot) => spot.job !== null && homeOf(spot.node.id) === step.id)
        const home = own.find((spot) => spot.node.id === step.id)
        return home ? [strandOf(home, own)] : []
      }),
    }))
}

function strandOf(home: Spot, own: readonly Spot[]): Strand {
  const moments: { spot: Spot; moment: number }[] = []
  const starts = new Map<number, number>()
  for (const spot of [home, ...own.filter((other) => other !== home)]) {
    starts.set(spot.number, moments.length + 1)
    for (const moment of spot.job?.moments.keys() ?? []) moments.push({ spot, moment })
  }
  return { home, moments, starts }
}

/** The node that stands for a phase while its steps run side by side. */
export function standIn(phase: SideBySide): GraphNode {
  return { id: `together:${phase.phase.id}`, kind: 'step', phase: phase.phase.id, step: null, reason: null, leave: [] }
}
