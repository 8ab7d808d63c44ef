import type { GraphEdge, GraphNode } from '../../../src/model/graph.ts'
import type { Phase, Step } from '../../../src/model/procedure.ts'
import { answersTo, canFail, type Here, hereOf, readingsLookedAt } from './conditions.ts'
import { applies, type Facts } from './facts.ts'
import { type Situation, without } from './situation.ts'

export interface Left {
  readonly to: string
  readonly situation: Situation
}

/** Readings that the conditions on the ways out of a node look at, where it is left in this way. */
export function readingsAtLeaving(
  node: GraphNode,
  outcome: GraphEdge['outcome'],
  step: Step | null,
  phase: Phase | undefined,
  facts: Facts,
): readonly string[] {
  const conditions = (facts.edgesFrom.get(node.id) ?? []).flatMap((edge) =>
    edge.outcome === outcome && edge.when !== null ? [edge.when] : [],
  )
  return [...new Set(conditions.flatMap((text) => readingsLookedAt(text, hereOf(step, phase), facts)))]
}

/** Where one may go on from a node, and the situation on each way. */
export function leave(
  node: GraphNode,
  step: Step | null,
  phase: Phase | undefined,
  outcome: GraphEdge['outcome'],
  situation: Situation,
  facts: Facts,
): readonly Left[] {
  const edges = facts.edgesFrom.get(node.id) ?? []
  const outcomes =
    outcome === 'failed' && goesOnAllTheSame(step, edges, situation, facts) ? ['failed', 'passed'] : [outcome]
  return edges
    .filter((edge) => outcomes.includes(edge.outcome))
    .filter((edge) => edge.usedUp === null || isUsedUp(edge.usedUp, situation, facts))
    .filter((edge) => edge.way === null || !isUsedUp(edge.way, situation, facts))
    .flatMap((edge) => {
      const { when } = edge
      const agreeing = when === null ? [situation] : where(true, when, situation, hereOf(step, phase), facts)
      return agreeing.map((after) => ({
        to: edge.to,
        situation: { ...after, tries: counted(after, node, edge, facts) },
      }))
    })
}

/** `at-most: 3` counts the first try, so its way back is taken twice. */
function isUsedUp(way: string, { tries }: Situation, { procedure }: Facts): boolean {
  const most = procedure.graph.edges.find((edge) => edge.way === way)?.atMost ?? null
  return most !== null && (tries[way] ?? 0) >= most - 1
}

/** Out of limit, and nobody said what then. */
function goesOnAllTheSame(step: Step | null, edges: readonly GraphEdge[], s: Situation, facts: Facts): boolean {
  const endsWithoutThen = edges.some(
    ({ way, outcome }) =>
      outcome === 'failed' && way !== null && isUsedUp(way, s, facts) && !edges.some((other) => other.usedUp === way),
  )
  return step !== null && (endsWithoutThen || hasUnanswered(step, facts))
}

/** Whether some side of some reading of the step is out of limit without a word on what follows. */
function hasUnanswered(step: Step, { chosen }: Facts): boolean {
  return step.readings
    .filter((reading) => applies(reading.only, chosen) && canFail(reading))
    .some((reading) => {
      const { limit } = reading
      const sides = limit === null ? ['out'] : [...(limit.lower ? ['low'] : []), ...(limit.upper ? ['high'] : [])]
      const answers = step.consequences.filter((one) => one.reading === null || one.reading === reading.name)
      return sides.some((side) => !answers.some((one) => one.on === 'out' || one.on === side))
    })
}

export function where(
  wanted: boolean,
  condition: string,
  s: Situation,
  here: Here,
  facts: Facts,
): readonly Situation[] {
  return answersTo(condition, s, here, facts).flatMap((one) => (one.value === wanted ? [one.situation] : []))
}

/**
 * A bounded way counts up when taken. A step's own ways start anew when it is left by none of them; that of a repeat, when
 * the repeat is left or begun afresh.
 */
function counted(s: Situation, node: GraphNode, edge: GraphEdge, facts: Facts): Situation['tries'] {
  const own = (facts.edgesFrom.get(node.id) ?? []).flatMap(({ way }) => (way === null || isOfRepeat(way) ? [] : [way]))
  const isOwn = edge.way !== null && own.includes(edge.way)
  const kept = without(s.tries, (way) =>
    isOfRepeat(way) ? way !== edge.way && !staysInRepeat(way, edge.to, facts) : own.includes(way) && !isOwn,
  )
  return edge.way === null ? kept : { ...kept, [edge.way]: (s.tries[edge.way] ?? 0) + 1 }
}

const isOfRepeat = (way: string): boolean => way.startsWith('until:')

/** Whether a place is inside the repeat of this way, and not its beginning. */
function staysInRepeat(way: string, to: string, { procedure, nodes, phaseOf }: Facts): boolean {
  const { phases } = procedure
  const last = phases.findIndex((phase) => `until:${phase.id}` === way)
  const first = phases.findIndex((phase) => phase.id === phases[last]?.until?.first)
  const node = nodes.get(to)
  const phase = phaseOf.get(node?.step ?? '') ?? phases.find((candidate) => candidate.id === node?.phase)
  const at = phases.findIndex((candidate) => candidate.id === (phase?.under ?? phase?.id))
  return (
    node?.kind !== 'end' && node?.kind !== 'stop' && at >= first && at <= last && to !== `phase:${phases[first]?.id}`
  )
}
