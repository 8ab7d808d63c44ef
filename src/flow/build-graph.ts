import type { Graph, GraphEdge, GraphNode } from '../model/graph.ts'
import type { Consequence } from '../model/outcomes.ts'
import type { Phase, Procedure, Step } from '../model/procedure.ts'

// No author can give a step these ids.
const START = '(start)'
const END = '(end)'

/** Redos inside redos deeper than this lead back to the step itself instead of getting nodes of their own. */
const DEEPEST_REDO = 3

/** How one leaves a node for what comes next; called once for each way out, with what is said on it and what decides it. */
type Leave = (from: string, kind: GraphEdge['kind'], says: string, more: Leaving) => void
type Leaving = Pick<GraphEdge, 'outcome'> & Partial<Pick<GraphEdge, 'when' | 'usedUp'>>

/**
 * The graph of what can follow what.
 *
 * A node is a place in the work: the doorway of a phase, or a step. Steps that are done again on the way back to a reading
 * get nodes of their own, so that what follows them is that reading and not the rest of the phase:
 *
 *     4 pump ─► 5 lock ─► 6 try ─► 7 read ─► 8 hold
 *                                  │  ▲
 *                            out:  ▼  │
 *                              4 pump (again)
 */
export function buildGraph(procedure: Omit<Procedure, 'graph'>): Graph {
  const { phases } = procedure
  const nodes = new Map<string, GraphNode>()
  const edges: GraphEdge[] = []
  const mainPhases = phases.filter((phase) => phase.kind === 'phase')
  const phaseById = new Map(phases.map((phase) => [phase.id, phase]))
  const stepById = new Map(phases.flatMap((phase) => inOrder(phase.steps)).map((step) => [step.id, step]))

  const addNode = (id: string, node: Partial<GraphNode> & Pick<GraphNode, 'kind'>): string => {
    if (!nodes.has(id)) nodes.set(id, { id, phase: null, step: null, reason: null, leave: [], ...node })
    return id
  }
  const addEdge = (
    from: string,
    to: string,
    kind: GraphEdge['kind'],
    says = '',
    more: Partial<GraphEdge> = {},
  ): void => {
    const plain = { when: null, atMost: null, outcome: 'passed', way: null, usedUp: null } as const
    edges.push({ from, to, kind, says, ...plain, ...more })
  }
  const doorway = (id: string): string => (phaseById.has(id) ? `phase:${id}` : id)

  /** Out of a phase: on to the next one, or round again. */
  const leavePhase = (phase: Phase): Leave => {
    const owner = (phase.under === null ? undefined : phaseById.get(phase.under)) ?? phase
    const following = mainPhases[mainPhases.indexOf(owner) + 1]
    const onward = following ? doorway(following.id) : END
    return (from, kind, says, more) => {
      if (owner.until === null) {
        addEdge(from, onward, kind, says, more)
        return
      }
      const { condition, atMost, first, otherwise } = owner.until
      const way = atMost === null ? null : `until:${owner.id}`
      const notYet = { ...more, when: both(more.when ?? null, `not (${condition})`) }
      addEdge(from, onward, kind, says || condition, { ...more, when: both(more.when ?? null, condition) })
      addEdge(from, doorway(first), 'again', `not yet: ${condition}`, { ...notYet, atMost, way })
      if (way === null) return
      const words = `still not after ${atMost} tries: ${condition}`
      if (otherwise === null) addEdge(from, onward, kind, words, { ...notYet, usedUp: way })
      else
        follow(from, owner.id, otherwise, words, {
          leave: (stop, type, said, leaving) => addEdge(stop, onward, type, said, leaving),
          chain: [],
          more: { ...notYet, usedUp: way },
        })
    }
  }

  interface Way {
    readonly leave: Leave
    /** What every edge of it carries. */
    readonly more: Leaving
    /** Steps that are being done again on this way. */
    readonly chain: readonly string[]
  }

  /** What follows when something is out of limit. */
  const follow = (from: string, place: string, consequence: Consequence, says: string, way: Way): void => {
    const { action, targets, atMost, then } = consequence
    const bounded = atMost === null ? null : `${from}#${edges.length}`
    const more = { ...way.more, atMost, way: bounded }
    if (action === 'continue') way.leave(from, 'else', says, way.more)
    if (action === 'stop') {
      const stop = addNode(`stop:${place}:${nodes.size}`, {
        kind: 'stop',
        reason: consequence.reason,
        leave: consequence.leave,
      })
      addEdge(from, stop, 'stop', says, way.more)
    }
    if (action === 'go') for (const target of targets) addEdge(from, doorway(target.id), 'else', says, more)
    if (action === 'redo') {
      const ids = targets.map((target) => target.id)
      addEdge(from, again(ids, from, way), 'redo', says, more)
    }
    if (then && bounded !== null) {
      const after = { ...way.more, usedUp: bounded }
      follow(from, place, then, `${says}, ${atMost} tries used`, { ...way, more: after })
    }
  }

  /** Lays nodes for steps that are done again, leading back to the node `back`; returns the first of them. */
  const again = (ids: readonly string[], back: string, way: Way): string => {
    const others = ids.filter((id) => id !== nodes.get(back)?.step)
    if (others.length === 0 || way.chain.length >= DEEPEST_REDO) return back
    const place = (id: string) => `${id}~${back}`
    for (const [index, id] of others.entries()) {
      const step = stepById.get(id)
      if (step === undefined || nodes.has(place(id))) continue
      addNode(place(id), { kind: 'step', step: id })
      const next = others[index + 1]
      layStep(place(id), step, {
        leave: (from, kind, says, more) => addEdge(from, next ? place(next) : back, kind, says, more),
        chain: [...way.chain, id],
        more: { outcome: 'passed' },
      })
    }
    return place(others[0] ?? '')
  }

  /** The edges out of one step. */
  const layStep = (node: string, step: Step, way: Way): void => {
    const skipped = { outcome: 'skipped' } as const
    const passed = { outcome: 'passed' } as const
    if (step.when !== null) way.leave(node, 'skip', `not: ${step.when}`, skipped)
    if (step.only !== null) way.leave(node, 'skip', `not ${step.only.values.join(' or ')}`, skipped)
    for (const consequence of step.consequences) {
      const what = consequence.reading ?? (step.readings.map((reading) => reading.name).join(' or ') || 'this step')
      const side = consequence.on === 'out' ? 'out of limit' : `too ${consequence.on}`
      follow(node, step.id, consequence, `${what} ${side}`, { ...way, more: { outcome: 'failed' } })
    }
    if (step.redoes.length > 0) {
      // Done again here as part of the work; the last of them leads on, not back.
      const first = again(
        step.redoes.map((target) => target.id),
        `${node}~after`,
        way,
      )
      addNode(`${node}~after`, { kind: 'step', step: null })
      addEdge(node, first, 'redo', 'done again')
      way.leave(`${node}~after`, 'next', '', passed)
      return
    }
    if (step.decide === null || way.chain.length > 0) {
      way.leave(node, 'next', '', passed)
      return
    }
    const whens = step.decide.branches.flatMap((branch) => branch.when ?? [])
    for (const branch of step.decide.branches) {
      const says = branch.answer ?? branch.when ?? 'otherwise'
      const when = branch.otherwise ? noneOf(whens) : branch.when
      if (branch.action === 'continue') way.leave(node, 'branch', says, { ...passed, when })
      else if (branch.action === 'stop')
        addEdge(
          node,
          addNode(`stop:${step.id}:${nodes.size}`, { kind: 'stop', reason: branch.reason, leave: branch.leave }),
          'branch',
          says,
          { when },
        )
      else if (branch.target) addEdge(node, doorway(branch.target.id), 'branch', says, { when })
    }
  }

  addNode(START, { kind: 'start' })
  for (const phase of phases) {
    addNode(doorway(phase.id), { kind: 'phase', phase: phase.id })
    for (const step of inOrder(phase.steps)) addNode(step.id, { kind: 'step', step: step.id, phase: phase.id })
  }
  addNode(END, { kind: 'end' })
  const first = mainPhases[0]
  addEdge(START, first ? doorway(first.id) : END, 'next')
  for (const phase of phases) {
    const steps = inOrder(phase.steps)
    const leave = leavePhase(phase)
    const skipped = { outcome: 'skipped' } as const
    if (phase.when !== null) leave(doorway(phase.id), 'skip', `not: ${phase.when}`, skipped)
    if (phase.only !== null) leave(doorway(phase.id), 'skip', `not ${phase.only.values.join(' or ')}`, skipped)
    const [opening] = steps
    if (opening) addEdge(doorway(phase.id), opening.id, 'next')
    else leave(doorway(phase.id), 'next', '', { outcome: 'passed' })
    for (const [index, step] of steps.entries()) {
      const next = steps[index + 1]
      const onward: Leave = next ? (from, kind, says, more) => addEdge(from, next.id, kind, says, more) : leave
      layStep(step.id, step, { leave: onward, chain: [], more: { outcome: 'passed' } })
    }
  }
  return { start: START, nodes: [...nodes.values()], edges }
}

/** Both conditions as one; a missing one always holds. */
function both(one: string | null, other: string): string {
  return one === null ? other : `(${one}) and (${other})`
}

function noneOf(conditions: readonly string[]): string | null {
  return conditions.length === 0 ? null : conditions.map((condition) => `not (${condition})`).join(' and ')
}

function inOrder(steps: readonly Step[]): readonly Step[] {
  return steps.flatMap((step) => [step, ...inOrder(step.steps)])
}
