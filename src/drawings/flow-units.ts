import type { StepFile } from '../step-file/step-file.ts'
import { oncePer } from '../text/once-per.ts'
import { signsOfPrint } from '../wording/formula-text.ts'
import { holdLabels } from '../wording/hold-text.ts'
import { onlyInWords } from '../wording/people-text.ts'
import { inWords } from '../wording/state-text.ts'
import { allSteps, type PhaseSheet, type StepSheet } from '../wording/step-file-parts.ts'

/** What the flow of a procedure is drawn from: its phases and decisions, and what leads from one to another. */

export interface FlowPhase {
  readonly number: string
  readonly title: string
  /** `LEFT, then RIGHT`; empty for a phase that is done once. */
  readonly positions: string
  /** What a reader must know of it, a line each: holds, conditions, what is done again, where it stops. */
  readonly lines: readonly FlowLine[]
  readonly asks: readonly FlowAsk[]
  /** Whether any way leads from it to another phase or the end, but back. */
  readonly leadsOn: boolean
}

export interface FlowLine {
  readonly kind: 'hold' | 'only' | 'again' | 'back' | 'stop'
  readonly says: string
  /** For `back`: number of the phase that it goes back to. */
  readonly to?: string
}

export interface FlowAsk {
  /** Number of the step that decides. */
  readonly number: string
  readonly ask: string
  readonly ways: readonly FlowWay[]
}

export interface FlowWay {
  readonly says: string
  /** `branch`: a phase of its own that belongs to this decision. */
  readonly kind: 'branch' | 'go' | 'on' | 'stop'
  /** Number of the phase or step it leads to, or why it stops. */
  readonly to: string
  /** For a branch: its phases, as they are drawn in its column. */
  readonly phases: readonly FlowPhase[]
}

/** The phases in the order of the work; the positions of a repeated one are drawn once. Branches stand under their decisions. */
export function flowPhases(stepFile: StepFile): readonly FlowPhase[] {
  const main = stepFile.phases.filter(({ under }) => under === null)
  const asked = new Set(
    stepFile.phases.flatMap((phase) =>
      allSteps(phase.steps)
        .flatMap(({ decide }) => decide?.branches.flatMap(({ target }) => target?.id ?? []) ?? [])
        .filter((id) => underOf(stepFile, id) === phase.id),
    ),
  )
  // A branch that no decision leads to stands in the row, so that it is not lost.
  const stray = stepFile.phases.filter(({ id, under }) => under !== null && !asked.has(id))
  const shown = new Set([...main, ...stray])
  return onceEach(stepFile.phases.filter((phase) => shown.has(phase))).map((same) => flowPhase(stepFile, same))
}

function underOf(stepFile: StepFile, id: string): string | null {
  return stepFile.phases.find((phase) => phase.id === id)?.under ?? null
}

/** Phases by number: the passes of one repeat together. */
function onceEach(phases: readonly PhaseSheet[]): readonly (readonly PhaseSheet[])[] {
  const byNumber = new Map<string, PhaseSheet[]>()
  for (const phase of phases) byNumber.set(phase.number, [...(byNumber.get(phase.number) ?? []), phase])
  return [...byNumber.values()]
}

function flowPhase(stepFile: StepFile, same: readonly PhaseSheet[]): FlowPhase {
  const [first] = same
  const steps = first ? allSteps(first.steps) : []
  const positions = same.flatMap(({ position }) => position?.label ?? [])
  return {
    number: first?.number ?? '',
    title: first?.title ?? '',
    positions:
      positions.length > 4
        ? `${positions.length} times: ${positions[0]} to ${positions.at(-1)}`
        : positions.join(', then '),
    lines: first ? linesOf(stepFile, first, same) : [],
    asks: steps.flatMap((step) => askOf(stepFile, step)),
    leadsOn: leadsOn(stepFile, new Set(same.map(({ id }) => id))),
  }
}

function leadsOn(stepFile: StepFile, own: ReadonlySet<string>): boolean {
  const ways = leadsFrom(stepFile)
  return [...own].some((id) => [...(ways.get(id) ?? [])].some((to) => !own.has(to)))
}

function linesOf(stepFile: StepFile, phase: PhaseSheet, same: readonly PhaseSheet[]): readonly FlowLine[] {
  const labels = holdLabels(stepFile)
  const holds = same.flatMap(({ steps }) =>
    allSteps(steps).flatMap((step) => step.holds.map(({ id }) => `${labels.get(id) ?? ''} at ${step.number}`)),
  )
  const steps = allSteps(phase.steps)
  const skipped = steps.filter(({ when }) => when !== null).map(({ number }) => number)
  const conditions = [
    ...(phase.only === null ? [] : [`only for ${onlyInWords(phase.only)}`]),
    ...(phase.when === null ? [] : [`only when ${signsOfPrint(inWords(phase.when))}`]),
    ...(skipped.length === 0 ? [] : [`${skipped.join(', ')} only on condition`]),
  ]
  return [
    ...conditions.map((says): FlowLine => ({ kind: 'only', says })),
    ...(holds.length === 0
      ? []
      : [{ kind: 'hold' as const, says: `${holds.length === 1 ? 'hold' : 'holds'} ${holds.join(', ')}` }]),
    ...outLines(stepFile, phase, steps),
    ...untilLine(stepFile, phase),
  ]
}

