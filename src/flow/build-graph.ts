import type { Consequence, Graph, GraphEdge, GraphNode, Phase, Procedure, Step } from '../model/procedure.ts'

const START = 'start'
const END = 'end'

/** Redos inside redos deeper than this lead back to the step itself instead of getting nodes of their own. */
const DEEPEST_REDO = 3

/** How one leaves a node when nothing is out of limit; called once for each way out, with what is said on it. */
type Leave = (from: string, kind: GraphEdge['kind'], says: string) => void

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
    edges.push({ from, to, kind, says, when: null, atMost: null, ...more })
  }
  const doorway = (id: string): string => (phaseById.has(id) ? `phase:${id}` : id)

  /** Out of a phase: on to the next one, or round again. */
  const leavePhase = (phase: Phase): Leave => {
    const owner = (phase.under === null ? undefined : phaseById.get(phase.under)) ?? phase
    const following = mainPhases[mainPhases.indexOf(owner) + 1]
    const onward = following ? doorway(following.id) : END
    return (from, kind, says) => {
      if (owner.until === null) {
        addEdge(from, onward, kind, says)
        return
      }
      const { condition, atMost, first, otherwise } = owner.until
      addEdge(from, onward, kind, says || condition, { when: condition })
      addEdge(from, doorway(first), 'again', `not yet: ${condition}`, { when: `not (${condition})`, atMost })
      if (otherwise)
        follow(from, owner.id, otherwise, `still not after ${atMost ?? 'the last'} tries: ${condition}`, {
          leave: (stop, type, words) => addEdge(stop, onward, type, words),
          chain: [],
        })
    }
  }

  interface Way {
    readonly leave: Leave
    /** Steps that are being done again on this way. */
    readonly chain: readonly string[]
  }

  /** What follows when something is out of limit. */
  const follow = (from: string, place: string, consequence: Consequence, says: string, way: Way): void => {
    const { action, targets, atMost, then } = consequence
    if (action === 'continue') way.leave(from, 'else', says)
    if (action === 'stop') {
      const stop = addNode(`stop:${place}:${nodes.size}`, {
        kind: 'stop',
        reason: consequence.reason,
        leave: consequence.leave,
      })
      addEdge(from, stop, 'stop', says)
    }
    if (action === 'go') for (const target of targets) addEdge(from, doorway(target.id), 'else', says, { atMost })
    if (action === 'redo')
      addEdge(
        from,
        again(
          targets.map((target) => target.id),
          from,
          way,
        ),
        'redo',
        says,
        { atMost },
      )
    if (then) follow(from, place, then, `${says}, ${atMost ?? 'all'} tries used`, way)
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
        leave: (from, kind, says) => addEdge(from, next ? place(next) : back, kind, says),
        chain: [...way.chain, id],
      })
    }
    return place(others[0] ?? '')
  }

  /** The edges out of one step. */
  const layStep = (node: string, step: Step, way: Way): void => {
    if (step.when !== null) way.leave(node, 'skip', `not: ${step.when}`)
    if (step.only !== null) way.leave(node, 'skip', `not ${step.only.values.join(' or ')}`)
    for (const consequence of step.consequences) {
      const what = consequence.reading ?? (step.readings.map((reading) => reading.name).join(' or ') || 'this step')
      const side = consequence.on === 'out' ? 'out of limit' : `too ${consequence.on}`
      follow(node, step.id, consequence, `${what} ${side}`, way)
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
      way.leave(`${node}~after`, 'next', '')
      return
    }
    if (step.decide === null || way.chain.length > 0) {
      way.leave(node, 'next', '')
      return
    }
    for (const branch of step.decide.branches) {
      const says = branch.answer ?? branch.when ?? 'otherwise'
      if (branch.action === 'continue') way.leave(node, 'branch', says)
      else if (branch.action === 'stop')
        addEdge(
          node,
          addNode(`stop:${step.id}:${nodes.size}`, { kind: 'stop', reason: branch.reason, leave: branch.leave }),
          'branch',
          says,
          {
            when: branch.when,
          },
        )
      else if (branch.target) addEdge(node, doorway(branch.target.id), 'branch', says, { when: branch.when })
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
    if (phase.when !== null) leave(doorway(phase.id), 'skip', `not: ${phase.when}`)
    if (phase.only !== null) leave(doorway(phase.id), 'skip', `not ${phase.only.values.join(' or ')}`)
    const [opening] = steps
    if (opening) addEdge(doorway(phase.id), opening.id, 'next')
    else leave(doorway(phase.id), 'next', '')
    for (const [index, step] of steps.entries()) {
      const next = steps[index + 1]
      const onward: Leave = next ? (from, kind, says) => addEdge(from, next.id, kind, says) : leave
      layStep(step.id, step, { leave: onward, chain: [] })
    }
  }
  return { start: START, nodes: [...nodes.values()], edges }
}

function inOrder(steps: readonly Step[]): readonly Step[] {
  return steps.flatMap((step) => [step, ...inOrder(step.steps)])
}
