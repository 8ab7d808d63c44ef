import type { Root } from 'mdast'
import type { Finding } from '../../findings/finding.ts'
import { type SourceText, sourceText } from '../../text/source-text.ts'
import { isBeyondLimits } from './chunk-limits.ts'
import { movePlaces } from './move-places.ts'
import { parseMarkdown } from './parse-markdown.ts'
import type { Piece } from './pieces.ts'
import { readFence } from './read-fence.ts'
import { readHeading } from './read-heading.ts'
import { readProse } from './read-prose.ts'
import { readSteps } from './read-steps.ts'
import { placeOfNode, type Reading, startOf } from './reading.ts'
import { type RunOut, runOutOf } from './run-out.ts'
import type { Chunk } from './split-chunks.ts'

/** What a stretch of text holds, with places counted from its start. */
export interface ChunkContent {
  readonly pieces: readonly Piece[]
  readonly findings: readonly Finding[]
}

/** What was read before, by the words it was read from. Kept by whoever reads the same procedure again and again. */
export type ReadingCache = Map<string, ChunkContent>

/** Reads one chunk, or takes it from the cache, and puts it where it stands in the source. */
export function readChunk(source: SourceText, chunk: Chunk, cache: ReadingCache | null): ChunkContent {
  const text = source.text.slice(chunk.start, chunk.end)
  let content = cache?.get(text)
  if (content === undefined) {
    content = readAlone(text)
    cache?.set(text, content)
  }
  return movePlaces(content, source.path, chunk.start)
}

export function readAlone(text: string): ChunkContent {
  const reading: Reading = { source: sourceText('', text), findings: [] }
  if (isBeyondLimits(reading)) return { pieces: [], findings: reading.findings }
  const pieces = readRoot(reading, parseMarkdown(text))
  return { pieces, findings: reading.findings }
}

function readRoot(reading: Reading, root: Root): readonly Piece[] {
  const pieces: Piece[] = []
  const runOuts = findRunOuts(reading, root)
  for (const node of root.children) {
    if (runOuts.some((runOut) => startOf(node) >= runOut.start && startOf(node) <= runOut.end)) continue
    const at = placeOfNode(reading, node)
    if (node.type === 'heading') pieces.push(readHeading(reading, node))
    else if (node.type === 'code') {
      const block = readFence(reading, node)
      if (block !== null) pieces.push(block)
    } else if (node.type === 'list' && node.ordered)
      pieces.push({ kind: 'steps', steps: readSteps(reading, node, 1), at })
    else for (const prose of readProse(reading, node)) pieces.push({ kind: 'prose', prose, at })
  }
  return pieces
}

/** Stretches that are part of a block which ran out of its step, and are reported with it. */
function findRunOuts(reading: Reading, root: Root): readonly RunOut[] {
  const runOuts: RunOut[] = []
  const visit = (node: unknown): void => {
    const { type, children } = node as { type: string; children?: unknown[] }
    if (type === 'code') {
      const runOut = runOutOf(reading, node as Parameters<typeof runOutOf>[1])
      if (runOut !== null) runOuts.push(runOut)
    }
    children?.forEach(visit)
  }
  for (const child of root.children) if (child.type === 'list') visit(child)
  return runOuts
}
