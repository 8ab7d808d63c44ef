import type { GraphNode } from '../../src/model/graph.ts'
import type { Phase, Procedure, Step } from '../../src/model/procedure.ts'
import { hereOf, readingsLookedAt, trackedReadings } from './naive/conditions.ts'
import { actorsOfPhase, applies, combinations, type Facts, factsOf, flat } from './naive/facts.ts'
import { type Left, leave, readingsAtLeaving, where } from './naive/leave.ts'
import { exposuresAt, type Kept, keptBy, type Look, lookAt, type Tell } from './naive/look.ts'
import { canBeResumed } from './naive/resume.ts'
import { keyOf, type Situation } from './naive/situation.ts'
import { cleared, isLoose, type Moment, moved, tellOfReading, type Walk, waysToWork } from './naive/step.ts'

/** A fault that some way shows, and how short the shortest is: edges of the graph from the start. */
export interface NaiveFault {
  readonly fault: string
  /** Zone and state, state, thing or reading. */
  readonly subject: string
  readonly length: number
  /** Id of the step, or of the phase, end or stop, where the shortest way shows it. */
  readonly at: string
}

export interface NaiveResult {
  readonly faults: readonly NaiveFault[]
  readonly situations: number
  /** False where there were more situations than one would wait for. */
  readonly isComplete: boolean
}

/**
 * All ways through a procedure, one after another, breadth first, as `src/flow/semantics.md` has them:
 * written to be obviously right, from that page alone, as the judge of the explorer that is fast.
 */
export function exploreNaively(procedure: Procedure, most = 200_000): NaiveResult {
  const shortest = new Map<string, NaiveFault>()
  const reached = new Set<string>()
  let situations = 0
  let isComplete = true
  for (const chosen of combinations(procedure)) {
    const one = exploreOne(factsOf(procedure, chosen), most)
    situations += one.situations
    isComplete &&= one.isComplete
    for (const place of one.reached) reached.add(place)
    for (const fault of one.faults) keepShorter(shortest, fault)
  }
  if (isComplete)
    for (const subject of unreached(procedure, reached))
      keepShorter(shortest, { fault: 'unreachable', subject, length: 0, at: subject })
  for (const subject of backWithoutEnd(procedure))
    keepShorter(shortest, { fault: 'endless', subject, length: 0, at: subject })
  return { faults: [...shortest.values()].sort((a, b) => a.length - b.length), situations, isComplete }
}

/** Steps and branches that no way comes to: of several behind one another, the first. */
function unreached({ phases, graph }: Procedure, reached: ReadonlySet<string>): readonly string[] {
  const together = phases.filter((phase) => phase.together && reached.has(`phase:${phase.id}`))
  const known = new Set([...reached, ...together.flatMap((phase) => flat(phase.steps).map((step) => step.id))])
  const isNever = (node: string): boolean => !known.has(node)
  const sources = (node: string): readonly string[] =>
    graph.edges.filter((edge) => edge.to === node && edge.from !== node).map((edge) => edge.from)
  return [
    ...phases.filter((phase) => phase.kind === 'branch').map((phase) => ({ node: `phase:${phase.id}`, id: phase.id })),
    ...phases.flatMap((phase) => flat(phase.steps)).map((step) => ({ node: step.id, id: step.id })),
  ]
    .filter(
      ({ node }) => isNever(node) && sources(node).some((source) => !isNever(source) || isMainDoorway(source, phases)),
    )
    .map(({ id }) => id)
}

/** Steps that send the work back, and nobody says how often at most. */
function backWithoutEnd({ phases, graph }: Procedure): readonly string[] {
  const order = phases.flatMap((phase) => [`phase:${phase.id}`, ...flat(phase.steps).map((step) => step.id)])
  const stepOf = (node: string): string => graph.nodes.find((candidate) => candidate.id === node)?.step ?? node
  return graph.edges
    .filter(({ kind, outcome }) => kind === 'again' || kind === 'else' || (kind === 'redo' && outcome === 'failed'))
    .filter(({ from, to, atMost }) => atMost === null && order.indexOf(stepOf(to)) <= order.indexOf(stepOf(from)))
    .filter(({ to }) => order.includes(stepOf(to)))
    .map(({ from }) => stepOf(from))
}

