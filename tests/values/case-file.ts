/** Cases of published values as the files write them. */

export interface CaseValue {
  /** A number, text, truth value, or a list or table of them. */
  readonly value: unknown
  /** As the file writes it, `lbf.ft`; null where the file gives none. */
  readonly unit: string | null
  readonly tolerance: number | null
  /** The number as it must be written, where that matters. */
  readonly text: string | null
}

export interface PublishedCase {
  readonly id: string
  readonly title: string
  readonly basis: string
  readonly inputs: ReadonlyMap<string, CaseValue>
  readonly expected: ReadonlyMap<string, CaseValue>
}

export interface CaseFile {
  readonly family: string
  readonly cases: readonly PublishedCase[]
}

type Json = Readonly<Record<string, unknown>>

/** Reads one file. Throws where it is not of this shape: the files are ours. */
export function readCaseFile(text: string, nameOfFile: string): CaseFile {
  const file = JSON.parse(text) as Json
  if (!Array.isArray(file.cases)) throw new Error(`${nameOfFile} has no cases`)
  const family = typeof file.family === 'string' ? file.family : nameOfFile.replace(/\..*$/, '')
  return { family, cases: (file.cases as readonly Json[]).map(caseOf) }
}

function caseOf(written: Json): PublishedCase {
  return {
    id: String(written.id),
    title: String(written.title),
    basis: String(written.basis),
    inputs: valuesOf(written.inputs as Json),
    expected: valuesOf(written.expected as Json),
  }
}

function valuesOf(written: Json): ReadonlyMap<string, CaseValue> {
  return new Map(Object.entries(written).map(([name, value]) => [name, caseValueOf(value)]))
}

function caseValueOf(written: unknown): CaseValue {
  const isWrapped = typeof written === 'object' && written !== null && 'value' in written
  if (!isWrapped) return { value: written, unit: null, tolerance: null, text: null }
  const { value, unit, tol, text } = written as Json
  return {
    value,
    unit: typeof unit === 'string' ? unit : null,
    tolerance: typeof tol === 'number' ? tol : null,
    text: typeof text === 'string' ? text : null,
  }
}
