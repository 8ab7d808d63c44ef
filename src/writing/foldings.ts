import type { BlockNode } from '../syntax/block-node.ts'
import { lineAndColumn } from '../text/source-text.ts'
import { blocksOf } from './blocks.ts'
import type { OpenText } from './open-text.ts'
import { type OutlineEntry, outline } from './outline.ts'

/** A stretch that can be folded up to its first line. */
export interface Folding {
  readonly start: number
  readonly end: number
  readonly kind: 'front-matter' | 'block' | 'phase' | 'step' | 'key'
}

/** Everything that takes more than one line: front matter, phases, steps, blocks and the keys in them. */
export function foldings(open: OpenText): readonly Folding[] {
  const all: Folding[] = [...outline(open).flatMap((entry) => foldingsOf(open, entry))]
  for (const { place, block } of blocksOf(open.written)) {
    const { start, end } = block.at
    all.push({ start, end, kind: place === 'front-matter' ? 'front-matter' : 'block' })
    all.push(...keyFoldings(block.map))
  }
  return all
    .filter(({ start, end }) => lineOf(open, start) < lineOf(open, end))
    .sort((a, b) => a.start - b.start || b.end - a.end)
}

function foldingsOf(open: OpenText, entry: OutlineEntry): readonly Folding[] {
  // Blank lines below stay outside, so that what comes next stands clear of what is folded.
  const end = entry.start + open.text.slice(entry.start, entry.end).trimEnd().length
  const kind = entry.kind === 'step' ? 'step' : 'phase'
  return [{ start: entry.start, end, kind }, ...entry.children.flatMap((child) => foldingsOf(open, child))]
}

function keyFoldings(node: BlockNode): readonly Folding[] {
  if (node.kind === 'scalar') return []
  if (node.kind === 'list') return node.items.flatMap(keyFoldings)
  return node.entries.flatMap(({ keyAt, value }) => [
    { start: keyAt.start, end: value.at.end, kind: 'key' as const },
    ...keyFoldings(value),
  ])
}

const lineOf = (open: OpenText, offset: number): number => lineAndColumn(open.source, offset).line
