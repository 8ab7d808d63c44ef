import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js'
import canonicalize from 'canonicalize'
import type { Finding } from '../findings/finding.ts'
import type { FlowProof } from '../flow/proof.ts'
import type { Acceptance, Procedure } from '../model/procedure.ts'
import { cautionsFor } from './cautions.ts'
import type { StepFile, WithoutPlaces } from './step-file.ts'

/** An acceptance with the messages that it took out of the findings. */
export interface AcceptedWithMessages {
  readonly acceptance: Acceptance
  readonly messages: readonly string[]
}

/** The step file of a procedure in which nothing blocks its outputs. */
export function makeStepFile(
  procedure: Procedure,
  flow: FlowProof,
  findings: readonly Finding[],
  accepted: readonly AcceptedWithMessages[],
): StepFile {
  const body = {
    ...withoutPlaces(procedure),
    format: 'witnessmark-step-file' as const,
    formatVersion: '1.0' as const,
    accepted: accepted.map(({ acceptance, messages }) => ({ ...withoutPlaces(acceptance), messages })),
    findings: findings.map(({ name, severity, message, advice }) => ({ name, severity, message, advice })),
    cautions: cautionsFor(procedure),
    proof: withoutFaults(flow),
  }
  return { ...body, digest: digestOf(body) }
}

/** `sha256:…` over the RFC 8785 form. */
export function digestOf(body: Omit<StepFile, 'digest'>): string {
  return `sha256:${bytesToHex(sha256(utf8ToBytes(canonicalize(body) ?? '')))}`
}

/** Whether the digest of a step file is the digest of what it holds. */
export function digestHolds(stepFile: StepFile): boolean {
  const { digest, ...body } = stepFile
  return digest === digestOf(body)
}

/** The text of `steps.json`: readable, and the same bytes for the same procedure. */
export function stepFileText(stepFile: StepFile): string {
  return `${JSON.stringify(JSON.parse(canonicalize(stepFile) ?? 'null'), null, 1)}\n`
}

/** The faults are among the findings. */
function withoutFaults({ verdict, situations, variants, properties, notModelled }: FlowProof): StepFile['proof'] {
  return { verdict, situations, variants, properties, notModelled }
}

function withoutPlaces<Value>(value: Value): WithoutPlaces<Value>
function withoutPlaces(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutPlaces)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, inner]) => (isPlace(key, inner) ? [] : [[key, withoutPlaces(inner)]])),
  )
}

/** `at` of a place; the `at` that an author wrote in a block is no place. */
function isPlace(key: string, value: unknown): boolean {
  return key === 'at' && typeof value === 'object' && value !== null && 'file' in value && 'start' in value
}
