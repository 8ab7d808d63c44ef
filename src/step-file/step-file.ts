import type { Finding } from '../findings/finding.ts'
import type { FlowProof } from '../flow/proof.ts'
import type { Acceptance, Procedure } from '../model/procedure.ts'

/** A value without the places of its author's text. */
export type WithoutPlaces<T> = T extends string | number | boolean | null | undefined
  ? T
  : T extends readonly (infer Item)[]
    ? readonly WithoutPlaces<Item>[]
    : { readonly [Key in keyof T as Key extends 'at' ? never : Key]: WithoutPlaces<T[Key]> }

/**
 * The machine-readable procedure, and the only thing that any other output is made from.
 * Shape: `schema/step-file.schema.json`.
 */
export type StepFile = WithoutPlaces<Omit<Procedure, 'accepted'>> & {
  readonly format: 'witnessmark-step-file'
  readonly formatVersion: '1.0'
  /** `sha256:` and 64 hexadecimal digits over the RFC 8785 form of everything but this field. */
  readonly digest: string
  /** What was shown of every way through the work. */
  readonly proof: Omit<FlowProof, 'faults'>
  readonly accepted: readonly AcceptedFinding[]
  /** Warnings and advice that stood when this was built. */
  readonly findings: readonly StandingFinding[]
  /** What every output says where people can be hurt. */
  readonly cautions: readonly string[]
}

export type AcceptedFinding = WithoutPlaces<Acceptance> & { readonly messages: readonly string[] }

export type StandingFinding = Pick<Finding, 'name' | 'severity' | 'message' | 'advice'>
