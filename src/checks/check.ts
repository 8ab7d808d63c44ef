import type { Fault, FaultKind } from '../findings/finding.ts'
import type { FlowProof } from '../flow/proof.ts'
import type { Procedure } from '../model/procedure.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import type { WrittenProcedure } from '../syntax/written.ts'

/** What a check may look at: the resolved procedure, the same as it was written, and what the library asks for. */
export interface CheckSubject {
  readonly procedure: Procedure
  readonly written: WrittenProcedure
  readonly configuration: CheckConfiguration
  /** What holds on every way through the work; null where the text cannot be followed yet. */
  readonly flow: FlowProof | null
}

/** The part of the library's configuration that checks and acceptances rest on. */
export interface CheckConfiguration {
  /** Roles that may accept an error of the groups where people can be hurt; `safety-officer` where nothing is said. */
  readonly safetyRoles?: readonly string[]
  /** How often the accuracy of an instrument must go into what a limit leaves; 4 where nothing is said. */
  readonly accuracyRatio?: Rational
  /** How many steps of an instrument must lie in the band of a limit; 10 where nothing is said. */
  readonly resolutionRatio?: Rational
}

/**
 * One check, one room: `<group>/<fault>.ts` and its page `<group>/<fault>.md`.
 * It says where, what is wrong and what to type; the runner stamps name and severity, sorts, and takes doubles out.
 */
export interface Check extends FaultKind {
  /** Rules of the trade this check keeps, by the ids its page gives the sources of; empty for house rules. */
  readonly rules: readonly string[]
  readonly run: (subject: CheckSubject) => Iterable<Fault>
}
