import type { OpenLibrary } from '../compile.ts'
import type { Finding } from '../findings/finding.ts'
import type { ReadingCache } from '../syntax/markdown/read-chunk.ts'
import { readProcedure } from '../syntax/read-procedure.ts'
import type { WrittenProcedure } from '../syntax/written.ts'
import { type SourceText, sourceText } from '../text/source-text.ts'
import { collectNames } from './names/collect-names.ts'
import type { NameMark } from './names/name-mark.ts'

/** A procedure while it is written: read once, and handed to everything that helps its author. */
export interface OpenText {
  /** Path in its library. */
  readonly file: string
  readonly text: string
  readonly source: SourceText
  readonly library: OpenLibrary
  /** As typed: a block that cannot be read is missing in it. */
  readonly written: WrittenProcedure
  /** What stood in the way of reading it. */
  readonly findings: readonly Finding[]
  /** Every name that stands in it, in the order of the text. */
  readonly names: readonly NameMark[]
  /** What was read, kept for the next version of the text. */
  readonly cache: ReadingCache
}

/** Parts of a text kept from one version to the next; above it, all are forgotten at once. */
const mostKept = 20_000

/** @param before an earlier version of the same text: only what has changed since is read again */
export function openText(file: string, text: string, library: OpenLibrary, before?: OpenText): OpenText {
  const source = sourceText(file, text)
  const cache: ReadingCache = before === undefined || before.cache.size > mostKept ? new Map() : before.cache
  const read = readProcedure(source, cache)
  const names = collectNames(read.value, source)
  return { file, text, source, library, written: read.value, findings: read.findings, names, cache }
}
