import type { Outcome } from '../findings/finding.ts'
import type { SourceText } from '../text/source-text.ts'
import { checkIds } from './check-ids.ts'
import { checkLetters } from './check-letters.ts'
import { headingOutOfPlace } from './faults/faults.ts'
import { readFrontMatter } from './front-matter.ts'
import { gather } from './markdown/gather.ts'
import type { ReadingCache } from './markdown/read-chunk.ts'
import { type Reading, report } from './markdown/reading.ts'
import { checkStepNumbers } from './markdown/step-numbers.ts'
import type { Prose } from './prose.ts'
import { inOrder, isEmpty, readSections } from './sections.ts'
import type { WrittenBlock, WrittenStep } from './written.ts'

/** The inside of a phase, to be included in several: front matter, then prose, block and steps without a heading. */
export interface WrittenFragment {
  readonly file: string
  /** Parameters and source. */
  readonly frontMatter: WrittenBlock | null
  readonly prose: readonly Prose[]
  readonly block: WrittenBlock | null
  readonly steps: readonly WrittenStep[]
}

/** Reads a fragment as it was written. The phase that includes it gives the heading. */
export function readFragment(source: SourceText, cache: ReadingCache | null = null): Outcome<WrittenFragment> {
  const reading: Reading = { source, findings: [] }
  const empty = { prose: [], block: null, steps: [] }
  if (!checkLetters(reading) || isEmpty(reading))
    return { value: { file: source.path, frontMatter: null, ...empty }, findings: reading.findings }
  const frontMatter = readFrontMatter(reading)
  const sections = readSections(reading, frontMatter.end, cache)
  const pieces = sections.flatMap((section) =>
    section.heading === null ? section.pieces : [section.heading, ...section.pieces],
  )
  for (const piece of pieces)
    if (piece.kind === 'heading')
      report(reading, headingOutOfPlace, {
        at: piece.at,
        message: `The heading "${piece.title}" stands in a fragment.`,
        advice: 'Delete it: the phase that includes the fragment has the heading.',
      })
  const { prose, block, steps } = gather(reading, pieces, 0)
  checkStepNumbers(reading, steps)
  checkIds(reading, [{ id: null, steps, branches: [] }])
  return {
    value: { file: source.path, frontMatter: frontMatter.block, prose, block, steps },
    findings: inOrder(reading),
  }
}