function isMainDoorway(node: string, phases: readonly Phase[]): boolean {
  return phases.some((phase) => phase.kind === 'phase' && node === `phase:${phase.id}`)
}

function keepShorter(shortest: Map<string, NaiveFault>, fault: NaiveFault): void {
  const key = `${fault.fault} ${fault.subject}`
  if (fault.length < (shortest.get(key)?.length ?? Number.POSITIVE_INFINITY)) shortest.set(key, fault)
}

/** What one exploration has found so far. */
interface Notes {
  readonly facts: Facts
  readonly tracked: ReadonlySet<string>
  readonly shortest: Map<string, NaiveFault>
  /** States that were proved once, on some way, by the place that was come to. */
  readonly provedBefore: Map<string, Set<string>>
  /** Proofs that were never taken on a way: `missing` or `bypassed` is settled at the end. */
  readonly never: Map<string, NaiveFault & { readonly state: string }>
  readonly visits: Map<string, Visit>
  readonly pauses: { readonly state: string; readonly key: string; readonly length: number; readonly at: string }[]
}

interface Visit {
  readonly next: { readonly key: string; readonly renewed: readonly string[] }[]
  /** States whose proof, as it stood on arrival, is looked at here. */
  readonly restsOn: Set<string>
}

interface Place extends Left {
  readonly length: number
}

function exploreOne(facts: Facts, most: number): NaiveResult & { readonly reached: ReadonlySet<string> } {
  const { procedure } = facts
  const notes: Notes = {
    facts,
    tracked: trackedReadings(facts),
    shortest: new Map(),
    provedBefore: new Map(),
    never: new Map(),
    visits: new Map(),
    pauses: [],
  }
  const byLength: Place[][] = [[{ to: procedure.graph.start, situation: atTheStart(facts), length: 0 }]]
  let isComplete = true
  for (let length = 0; length < byLength.length; length++) {
    for (const place of byLength[length] ?? []) {
      const key = keyOf([place.to, place.situation])
      if (notes.visits.has(key)) continue
      if (notes.visits.size >= most) {
        isComplete = false
        break
      }
      const visit: Visit = { next: [], restsOn: new Set() }
      notes.visits.set(key, visit)
      for (const after of comeTo(place, key, visit, notes)) {
        visit.next.push({ key: keyOf([after.to, after.situation]), renewed: after.renewed })
        const level = byLength[after.length] ?? []
        byLength[after.length] = level
        level.push(after)
      }
    }
  }
  settleNever(notes)
  settlePauses(notes)
  const reached = new Set([...notes.visits.keys()].map((key) => (JSON.parse(key) as [string])[0]))
  return { faults: [...notes.shortest.values()], situations: notes.visits.size, isComplete, reached }
}

function atTheStart({ procedure, roles }: Facts): Situation {
  const proved = procedure.states.filter((state) => state.provedBy.length > 0)
  return {
    values: Object.fromEntries(procedure.states.map((state) => [state.id, state.start])),
    people: Object.fromEntries(roles.map((role) => [role, []])),
    proofs: Object.fromEntries(proved.map((state) => [state.id, { status: 'never' as const, age: 0 }])),
    readings: {},
    answers: {},
    tries: {},
    locks: {},
    touched: [],
    changedBy: {},
    spans: [],
    wrong: {},
    seen: {},
    admitted: [],
  }
}

interface Onward extends Place {
  readonly renewed: readonly string[]
}

const onward = (left: readonly Left[], length: number, renewed: readonly string[] = []): readonly Onward[] =>
  left.map((one) => ({ ...one, length, renewed }))

