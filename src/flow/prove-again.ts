import type { Phase, Procedure, Step } from '../model/procedure.ts'
import type { FlowProof } from './proof.ts'
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

/** What the telling of a fault shows beside what it rests on: words, and where they stand. */
type Shown = 'at' | 'text'
/** What no way rests on, and nothing told of one shows. */
const BESIDE_STEP: ReadonlySet<keyof Step> = new Set<keyof Step>([
  'details',
  'hazards',
  'ppe',
  'uses',
  'takes',
  'tries',
  'undoes',
  'workings',
  'entries',
  'statesBefore',
  'statesAfter',
])
const BESIDE_PHASE: ReadonlySet<keyof Phase> = new Set<keyof Phase>([
  'prose',
  'ppe',
  'hazards',
  'takes',
  'reverseOf',
  'entries',
  'statesBefore',
  'statesAfter',
])
const PARTS = [
  'document',
  'roles',
  'machine',
  'states',
  'zones',
  'never',
  'graph',
] as const satisfies readonly (keyof Procedure)[]

function holdsFor(proof: FlowProof, before: Procedure, now: Procedure): boolean {
  const shown: readonly Shown[] = proof.faults.length === 0 ? ['at', 'text'] : []
  const skipped = (key: string): boolean => (shown as readonly string[]).includes(key)
  const isSameStep = (one: Step, other: Step): boolean =>
    one === other ||
    (isSame(one, other, (key) => skipped(key) || key === 'steps' || BESIDE_STEP.has(key as keyof Step)) &&
      isSameList(one.steps, other.steps, isSameStep))
  const isSamePhase = (one: Phase, other: Phase): boolean =>
    one === other ||
    (isSame(one, other, (key) => skipped(key) || key === 'steps' || BESIDE_PHASE.has(key as keyof Phase)) &&
      isSameList(one.steps, other.steps, isSameStep))
  return (
    PARTS.every((part) => isEqual(before[part], now[part], shown.includes('at'))) &&
    isSameList(before.phases, now.phases, isSamePhase)
  )

  function isSame<Part extends object>(one: Part, other: Part, isSkipped: (key: string) => boolean): boolean {
    const keys = Object.keys(one)
    return (
      keys.length === Object.keys(other).length &&
      keys.every(
        (key) => isSkipped(key) || isEqual(one[key as keyof Part], other[key as keyof Part], shown.includes('at')),
      )
    )
  }
}

function isSameList<Item>(
  some: readonly Item[],
  others: readonly Item[],
  isSame: (a: Item, b: Item) => boolean,
): boolean {
  return some.length === others.length && some.every((one, index) => isSame(one, others[index] as Item))
}

/** @param withoutPlaces whether `at` may differ */
function isEqual(one: unknown, other: unknown, withoutPlaces: boolean): boolean {
  if (one === other) return true
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false
  if (Array.isArray(one))
    return (
      Array.isArray(other) &&
      one.length === other.length &&
      one.every((item, index) => isEqual(item, other[index], withoutPlaces))
    )
  const keys = Object.keys(one)
  return (
    keys.length === Object.keys(other).length &&
    keys.every(
      (key) =>
        (withoutPlaces && key === 'at') ||
        (key in other && isEqual(one[key as keyof typeof one], other[key as keyof typeof other], withoutPlaces)),
    )
  )
}
