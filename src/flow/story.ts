import { changesAt, type Passed } from './path.ts'
import type { StoryLine } from './proof.ts'
import type { Seen, Told } from './telling.ts'
import { listed, person, phaseWords, positionOf, shortWords, stateName, valueName } from './words.ts'

/** Kinds of ways that are taken only when somebody answers or something happens: they belong to every story. */
const TURNS = new Set(['branch', 'else', 'redo', 'again', 'skip', 'stop'])

/** The way to a fault: only the places that matter for it; the others are counted. */
export function storyOf(seen: Seen, told: Told): readonly StoryLine[] {
  const lines: StoryLine[] = []
  let passedBy = 0
  const standing = new Map(told.states.map((state) => [state, startOf(seen, state)]))
  for (const [index, passed] of seen.path.entries()) {
    const isLast = index === seen.path.length - 1
    const changes = changesOf(seen, told, passed, standing, isLast)
    const turn = isLast ? '' : turnOf(seen, passed)
    if (changes === '' && turn === '' && !isLast) {
      if (passed.spot.job !== null && !passed.isSkipped) passedBy++
      continue
    }
    if (passedBy > 0) lines.push(countedLine(seen, passed, passedBy))
    passedBy = 0
    lines.push({ ...headOf(seen, passed, turn), changes })
  }
  return lines
}

function startOf(seen: Seen, state: number): number {
  const { subjects } = seen.plan
  return subjects.values[state]?.indexOf(subjects.states[state]?.start ?? '') ?? 0
}

function countedLine(seen: Seen, passed: Passed, count: number): StoryLine {
  const says = count === 1 ? '… one step that changes nothing here' : `… ${count} steps that change nothing here`
  return { number: '', position: null, says, changes: '', at: placeOf(seen, passed) }
}

function headOf(seen: Seen, passed: Passed, turn: string): Omit<StoryLine, 'changes'> {
  const { plan } = seen
  const { spot } = passed
  const at = placeOf(seen, passed)
  const step = spot.job?.step
  if (step) {
    const words = shortWords(step.text.plain)
    const says = passed.isSkipped ? `passed by (${turn})` : turn === '' ? words : `${words} → ${turn}`
    return { number: step.number, position: positionOf(step, plan.subjects), says, at }
  }
  const phase = spot.door ? spot.home : null
  const words = phase
    ? phaseWords(phase)
    : spot.node.kind === 'end'
      ? 'The end of the work'
      : spot.node.kind === 'stop'
        ? `The job stops${spot.node.reason ? `: ${shortWords(spot.node.reason)}` : ''}`
        : 'The start'
  return { number: '', position: phase?.position?.label ?? null, says: turn === '' ? words : `${words} → ${turn}`, at }
}

function placeOf(seen: Seen, passed: Passed) {
  return passed.spot.job?.step.at ?? passed.spot.home?.at ?? seen.plan.subjects.procedure.document.at
}

/** The answer given, or what was out of limit. */
function turnOf(seen: Seen, { way, isOut, isSkipped }: Passed): string {
  if (way === null) return ''
  const edge = seen.plan.subjects.procedure.graph.edges[way.edge]
  if (edge === undefined) return ''
  if (isOut && !TURNS.has(edge.kind)) return 'out of limit, and the work goes on'
  if (!TURNS.has(edge.kind) && !isSkipped) return ''
  if (edge.kind === 'branch') return `answer "${shortWords(edge.says, 60)}"`
  return shortWords(edge.says, 60)
}

function changesOf(seen: Seen, told: Told, passed: Passed, standing: Map<number, number>, isLast: boolean): string {
  if (passed.isSkipped) return ''
  const { plan } = seen
  const { subjects } = plan
  const words: string[] = []
  for (const role of told.roles) {
    const moves = passed.spot.job
      ? [...passed.spot.job.moves, ...passed.spot.job.enters]
      : (passed.spot.door?.moves ?? [])
    const move = moves.findLast((one) => one.role === role)
    if (!move) continue
    const zones = (subjects.places.zones[move.place] ?? []).map((zone) => subjects.procedure.zones[zone]?.id ?? '')
    words.push(
      `${person(role, subjects).toLowerCase()} ${zones.length === 0 ? 'is out' : `is in ${listed(zones, 'and')}`}`,
    )
  }
  for (const state of told.states) {
    for (const value of changesAt(plan, passed.spot, state)) {
      if (standing.get(state) === value) continue
      standing.set(state, value)
      words.push(`${stateName(state, subjects)} goes ${valueName(state, value, subjects)}`)
    }
    const proof = passed.spot.job?.proves.find((one) => one.state === state)
    if (proof && !isLast && !passed.isOut && (proof.signedBy.length > 0 || proof.isMeasured))
      words.push(`${stateName(state, subjects)} is proved`)
  }
  if (
    told.states.length > 0 &&
    passed.spot.job?.step.waits.length &&
    passed.spot.job.moments.some((moment) => moment.is === 'wait')
  )
    words.push(`wait ${passed.spot.job.step.waits.join(', ')}`)
  return words.join('; ')
}
