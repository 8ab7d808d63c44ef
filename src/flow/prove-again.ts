import type { Phase, Procedure, Step } from '../model/procedure.ts'
import { isSameWork } from '../model/same-work.ts'
import { isEqual } from '../text/is-equal.ts'
import { oncePer } from '../text/once-per.ts'
import type { Place } from '../text/place.ts'
import type { FlowFault, FlowProof } from './proof.ts'
import { proveFlow } from './prove-flow.ts'

/** What was proved last, and of what. */
export interface FlowMemory {
  last: { readonly procedure: Procedure; readonly proof: FlowProof } | null
}

export function newFlowMemory(): FlowMemory {
  return { last: null }
}

/** The same as `proveFlow`; where nothing has changed that a way rests on, what was proved before still holds. */
export function proveFlowAgain(procedure: Procedure, memory: FlowMemory | null): FlowProof {
  const { last } = memory ?? { last: null }
  if (last !== null && holdsFor(last.proof, last.procedure, procedure)) return last.proof
  const proof = proveFlow(procedure)
  if (memory !== null) memory.last = { procedure, proof }
  return proof
}

/** Parts of the document that a way may rest on; the graph is drawn from the phases. */
const PARTS = ['document', 'roles', 'machine', 'states', 'zones', 'never'] as const

/** Where a fault was told, the words of the steps on its way and their places are among what was said. */
function holdsFor(proof: FlowProof, before: Procedure, now: Procedure): boolean {
  const shown = placesShown(proof)
  const isPlace = (key: string): boolean => shown.size === 0 && key === 'at'
  return (
    PARTS.every((part) => isEqual(before[part], now[part], isPlace)) &&
    isSameWork(before.phases, now.phases, (part) => !standsIn(part, shown))
  )
}

/** Every place that a told fault points at. */
const placesShown = oncePer(
  ({ faults }: FlowProof): ReadonlySet<string> =>
    new Set(faults.flatMap(placesOf).map(({ file, start }) => `${file} ${start}`)),
)

function placesOf({ at, story, related }: FlowFault): readonly Place[] {
  return [at, ...story.map((line) => line.at), ...related.map((one) => one.at)]
}

/** Whether any place of a phase or step, but for the steps below it, is among these. */
function standsIn(part: Phase | Step, shown: ReadonlySet<string>): boolean {
  if (shown.size === 0) return false
  const { steps: _, ...own } = part
  const isIn = (value: unknown): boolean => {
    if (typeof value !== 'object' || value === null) return false
    if ('file' in value && 'start' in value) return shown.has(`${value.file} ${value.start}`)
    return Object.values(value).some(isIn)
  }
  return isIn(own)
}
