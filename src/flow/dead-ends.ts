import type { GraphEdge, GraphNode } from '../model/graph.ts'
import type { Procedure, Step } from '../model/procedure.ts'
import type { FlowFault } from './proof.ts'
import type { Run } from './run.ts'
import { withSubSteps } from './subjects.ts'
import { phaseWords } from './words.ts'

/** Steps and branches that no way comes to, in any combination of variants. One is told for all that lie behind it. */
export function unreachableIn(procedure: Procedure, runs: readonly Run[]): readonly FlowFault[] {
  const { nodes, edges } = procedure.graph
  const reached = new Set(
    runs.flatMap((run) => nodes.flatMap((node, number) => (run.reached[number] === 1 ? [node.id] : []))),
  )
  reached.add(procedure.graph.start)
  const before = new Map<string, string[]>()
  for (const { from, to } of edges) {
    const sources = before.get(to)
    if (sources) sources.push(from)
    else before.set(to, [from])
  }
  const isFirst = (id: string): boolean => {
    const sources = before.get(id) ?? []
    return !reached.has(id) && (sources.length === 0 || sources.some((source) => reached.has(source)))
  }
  return procedure.phases.flatMap((phase): readonly FlowFault[] => {
    if (isFirst(`phase:${phase.id}`))
      return [
        unreachable(phase.steps[0] ?? null, phase.at, `No way comes to "${phaseWords(phase)}".`, {
          subject: phase.id,
          advice: 'Send some way there by `go`, or take it out.',
        }),
      ]
    return withSubSteps(phase.steps)
      .filter((step) => isFirst(step.id))
      .map((step) =>
        unreachable(step, step.at, `No way comes to step ${step.number}.`, {
          subject: step.id,
          advice: 'Look at the ways before it: an answer or a side that leads here is missing. Or take the step out.',
        }),
      )
  })
}

function unreachable(
  step: Step | null,
  at: FlowFault['at'],
  message: string,
  more: Pick<FlowFault, 'subject' | 'advice'>,
): FlowFault {
  return { fault: 'unreachable', at, step: step?.id ?? null, message, ...more, ...NO_STORY }
}

const NO_STORY = { story: [], length: 0, alsoAt: [], related: [] } as const

/** Ways back that nothing ends. */
export function endlessIn(procedure: Procedure, runs: readonly Run[]): readonly FlowFault[] {
  const { nodes, edges } = procedure.graph
  const number = new Map(nodes.map((node, index) => [node.id, index]))
  const after = new Map<string, string[]>()
  for (const { from, to, way } of edges) {
    // A bounded way back ends by itself.
    if (way !== null) continue
    const targets = after.get(from)
    if (targets) targets.push(to)
    else after.set(from, [to])
  }
  const circling = circlingIn(edges)
  if (circling.size === 0) return []
  const isTaken = (index: number): boolean => runs.some((run) => run.taken[index] === 1)
  const told = new Set<string>()
  return edges.flatMap((edge, index): readonly FlowFault[] => {
    if (!isUnbounded(edge) || !circling.has(edge.from) || !circling.has(edge.to)) return []
    if (!isTaken(index) || !leadsTo(edge.to, edge.from, after)) return []
    const node = nodes[number.get(edge.from) ?? 0]
    const step = stepOf(procedure, node)
    const key = `${step?.id ?? edge.from} ${edge.to}`
    if (told.has(key)) return []
    told.add(key)
    const label = step ? `Step ${step.number}` : 'This'
    return [
      {
        fault: 'endless',
        subject: step?.id ?? edge.from,
        at: step?.at ?? procedure.document.at,
        step: step?.id ?? null,
        message: `${label} sends the work back (${edge.says}), and nothing says how often at most.`,
        advice: 'Give it an end: `at-most: 3, then: stop`; a repeat wants `at-most` and `else`.',
        ...NO_STORY,
      },
    ]
  })
}

function isUnbounded(edge: GraphEdge): boolean {
  return (
    edge.way === null &&
    (edge.kind === 'again' || edge.kind === 'else' || (edge.kind === 'redo' && edge.outcome === 'failed'))
  )
}

function stepOf(procedure: Procedure, node: GraphNode | undefined): Step | null {
  if (!node?.step) return null
  return procedure.phases.flatMap((phase) => withSubSteps(phase.steps)).find((step) => step.id === node.step) ?? null
}

/** Places on a circle of ways that are not bounded, or between two such: what is left once dead ends are taken off. */
function circlingIn(edges: readonly GraphEdge[]): ReadonlySet<string> {
  let left: readonly GraphEdge[] = edges.filter((edge) => edge.way === null)
  for (let before = -1; before !== left.length; ) {
    before = left.length
    left = withoutDeadEnds(withoutDeadEnds(left, 'from', 'to'), 'to', 'from')
  }
  return new Set(left.flatMap((edge) => [edge.from, edge.to]))
}

/** Ways without those that begin where none ends (or end where none begins), one after another until all are gone. */
function withoutDeadEnds(edges: readonly GraphEdge[], near: 'from' | 'to', far: 'from' | 'to'): GraphEdge[] {
  const count = new Map<string, number>()
  const beginning = new Map<string, GraphEdge[]>()
  for (const edge of edges) {
    count.set(edge[far], (count.get(edge[far]) ?? 0) + 1)
    const others = beginning.get(edge[near])
    if (others) others.push(edge)
    else beginning.set(edge[near], [edge])
  }
  const gone = new Set<GraphEdge>()
  const waiting = [...beginning.keys()].filter((place) => !count.has(place))
  for (let place = waiting.pop(); place !== undefined; place = waiting.pop()) {
    for (const edge of beginning.get(place) ?? []) {
      gone.add(edge)
      const rest = (count.get(edge[far]) ?? 1) - 1
      count.set(edge[far], rest)
      if (rest === 0) waiting.push(edge[far])
    }
  }
  return edges.filter((edge) => !gone.has(edge))
}

function leadsTo(from: string, to: string, after: ReadonlyMap<string, readonly string[]>): boolean {
  const seen = new Set([from])
  const waiting = [from]
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (next === to) return true
    for (const other of after.get(next) ?? []) {
      if (seen.has(other)) continue
      seen.add(other)
      waiting.push(other)
    }
  }
  return false
}
