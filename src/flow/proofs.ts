import type { Hold, Step } from '../model/procedure.ts'
import type { Reading } from '../model/readings.ts'
import { isJudged } from './readings.ts'
import { compactClaims, rolesNamed, type Subjects, valueNumber } from './subjects.ts'

/** What a step proves of one state, and by what. */
export interface ProofTaken {
  readonly state: number
  readonly ok: Uint8Array
  readonly firstValue: number
  /** Roles that sign for it here and may; empty where none does. */
  readonly signedBy: readonly number[]
  /** Whether a reading or a check of this step proves it. */
  readonly isMeasured: boolean
  /** Signers among the actors of the step. */
  readonly ownSigners: readonly number[]
}

export function proofsOf(
  step: Step,
  readings: readonly Reading[],
  actors: readonly number[],
  subjects: Subjects,
): readonly ProofTaken[] {
  const signers = step.holds.filter(provesBySigning).map((hold) => hold.role)
  const isFigure = (reading: Reading): boolean =>
    (reading.kind === 'measure' || reading.kind === 'derive') && isJudged(reading)
  return step.proves.flatMap((typed): readonly ProofTaken[] => {
    const [claim] = compactClaims([typed], subjects)
    const provedBy: readonly string[] = (claim && subjects.states[claim.state]?.provedBy) ?? []
    if (claim === undefined || provedBy.length === 0) return []
    const signedBy = rolesNamed(
      provedBy.filter((prover) => signers.includes(prover)),
      subjects,
    )
    return [
      {
        ...claim,
        firstValue: valueNumber(subjects, claim.state, typed.values[0] ?? ''),
        signedBy,
        isMeasured:
          (provedBy.includes('reading') && readings.some(isFigure)) ||
          (provedBy.includes('test') && readings.some((reading) => reading.kind === 'check')),
        ownSigners: signedBy.filter((role) => actors.includes(role)),
      },
    ]
  })
}

/** A hold that closes the step, or a second person's check; a witness may be waived, and a review reads paper. */
function provesBySigning(hold: Hold): boolean {
  return hold.timing === 'after' && (hold.kind === 'hold' || hold.kind === 'verify')
}
