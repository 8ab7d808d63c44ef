import type { StepFile } from '../step-file/step-file.ts'
import { holdLabels } from './hold-text.ts'
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
  const provers = new Map(stepFile.states.map((state) => [state.id, state.provedBy]))
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
  for (const claim of step.proves) {
    const proveIt = provers.get(claim.state) ?? []
    // A witness may be waived, a review reads paper, and what opens a step has seen nothing of it.
    const signed = step.holds.filter(
      ({ kind, timing, role }) =>
        (kind === 'hold' || kind === 'verify') &&
        timing === 'after' &&
        (proveIt.length === 0 || proveIt.includes(role)),
    )
    const isRead = proveIt.length === 0 || proveIt.includes('reading') || proveIt.includes('test')
    if (signed.length === 0 && !isRead) continue
    next.set(claim.state, {
      state: claim.state,
      values: claim.values,
      step: step.id,
      number: step.number,
      labels: signed.flatMap((hold) => labels.get(hold.id) ?? []),
    })
  }
  return next
}

/** `H1 at 1.8`, or `reading at 1.7`. */
export function proofInWords(proof: Proof): string {
  return proof.labels.length === 0
    ? `reading or test at ${proof.number}`
    : `${proof.labels.join(' + ')} at ${proof.number}`
}
