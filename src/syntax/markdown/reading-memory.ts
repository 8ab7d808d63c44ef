import type { Finding } from '../../findings/finding.ts'
import { addressesFor, type Stretch } from '../../text/addresses.ts'
import type { SourceText } from '../../text/source-text.ts'
import type { WrittenBlock, WrittenPhase } from '../written.ts'
import { movePlaces } from './move-places.ts'
import type { HeadingPiece, Piece } from './pieces.ts'
import { type ChunkContent, type ReadingCache, readAlone } from './read-chunk.ts'
import type { Reading } from './reading.ts'
import type { Chunk } from './split-chunks.ts'

/**
 * What is kept from one reading of a procedure to the next. Its places are addresses, so that every part of the text that has not
 * changed comes out as the very same value, and whoever works on can tell by that.
 */
export interface ReadingMemory {
  /** By the words it was read from, with places counted from its start. */
  readonly alone: ReadingCache
  /** The stretches of the text read last. */
  chunks: readonly KeptChunk[]
  stretches: readonly Stretch[]
  frontMatter: KeptFrontMatter | null
  sections: ReadonlyMap<HeadingPiece, KeptSection>
  phases: readonly WrittenPhase[]
}

interface KeptChunk {
  readonly text: string
  readonly address: number
  readonly content: ChunkContent
}

interface KeptFrontMatter {
  readonly text: string
  readonly block: WrittenBlock
}

/** What was made of the pieces below one heading. */
export interface KeptSection {
  readonly pieces: readonly Piece[]
  readonly phase: WrittenPhase
  readonly findings: readonly Finding[]
}

/** Stretches that are read alone and kept; above it, all but those of the present text are forgotten. */
const MOST_KEPT = 5000

export function newReadingMemory(): ReadingMemory {
  return { alone: new Map(), chunks: [], stretches: [], frontMatter: null, sections: new Map(), phases: [] }
}

/** Reads the chunks of a text, or takes them from the memory, and gives every one its address. */
export function readKept(source: SourceText, chunks: readonly Chunk[], memory: ReadingMemory): readonly ChunkContent[] {
  const texts = chunks.map(({ start, end }) => source.text.slice(start, end))
  const addresses = addressesFor(memory.chunks, texts)
  const before = new Map(memory.chunks.map((chunk) => [chunk.address, chunk]))
  if (memory.alone.size > MOST_KEPT) memory.alone.clear()
  memory.chunks = texts.map((text, index): KeptChunk => {
    const address = addresses[index] ?? 0
    const known = before.get(address)
    if (known?.text === text) return known
    const alone = memory.alone.get(text) ?? readAlone(text)
    memory.alone.set(text, alone)
    return { text, address, content: movePlaces(alone, source.path, address) }
  })
  const opening = { start: 0, end: chunks[0]?.start ?? source.text.length, address: 0 }
  memory.stretches = [
    opening,
    ...chunks.map(({ start, end }, index) => ({ start, end, address: addresses[index] ?? 0 })),
  ]
  return memory.chunks.map(({ content }) => content)
}

/** The block read before where its letters are the same. */
export function keepFrontMatter(text: string, block: WrittenBlock | null, memory: ReadingMemory): WrittenBlock | null {
  const { frontMatter } = memory
  if (block !== null && frontMatter?.text === text) return frontMatter.block
  memory.frontMatter = block && { text, block }
  return block
}

/** Reads the phase of a section, or takes it from the memory where its pieces are the same. */
export function keepSection(
  reading: Reading,
  memory: ReadingMemory | null,
  read: (reading: Reading, heading: HeadingPiece, pieces: readonly Piece[]) => WrittenPhase,
): (heading: HeadingPiece, pieces: readonly Piece[]) => WrittenPhase {
  if (memory === null) return (heading, pieces) => read(reading, heading, pieces)
  const before = memory.sections
  const now = new Map<HeadingPiece, KeptSection>()
  memory.sections = now
  return (heading, pieces) => {
    const known = before.get(heading)
    const count = reading.findings.length
    const kept =
      known !== undefined && areSame(known.pieces, pieces)
        ? known
        : { pieces, phase: read(reading, heading, pieces), findings: reading.findings.slice(count) }
    if (kept === known) reading.findings.push(...kept.findings)
    now.set(heading, kept)
    return kept.phase
  }
}

/** Phases with their branches, each the same value as before where nothing in it has changed. */
export function keepPhases(phases: readonly WrittenPhase[], memory: ReadingMemory | null): readonly WrittenPhase[] {
  if (memory === null) return phases
  const before = new Map(memory.phases.map((phase) => [phase.steps, phase]))
  memory.phases = phases.map((phase) => {
    const known = before.get(phase.steps)
    const { branches, ...own } = phase
    const isKnown =
      known !== undefined &&
      areSame(known.branches, branches) &&
      Object.entries(own).every(([key, value]) => known[key as keyof WrittenPhase] === value)
    return isKnown ? known : phase
  })
  return memory.phases
}

function areSame(some: readonly unknown[], others: readonly unknown[]): boolean {
  return some.length === others.length && some.every((one, index) => one === others[index])
}
