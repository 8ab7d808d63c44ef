import type { StepFile } from '../step-file/step-file.ts'
import { holdLabels } from './hold-text.ts'
import { provingSignatures } from './how-proved.ts'
import { allSteps, type StepSheet } from './step-file-parts.ts'

/** What last proved a state, and where. */
export interface Proof {
  readonly state: string
  readonly values: readonly string[]
  readonly step: string
  /** `2.6` */
  readonly number: string
  /** `H1`, or all of them where several sign; empty where a reading or test proves it. */
  readonly labels: readonly string[]
}

export type Proofs = ReadonlyMap<string, Proof>

/**
 * For every step and phase id: the proofs that stand just before it, by state.
 * Walked in the order of the print, on the safe side: a change ends a proof wherever it is made, and what a branch
 * proves counts only inside that branch, as the branch may not be taken. A step that some copies skip proves nothing later either.
 */
export function proofsBefore(stepFile: StepFile): ReadonlyMap<string, Proofs> {
  const labels = holdLabels(stepFile)
  const provers = proversByState(stepFile)
  const before = new Map<string, Proofs>()
  let main: Proofs = new Map()
  for (const phase of stepFile.phases) {
    const maySkip = phase.kind === 'branch' || phase.only !== null || phase.when !== null
    let standing = main
    before.set(phase.id, standing)
    for (const step of allSteps(phase.steps)) {
      before.set(step.id, standing)
      standing = after(step, standing, labels, provers)
      main = after(
        maySkip || step.only !== null || step.when !== null ? { ...step, proves: [] } : step,
        main,
        labels,
        provers,
      )
    }
  }
  return before
}

function after(
  step: StepSheet,
  standing: Proofs,
  labels: ReadonlyMap<string, string>,
  provers: ReadonlyMap<string, readonly string[]>,
): Proofs {
  if (step.sets.length === 0 && step.proves.length === 0) return standing
  const next = new Map(standing)
  for (const change of step.sets) next.delete(change.state)
  for (const proof of proofsOf(step, labels, provers)) next.set(proof.state, proof)
  return next
}

/** What a step proves, with the signatures that prove it: not every signature of the step does. */
export function proofsOf(
  step: StepSheet,
  labels: ReadonlyMap<string, string>,
  provers: ReadonlyMap<string, readonly string[]>,
): readonly Proof[] {
  return step.proves.flatMap((claim) => {
    const proveIt = provers.get(claim.state) ?? []
    const signed = provingSignatures(step).filter(({ role }) => proveIt.length === 0 || proveIt.includes(role))
    const isRead = proveIt.length === 0 || proveIt.includes('reading') || proveIt.includes('test')
    if (signed.length === 0 && !isRead) return []
    return [
      {
        state: claim.state,
        values: claim.values,
        step: step.id,
        number: step.number,
        labels: signed.flatMap((hold) => labels.get(hold.id) ?? []),
      },
    ]
  })
}

/** Who or what may prove each state. */
export function proversByState({ states }: StepFile): ReadonlyMap<string, readonly string[]> {
  return new Map(states.map((state) => [state.id, state.provedBy]))
}

/** `H1 at 1.8`, or `reading at 1.7`. */
export function proofInWords(proof: Proof): string {
  return proof.labels.length === 0
    ? `reading or test at ${proof.number}`
    : `${proof.labels.join(' + ')} at ${proof.number}`
}