function comeTo(place: Place, key: string, visit: Visit, notes: Notes): readonly Onward[] {
  const { facts } = notes
  const node = facts.nodes.get(place.to)
  if (node === undefined) return []
  const step = facts.stepById.get(node.step ?? '') ?? null
  const phase = step
    ? facts.phaseOf.get(step.id)
    : facts.procedure.phases.find((candidate) => candidate.id === node.phase)
  const situation = spansEnded(place.situation, node, facts)
  const here = { ...place, situation }
  switch (node.kind) {
    case 'start':
      return onward(leave(node, null, undefined, 'passed', situation, facts), place.length + 1)
    case 'end':
      atTheEnd(situation, teller(node.id, place.length, notes), facts)
      return []
    case 'stop':
      atAStop(node, situation, teller(node.id, place.length, notes), facts)
      return []
    case 'phase':
      return phase ? atADoorway(here, key, node, phase, visit, notes) : []
    case 'step':
      if (step === null) return onward(leave(node, null, phase, 'passed', situation, facts), place.length + 1)
      return atAStep(here, key, node, step, phase, visit, notes)
  }
}

function teller(at: string, length: number, notes: Notes): Tell {
  return (fault, subject) => {
    if (fault !== 'proof-never') keepShorter(notes.shortest, { fault, subject, length, at })
    else {
      const state = subject.slice(subject.lastIndexOf('/') + 1)
      const key = `${at} ${subject}`
      if (!notes.never.has(key)) notes.never.set(key, { fault, subject, length, at, state })
    }
  }
}

/** Keeps of a phase end on coming to a place of another one; those `through` a step, behind it. */
function spansEnded(s: Situation, node: GraphNode, facts: Facts): Situation {
  if (s.spans.length === 0 || (node.phase === null && node.kind === 'step')) return s
  const open = s.spans.filter((id) => {
    const owner = facts.procedure.phases.find((phase) => id.startsWith(`${phase.id}:`))
    const keep = owner && keptBy(owner).find((one) => one.id === id)
    return keep === undefined || keep.through !== null || node.phase === owner?.id
  })
  return { ...s, spans: open }
}

function begun(s: Situation, owner: Step | Phase): Situation {
  const begins = keptBy(owner).map((keep) => keep.id)
  return begins.length === 0 ? s : { ...s, spans: [...new Set([...s.spans, ...begins])].sort() }
}

function allKept({ procedure, steps }: Facts): readonly Kept[] {
  return [...procedure.phases, ...steps].flatMap(keptBy)
}

/** Ways past a step or phase and ways into it, by `only` and `when`. */
function entrances(
  thing: Step | Phase,
  step: Step | null,
  phase: Phase | undefined,
  s: Situation,
  tell: Tell,
  facts: Facts,
) {
  if (!applies(thing.only, facts.chosen)) return { into: [], past: [s] }
  if (thing.when === null) return { into: [s], past: [] }
  const here = hereOf(step, phase)
  for (const id of readingsLookedAt(thing.when, here, facts)) tellOfReading(id, s, tell)
  return { into: where(true, thing.when, s, here, facts), past: where(false, thing.when, s, here, facts) }
}

function atADoorway(
  place: Place,
  key: string,
  node: GraphNode,
  phase: Phase,
  visit: Visit,
  notes: Notes,
): readonly Onward[] {
  const { facts } = notes
  const tell = teller(node.id, place.length, notes)
  const { into, past } = entrances(phase, null, phase, place.situation, tell, facts)
  const passing = past.flatMap((s) => {
    for (const id of readingsAtLeaving(node, 'skipped', null, phase, facts)) tellOfReading(id, s, tell)
    return onward(leave(node, null, phase, 'skipped', s, facts), place.length + 1)
  })
  const entering = into.flatMap((s) => {
    const inside = begun(
      moved(cleared({ ...s, admitted: [] }, phase.clear), phase.where, actorsOfPhase(phase, facts)),
      phase,
    )
    for (const zone of phase.exposed.flatMap((one) => one.zones)) tell('exposed', zone)
    if (phase.together && phase.steps.length > 0) {
      notePause(inside, place.length + 1, key, node, notes)
      return workTogether({ ...place, situation: inside }, phase, visit, notes)
    }
    return onward(leave(node, null, phase, 'passed', inside, facts), place.length + 1)
  })
  return [...passing, ...entering]
}

