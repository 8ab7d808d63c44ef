import type { Outcome } from '../findings/finding.ts'
import type { SourceText } from '../text/source-text.ts'
import { checkIds } from './check-ids.ts'
import { checkLetters } from './check-letters.ts'
import { branchWithoutPhase, headingOutOfPlace, noPhase, stepOutsidePhase, titleOutOfPlace } from './faults/faults.ts'
import { readFrontMatter } from './front-matter.ts'
import { gather } from './markdown/gather.ts'
import { mapPlaces } from './markdown/move-places.ts'
import type { HeadingPiece, Piece } from './markdown/pieces.ts'
import type { ReadingCache } from './markdown/read-chunk.ts'
import { inPlaces, placeOf, type Reading, report } from './markdown/reading.ts'
import { keepFrontMatter, keepPhases, keepSection, type ReadingMemory, readKept } from './markdown/reading-memory.ts'
import { splitChunks } from './markdown/split-chunks.ts'
import { checkStepNumbers } from './markdown/step-numbers.ts'
import { inOrder, isEmpty, readSections, type Section, sectionsOf } from './sections.ts'
import type { WrittenBlock, WrittenPhase, WrittenProcedure, WrittenTitle } from './written.ts'

/**
 * Reads a procedure as it was written. Blocks come out as typed; short forms are written out by a later stage.
 * Nothing an author wrote is dropped without a finding.
 *
 * @param cache kept between readings of the same procedure, so that only what changed is read again
 */
export function readProcedure(source: SourceText, cache: ReadingCache | null = null): Outcome<WrittenProcedure> {
  const reading: Reading = { source, findings: [] }
  if (!checkLetters(reading) || isEmpty(reading)) return { value: nothing(source.path), findings: reading.findings }
  const frontMatter = readFrontMatter(reading)
  return readBelow(reading, frontMatter.block, readSections(reading, frontMatter.end, cache), null)
}

/**
 * The same, with places that are addresses: what has not changed since the last reading with this memory comes out as the very
 * same values. `memory.stretches` tells afterwards what the addresses stand for.
 */
export function readProcedureAgain(source: SourceText, memory: ReadingMemory): Outcome<WrittenProcedure> {
  const above: Reading = { source, findings: [] }
  memory.stretches = []
  if (!checkLetters(above) || isEmpty(above)) return { value: nothing(source.path), findings: above.findings }
  const frontMatter = readFrontMatter(above)
  const block = keepFrontMatter(source.text.slice(0, frontMatter.end), frontMatter.block, memory)
  const contents = readKept(source, splitChunks(source, frontMatter.end), memory)
  const placed: Reading = { source, findings: [], stretches: memory.stretches }
  const findings = mapPlaces(above.findings, source.path, (offset) => inPlaces(placed, offset))
  const reading: Reading = { ...placed, findings }
  return readBelow(reading, block, sectionsOf(reading, contents), memory)
}

function readBelow(
  reading: Reading,
  frontMatter: WrittenBlock | null,
  [opening, ...sections]: readonly Section[],
  memory: ReadingMemory | null,
): Outcome<WrittenProcedure> {
  const { source } = reading
  const title = takeTitle(reading, opening?.pieces ?? [])
  const document = gather(reading, opening?.pieces ?? [], 0)
  const [outside] = document.steps
  if (outside !== undefined)
    report(reading, stepOutsidePhase, {
      at: outside.at,
      message: `Step ${outside.typedNumber} stands before the first phase.`,
      advice: 'Type a heading above it that names the phase, for example: ## Park and isolate',
    })
  const phases = readPhases(reading, sections, memory)
  const end = inPlaces(reading, source.text.trimEnd().length)
  if (phases.length === 0)
    report(reading, noPhase, {
      at: placeOf(reading, end, end),
      message: 'The procedure has no phase, so no step can be printed.',
      advice: 'Type a heading, for example: ## Park and isolate, and number the steps below it.',
    })
  checkIds(reading, phases)
  const value: WrittenProcedure = {
    file: source.path,
    frontMatter,
    title,
    prose: document.prose,
    block: document.block,
    phases,
  }
  return { value, findings: inOrder(reading) }
}

function nothing(file: string): WrittenProcedure {
  return { file, frontMatter: null, title: null, prose: [], block: null, phases: [] }
}

/** A heading of depth 1 is the title, if it is the first thing in the document. */
function takeTitle(reading: Reading, pieces: readonly Piece[]): WrittenTitle | null {
  const [first] = pieces
  const title = first?.kind === 'heading' && first.depth === 1 ? first : null
  reportHeadings(reading, title === null ? pieces : pieces.slice(1))
  if (title === null) return null
  return { text: title.title, at: title.at }
}

function reportHeadings(reading: Reading, pieces: readonly Piece[]): void {
  for (const piece of pieces) {
    if (piece.kind !== 'heading') continue
    if (piece.depth === 1)
      report(reading, titleOutOfPlace, {
        at: piece.at,
        message: `The title "${piece.title}" does not stand at the top.`,
        advice: `For a phase type ## ${piece.title}; the title stands right below the front matter.`,
      })
    else
      report(reading, headingOutOfPlace, {
        at: piece.at,
        message: `The heading "${piece.title}" is ${piece.depth} deep.`,
        advice: 'Use ## for a phase and ### for a branch; below those, write **bold** words in the text.',
      })
  }
}

function readPhases(
  reading: Reading,
  sections: readonly Section[],
  memory: ReadingMemory | null,
): readonly WrittenPhase[] {
  const phases: { readonly own: WrittenPhase; readonly branches: WrittenPhase[] }[] = []
  const read = keepSection(reading, memory, readPhase)
  for (const section of sections) {
    if (section.heading === null) continue
    const phase = read(section.heading, section.pieces)
    const last = phases.at(-1)
    if (phase.level === 2) phases.push({ own: phase, branches: [] })
    else if (last !== undefined) last.branches.push(phase)
    else {
      report(reading, branchWithoutPhase, {
        at: phase.at,
        message: `The branch "${phase.title}" stands before the first phase.`,
        advice: `For a phase type ## ${phase.title}`,
      })
      phases.push({ own: { ...phase, level: 2 }, branches: [] })
    }
  }
  return keepPhases(
    phases.map(({ own, branches }) => (branches.length === 0 ? own : { ...own, branches })),
    memory,
  )
}

function readPhase(reading: Reading, heading: HeadingPiece, pieces: readonly Piece[]): WrittenPhase {
  reportHeadings(reading, pieces)
  const { prose, block, steps } = gather(reading, pieces, 0)
  checkStepNumbers(reading, steps)
  const { title, id, at } = heading
  return { level: heading.depth === 3 ? 3 : 2, title, id, at, prose, block, steps, branches: [] }
}