/** What follows out of limit, gathered: the same step again, back to an earlier one, stop. */
function outLines(stepFile: StepFile, phase: PhaseSheet, steps: readonly StepSheet[]): readonly FlowLine[] {
  const again: string[] = []
  const back: FlowLine[] = []
  const stops: string[] = []
  for (const step of steps)
    for (const consequence of step.consequences)
      for (let turn: Turn | null = consequence; turn !== null; turn = turn.then) {
        const times = turn.atMost === null ? '' : ` up to ${turn.atMost} times`
        const outside = turn.targets.find(({ id }) => phaseOf(stepFile, id) !== phase.number)
        if (turn.action === 'stop') stops.push(step.number)
        if (turn.action === 'redo' && !outside) again.push(`${step.number}${times}`)
        if ((turn.action === 'redo' || turn.action === 'go') && outside)
          back.push({
            kind: 'back',
            says: `${step.number} out: ${turn.action === 'go' ? 'go to' : 'again from'} ${outside.number}${times}`,
            to: phaseOf(stepFile, outside.id),
          })
        if (turn.action === 'go' && !outside) again.push(`${step.number} goes to ${turn.targets[0]?.number ?? ''}`)
      }
  return [
    ...(again.length === 0 ? [] : [{ kind: 'again' as const, says: `done again if out: ${again.join(', ')}` }]),
    ...back,
    ...(stops.length === 0 ? [] : [{ kind: 'stop' as const, says: `stops if out: ${[...new Set(stops)].join(', ')}` }]),
  ]
}

type Turn = NonNullable<StepSheet['consequences'][number]>

function untilLine(stepFile: StepFile, { until, id }: PhaseSheet): readonly FlowLine[] {
  if (until === null) return []
  const times = until.atMost === null ? '' : `, up to ${until.atMost} times`
  const says = `again until ${signsOfPrint(inWords(until.condition))}${times}`
  return until.first === id
    ? [{ kind: 'again', says }]
    : [{ kind: 'back', says: `from ${phaseOf(stepFile, until.first)} ${says}`, to: phaseOf(stepFile, until.first) }]
}

/** Number of the phase by the id of the phase or of a step in it. */
const numbersOfPhases = oncePer(
  ({ phases }: StepFile) =>
    new Map(
      phases.flatMap(({ id, number, steps }) => [
        [id, number] as const,
        ...allSteps(steps).map((step) => [step.id, number] as const),
      ]),
    ),
)

function phaseOf(stepFile: StepFile, id: string): string {
  return numbersOfPhases(stepFile).get(id) ?? ''
}

/** For each phase, the phases that any way leads to, but back, and `''` for the end. */
const leadsFrom = oncePer(({ graph }: StepFile): ReadonlyMap<string, ReadonlySet<string>> => {
  const nodes = new Map(graph.nodes.map((node) => [node.id, node]))
  const ways = new Map<string, Set<string>>()
  for (const { from, to, kind } of graph.edges) {
    const [here, there] = [nodes.get(from)?.phase ?? null, nodes.get(to)]
    if (here === null || there === undefined || there.kind === 'stop' || kind === 'redo' || kind === 'again') continue
    const known = ways.get(here) ?? new Set()
    known.add(there.phase ?? '')
    ways.set(here, known)
  }
  return ways
})

function askOf(stepFile: StepFile, { number, decide, id }: StepSheet): readonly FlowAsk[] {
  if (decide === null) return []
  const here = phaseOf(stepFile, id)
  const ways = decide.branches.map((branch): FlowWay => {
    const says = inWords(branch.answer ?? (branch.otherwise ? 'otherwise' : signsOfPrint(branch.when ?? '')))
    if (branch.action === 'stop') return { says, kind: 'stop', to: branch.reason ?? '', phases: [] }
    if (branch.target === null) return { says, kind: 'on', to: '', phases: [] }
    const phase = stepFile.phases.find((candidate) => candidate.id === branch.target?.id)
    if (phase === undefined || phase.under === null || phaseOf(stepFile, phase.under) !== here)
      return { says, kind: 'go', to: branch.target.number, phases: [] }
    const same = stepFile.phases.filter((candidate) => candidate.number === phase.number)
    return { says, kind: 'branch', to: phase.number, phases: [flowPhase(stepFile, same)] }
  })
  return [{ number, ask: decide.ask, ways }]
}
