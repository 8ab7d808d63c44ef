import type { Fault, FaultKind, Severity } from '../findings/finding.ts'
import type { FlowProof } from '../flow/proof.ts'
import type { Words } from '../library/read-words.ts'
import type { Procedure } from '../model/procedure.ts'
import type { Quantity, Rational } from '../quantities/quantity-types.ts'
import type { WrittenProcedure } from '../syntax/written.ts'
import type { Place } from '../text/place.ts'

/** What a check may look at: the resolved procedure, the same as it was written, and what the library asks for. */
export interface CheckSubject {
  readonly procedure: Procedure
  readonly written: WrittenProcedure
  readonly configuration: CheckConfiguration
  /** What holds on every way through the work; null where the text cannot be followed yet. */
  readonly flow: FlowProof | null
  /** The texts that places point into, by file, so that words in prose can be found; not every caller has them. */
  readonly texts?: ReadonlyMap<string, PlacedText>
}

/** A text, or what answers for it by the places of a procedure. */
export type PlacedText = Pick<string, 'slice'>

/** The part of the library's configuration that checks and acceptances rest on. */
export interface CheckConfiguration {
  /** Roles that may accept an error of the groups where people can be hurt; `safety-officer` where nothing is said. */
  readonly safetyRoles?: readonly string[]
  /** How often the accuracy of an instrument must go into what a limit leaves; 4 where nothing is said. */
  readonly accuracyRatio?: Rational
  /** How many steps of an instrument must lie in the band of a limit; 10 where nothing is said. */
  readonly resolutionRatio?: Rational
  /** By energy (`electrical`): the roles that must sign before anybody is exposed to it. */
  readonly requiredHolds?: ReadonlyMap<string, readonly string[]>
  /** By finding: what the site takes it for, never less than it is. */
  readonly severity?: ReadonlyMap<string, RaisedSeverity>
  /** Whose limits hold where makers of rules differ, by a name of `src/trade/thresholds/rule.ts`; the strictest of all where nothing is said. */
  readonly ruleSet?: string
  /** Words that the wording is judged by; those that are built in where the library has none. */
  readonly words?: Words
  /** Limits of the site itself. */
  readonly thresholds?: {
    /** Time after the last spark. */
    readonly fireWatch?: Quantity
    /** Mass for one person. */
    readonly handLift?: Quantity
  }
}

export interface RaisedSeverity {
  readonly to: Severity
  /** Where the site says so. */
  readonly at: Place
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
