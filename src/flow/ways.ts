import type { GraphEdge, GraphNode } from '../model/graph.ts'
import type { Procedure } from '../model/procedure.ts'
import type { ReadCondition } from './conditions.ts'
import type { Layout } from './layout.ts'

const MOST_COUNTED = 250

/** One edge of the graph as the exploration takes it. */
export interface Way {
  readonly edge: number
  readonly kind: GraphEdge['kind']
  readonly to: number
  readonly condition: ReadCondition | null
  /** Byte that counts how often this bounded way was taken; −1 where it has no bound. */
  readonly counts: number
  readonly mostOften: number
  /** Byte of the bounded way that must be used up first, and when it is. */
  readonly after: number
  readonly afterCount: number
  /** Counts that begin anew. */
  readonly resets: readonly number[]
}

export interface WayContext {
  readonly layout: Layout
  readonly spotNumber: ReadonlyMap<string, number>
  readonly edgeConditions: readonly (ReadCondition | null)[]
  readonly edges: EdgeTable
}

/** The ways out of a node, in the order of the graph. */
export function waysOut(node: GraphNode, context: WayContext): readonly Way[] {
  const { layout, spotNumber, edgeConditions, edges } = context
  const out = edges.from.get(node.id) ?? []
  const here = [...new Set(out.flatMap(({ edge }) => edge.way ?? []))]
  const isLoop = (way: string): boolean => way.startsWith('until:')
  const count = (way: string | null): number => (way === null ? -1 : (layout.taken.get(way) ?? -1))
  const most = (way: string | null): number => Math.min(edges.bounds.get(way ?? '') ?? 1, MOST_COUNTED) - 1
  return out.map(({ edge, number }): Way => {
    const { way, usedUp } = edge
    const left = way !== null && !isLoop(way) ? [] : here.filter((other) => other !== way)
    const entered = (edges.loops.get(edge.to) ?? []).filter((loop) => loop !== way)
    return {
      edge: number,
      kind: edge.kind,
      to: spotNumber.get(edge.to) ?? 0,
      condition: edgeConditions[number] ?? null,
      counts: count(way),
      mostOften: way === null ? 0 : most(way),
      after: count(usedUp),
      afterCount: usedUp === null ? 0 : most(usedUp),
      resets: [...new Set([...left, ...entered])].map(count).filter((slot) => slot >= 0),
    }
  })
}

/** The edges of the graph, as they are asked for. */
export interface EdgeTable {
  readonly from: ReadonlyMap<string, readonly { readonly edge: GraphEdge; readonly number: number }[]>
  /** How often each bounded way may be taken, the first time included. */
  readonly bounds: ReadonlyMap<string, number>
  /** By id of a doorway: ways back of the repeats that begin there. */
  readonly loops: ReadonlyMap<string, readonly string[]>
}

export function edgeTable(procedure: Procedure): EdgeTable {
  const from = new Map<string, { edge: GraphEdge; number: number }[]>()
  const bounds = new Map<string, number>()
  const loops = new Map<string, string[]>()
  for (const [number, edge] of procedure.graph.edges.entries()) {
    from.set(edge.from, from.get(edge.from) ?? [])
    from.get(edge.from)?.push({ edge, number })
    if (edge.way !== null && edge.atMost !== null) bounds.set(edge.way, edge.atMost)
  }
  for (const { id, until } of procedure.phases) {
    const doorway = `phase:${until?.first ?? ''}`
    if (until) loops.set(doorway, [...(loops.get(doorway) ?? []), `until:${id}`])
  }
  return { from, bounds, loops }
}