function lookOf(
  moment: 'move' | 'change',
  step: Step,
  phase: Phase | undefined,
  visit: Visit,
  renewed: readonly string[],
  tell: Tell,
  { facts }: Notes,
): Look {
  return {
    moment,
    exposures: exposuresAt(step, phase),
    keeps: allKept(facts),
    step,
    phase,
    restsOn: (state) => {
      if (!renewed.includes(state)) visit.restsOn.add(state)
    },
    tell,
  }
}

function atAStep(
  place: Place,
  key: string,
  node: GraphNode,
  step: Step,
  phase: Phase | undefined,
  visit: Visit,
  notes: Notes,
): readonly Onward[] {
  const { facts } = notes
  const tell = teller(node.id, place.length, notes)
  const { into, past } = entrances(step, step, phase, place.situation, tell, facts)
  const passing = past.flatMap((s) => {
    for (const id of readingsAtLeaving(node, 'skipped', null, phase, facts)) tellOfReading(id, s, tell)
    return onward(leave(node, step, phase, 'skipped', behind(s, step, facts), facts), place.length + 1)
  })
  for (const s of into) notePause(s, place.length, key, node, notes)
  return [...passing, ...into.flatMap((s) => workAlone(s, place.length, node, step, phase, visit, tell, notes))]
}

function notePause(s: Situation, length: number, key: string, node: GraphNode, notes: Notes): void {
  for (const [state, { status }] of Object.entries(s.proofs))
    if (status === 'proved' && !canBeResumed(state, s, notes.facts))
      notes.pauses.push({ state, key, length, at: node.id })
}

function noteProved(s: Situation, node: string, { provedBefore }: Notes): void {
  const states = provedBefore.get(node) ?? new Set()
  provedBefore.set(node, states)
  for (const [state, { status }] of Object.entries(s.proofs)) if (status !== 'never') states.add(state)
}

const beginning = (situation: Situation): Walk => ({ situation, entered: {}, passes: null, renewed: [] })

function workAlone(
  s: Situation,
  length: number,
  node: GraphNode,
  step: Step,
  phase: Phase | undefined,
  visit: Visit,
  tell: Tell,
  notes: Notes,
): readonly Onward[] {
  const { facts } = notes
  noteProved(s, node.id, notes)
  for (const zone of step.exposed.flatMap((one) => one.zones)) tell('exposed', zone)
  const first = beginning(begun(s, step))
  return waysToWork(step, notes.tracked, facts).flatMap((moments) =>
    work(moments, first, step, phase, visit, tell, notes).flatMap((walk) =>
      leaveStep(walk, length, node, step, phase, tell, notes),
    ),
  )
}

function leaveStep(
  walk: Walk,
  length: number,
  node: GraphNode,
  step: Step,
  phase: Phase | undefined,
  tell: Tell,
  { facts }: Notes,
) {
  const situation = behind(walk.situation, step, facts)
  const outcome = walk.passes === false ? 'failed' : 'passed'
  for (const id of readingsAtLeaving(node, outcome, step, phase, facts)) tellOfReading(id, situation, tell)
  const left = leave(node, step, phase, outcome, situation, facts)
  if (left.length === 0) tell('endless', step.id)
  return onward(left, length + 1, walk.renewed)
}

