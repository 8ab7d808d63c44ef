import type { StepFile } from '../step-file/step-file.ts'
import type { ClaimSheet, HoldSheet, StepSheet } from './step-file-parts.ts'

/**
 * What a claim of a step rests on: somebody looked and signed (`sight`), a figure in limit (`reading`), a check passed (`test`),
 * or only that whoever did it ticks it (`word`).
 */
export type ProofKind = 'sight' | 'reading' | 'test' | 'word'

/** Roles, `reading` or `test` that may prove a state; empty where no proof is asked for. */
export function proversOf(stepFile: StepFile, state: string): readonly string[] {
  return stepFile.states.find(({ id }) => id === state)?.provedBy ?? []
}

/**
 * The signatures of a step that can prove anything: a hold that closes the step or a second person's check. A witness may be
 * waived, a review reads paper, and what opens a step has seen nothing of it (`src/flow/semantics.md`).
 */
export function provingSignatures(step: StepSheet): readonly HoldSheet[] {
  return step.holds.filter(({ kind, timing }) => (kind === 'hold' || kind === 'verify') && timing === 'after')
}

/** The claims of a step that one signature proves: those of states that ask for its role. */
export function claimsProvedBy(stepFile: StepFile, step: StepSheet, hold: string): readonly ClaimSheet[] {
  const signature = provingSignatures(step).find(({ id }) => id === hold)
  if (signature === undefined) return []
  return step.proves.filter(({ state }) => proversOf(stepFile, state).includes(signature.role))
}

/** How a step proves one of its claims, by the first kind that counts: a signature, a reading, a test. */
export function proofKind(stepFile: StepFile, step: StepSheet, state: string): ProofKind {
  const provers = proversOf(stepFile, state)
  if (provingSignatures(step).some(({ role }) => provers.includes(role))) return 'sight'
  const hasFigure = step.readings.some(
    ({ kind, limit, workedLimit }) =>
      (kind === 'measure' || kind === 'derive') &&
      (workedLimit !== undefined || limit?.lower != null || limit?.upper != null),
  )
  if (provers.includes('reading') && hasFigure) return 'reading'
  if (provers.includes('test') && step.readings.some(({ kind }) => kind === 'check')) return 'test'
  return 'word'
}
