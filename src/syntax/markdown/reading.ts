import { type Fault, type FaultKind, type Finding, found } from '../../findings/finding.ts'
import { addressAt, offsetAt, type Stretch } from '../../text/addresses.ts'
import type { Place } from '../../text/place.ts'
import type { SourceText } from '../../text/source-text.ts'

/** A text being read, and what was found in it so far. */
export interface Reading {
  readonly source: SourceText
  readonly findings: Finding[]
  /** Where places are addresses: what they stand for. */
  readonly stretches?: readonly Stretch[]
}

/** The offset in the source that a place counts to. */
export function inSource({ stretches }: Reading, offset: number): number {
  return stretches === undefined ? offset : offsetAt(stretches, offset)
}

/** What a place counts to for an offset in the source. */
export function inPlaces({ stretches }: Reading, offset: number): number {
  return stretches === undefined ? offset : addressAt(stretches, offset)
}

export function report(reading: Reading, kind: FaultKind, fault: Fault): void {
  reading.findings.push(found(kind, fault))
}

export function placeOf(reading: Reading, start: number, end: number): Place {
  return { file: reading.source.path, start, end }
}

/** What the Markdown parser says about where a node stands. */
export interface Positioned {
  readonly position?: Position | undefined
}

interface Position {
  readonly start: { readonly offset?: number | undefined }
  readonly end: { readonly offset?: number | undefined }
}

export function startOf(node: Positioned): number {
  return node.position?.start.offset ?? 0
}

export function endOf(node: Positioned): number {
  return node.position?.end.offset ?? 0
}

export function placeOfNode(reading: Reading, node: Positioned): Place {
  return placeOf(reading, startOf(node), endOf(node))
}

export function sliceOf(reading: Reading, node: Positioned): string {
  return reading.source.text.slice(startOf(node), endOf(node))
}

/** A few words of a text, for a message. */
export function firstWords(text: string): string {
  const words = text.trim().replace(/\s+/g, ' ')
  return words.length <= 40 ? words : `${words.slice(0, 40).replace(/ [^ ]*$/, '')} …`
}