/** Behind a step: what was kept for it alone, or through it, is kept no longer. */
function behind(s: Situation, step: Step, facts: Facts): Situation {
  const over = allKept(facts)
    .filter((keep) => keep.through === step.id || (keep.through === null && keep.owner === step.id))
    .map((keep) => keep.id)
  return over.length === 0 ? s : { ...s, spans: s.spans.filter((id) => !over.includes(id)) }
}

/** One moment after another, in every way. */
function work(
  moments: readonly Moment[],
  walk: Walk,
  step: Step,
  phase: Phase | undefined,
  visit: Visit,
  tell: Tell,
  notes: Notes,
): readonly Walk[] {
  const [moment, ...rest] = moments
  if (moment === undefined) return [walk]
  return moment.does(walk, tell).flatMap((after) => {
    const look = moment.look && lookOf(moment.look, step, phase, visit, after.renewed, tell, notes)
    const situation = look ? lookAt(after.situation, look, notes.facts) : after.situation
    return work(rest, { ...after, situation }, step, phase, visit, tell, notes)
  })
}

/** Steps of a phase marked `together`: how far each is, in every order. */
interface Interleaving {
  readonly situation: Situation
  readonly renewed: readonly string[]
  /** By step: the moments still to come, and its own walk; absent before it has begun. */
  readonly running: Readonly<Record<string, { readonly way: number; readonly at: number; readonly walk: Walk }>>
  readonly ended: readonly string[]
  /** How many have begun; those passed by have not. */
  readonly begun: number
}

function workTogether(place: Place, phase: Phase, visit: Visit, notes: Notes): readonly Onward[] {
  const { facts } = notes
  const steps = flat(phase.steps)
  const ways = new Map(steps.map((step) => [step.id, waysToWork(step, notes.tracked, facts)]))
  const results: Onward[] = []
  const seen = new Set<string>()
  const open: Interleaving[] = [{ situation: place.situation, renewed: [], running: {}, ended: [], begun: 0 }]
  for (let now = open.shift(); now !== undefined; now = open.shift()) {
    const key = keyOf(now)
    if (seen.has(key)) continue
    seen.add(key)
    const last = facts.procedure.graph.nodes.find((node) => node.id === steps.at(-1)?.id)
    if (now.ended.length === steps.length && last) {
      results.push(
        ...onward(leave(last, null, phase, 'passed', now.situation, facts), place.length + now.begun + 1, now.renewed),
      )
      continue
    }
    for (const [index, step] of steps.entries()) {
      if (now.ended.includes(step.id)) continue
      const running = now.running[step.id]
      if (running === undefined) {
        const before = step.decide
          ? steps.filter((other) => other !== step)
          : sharingActors(step, steps.slice(0, index))
        if (!before.every((other) => now.ended.includes(other.id))) continue
        const tell = teller(step.id, place.length + now.begun + 1, notes)
        const { into, past } = entrances(step, step, phase, now.situation, tell, facts)
        for (const s of past) open.push({ ...now, situation: s, ended: [...now.ended, step.id].sort() })
        for (const s of into) {
          noteProved(s, step.id, notes)
          const started = begun(s, step)
          for (const way of (ways.get(step.id) ?? []).keys())
            open.push({
              ...now,
              begun: now.begun + 1,
              situation: started,
              running: { ...now.running, [step.id]: { way, at: 0, walk: { ...beginning(started), renewed: [] } } },
            })
        }
        continue
      }
      const tell = teller(step.id, place.length + now.begun, notes)
      const moment = ways.get(step.id)?.[running.way]?.[running.at]
      if (moment === undefined) {
        const { [step.id]: _, ...others } = now.running
        open.push({
          ...now,
          situation: behind(now.situation, step, facts),
          running: others,
          ended: [...now.ended, step.id].sort(),
        })
        continue
      }
      const beside = steps.filter((other) => other !== step && now.running[other.id] !== undefined)
      const walking = { ...running.walk, situation: now.situation, renewed: now.renewed }
      for (const { walk, at } of atOnce(
        ways.get(step.id)?.[running.way] ?? [],
        running.at,
        walking,
        (moment, after) => {
          const look = moment.look && lookOf(moment.look, step, phase, visit, after.renewed, tell, notes)
          if (look === null) return after.situation
          const exposures = [...look.exposures, ...beside.flatMap((other) => exposuresAt(other, phase))]
          return lookAt(after.situation, { ...look, exposures }, facts)
        },
        tell,
      )) {
        if (walk.passes === false) continue
        open.push({
          ...now,
          situation: walk.situation,
          renewed: [...new Set(walk.renewed)].sort(),
          running: {
            ...now.running,
            [step.id]: { way: running.way, at, walk: { ...walk, situation: NOWHERE, renewed: [] } },
          },
        })
      }
    }
  }
  return results
}

