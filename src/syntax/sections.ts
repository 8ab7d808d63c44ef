import { emptyFile } from './faults/faults.ts'
import type { HeadingPiece, Piece } from './markdown/pieces.ts'
import { type ChunkContent, type ReadingCache, readChunk } from './markdown/read-chunk.ts'
import { placeOf, type Reading, report } from './markdown/reading.ts'
import { splitChunks } from './markdown/split-chunks.ts'

/** A heading with what stands below it; without a heading: the document before its first phase. */
export interface Section {
  readonly heading: HeadingPiece | null
  readonly pieces: Piece[]
}

export function readSections(reading: Reading, from: number, cache: ReadingCache | null): readonly Section[] {
  const chunks = splitChunks(reading.source, from)
  return sectionsOf(
    reading,
    chunks.map((chunk) => readChunk(reading.source, chunk, cache)),
  )
}

export function sectionsOf(reading: Reading, contents: readonly ChunkContent[]): readonly Section[] {
  let section: Section = { heading: null, pieces: [] }
  const sections = [section]
  for (const { pieces, findings } of contents) {
    reading.findings.push(...findings)
    for (const piece of pieces) {
      if (piece.kind === 'heading' && (piece.depth === 2 || piece.depth === 3)) {
        section = { heading: piece, pieces: [] }
        sections.push(section)
      } else section.pieces.push(piece)
    }
  }
  return sections
}

/** True where there is nothing to read; a finding says so. */
export function isEmpty(reading: Reading): boolean {
  if (reading.source.text.trim() !== '') return false
  report(reading, emptyFile, {
    at: placeOf(reading, 0, 0),
    message: 'The file holds no words.',
    advice: 'Start with front matter between two lines of ---, then a phase: ## Park and isolate',
  })
  return true
}

/** From top to bottom. */
export function inOrder(reading: Reading): Reading['findings'] {
  return [...reading.findings].sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end)
}