function sharingActors(step: Step, others: readonly Step[]): readonly Step[] {
  const actors = (one: Step): readonly string[] => [...one.by, ...one.acts.flatMap((act) => act.by)]
  return others.filter((other) => actors(other).some((role) => actors(step).includes(role)))
}

/** The next moment of a step, with those that are joined to it. */
function atOnce(
  moments: readonly Moment[],
  at: number,
  walk: Walk,
  looked: (moment: Moment, after: Walk) => Situation,
  tell: Tell,
): readonly { readonly walk: Walk; readonly at: number }[] {
  const moment = moments[at]
  if (moment === undefined) return []
  return moment.does(walk, tell).flatMap((after) => {
    const next = { ...after, situation: looked(moment, after) }
    return moment.isJoined ? atOnce(moments, at + 1, next, looked, tell) : [{ walk: next, at: at + 1 }]
  })
}

/** The situation of all is kept beside the walks. */
const NOWHERE: Situation = {
  values: {},
  people: {},
  proofs: {},
  readings: {},
  answers: {},
  tries: {},
  locks: {},
  touched: [],
  changedBy: {},
  spans: [],
  wrong: {},
  seen: {},
  admitted: [],
}

function atTheEnd(s: Situation, tell: Tell, { procedure }: Facts): void {
  for (const state of procedure.states) {
    const value = s.values[state.id] ?? ''
    if (state.end.includes(value)) continue
    tell(value === 'snug' ? 'left-snug' : value === 'locked' ? 'lock-unpaired' : 'not-put-back', state.id)
  }
}

function atAStop(node: GraphNode, s: Situation, tell: Tell, facts: Facts): void {
  for (const claim of node.leave)
    if (!claim.values.includes(s.values[claim.state] ?? '')) tell('stop-unsafe', claim.state)
  for (const state of facts.procedure.states)
    if (!state.implied && isLoose(state.id, s, facts) && !node.leave.some((claim) => claim.state === state.id))
      tell('stop-unsafe', state.id)
}

function settleNever({ never, provedBefore, shortest }: Notes): void {
  for (const { state, ...fault } of never.values()) {
    const isBypassed = provedBefore.get(fault.at)?.has(state) ?? false
    keepShorter(shortest, { ...fault, fault: isBypassed ? 'proof-bypassed' : 'proof-missing' })
  }
}

/** A pause whose proof nobody can take again, where a later moment rests on it. */
function settlePauses({ pauses, visits, shortest }: Notes): void {
  const seen = new Map<string, Set<string>>()
  for (const { state, key, length, at } of pauses) {
    const reached = seen.get(state) ?? new Set()
    seen.set(state, reached)
    const open = [key]
    for (let one = open.pop(); one !== undefined; one = open.pop()) {
      if (reached.has(one)) continue
      reached.add(one)
      const visit = visits.get(one)
      if (visit?.restsOn.has(state)) keepShorter(shortest, { fault: 'resume-unproved', subject: state, length, at })
      for (const next of visit?.next ?? []) if (!next.renewed.includes(state)) open.push(next.key)
    }
  }
}
