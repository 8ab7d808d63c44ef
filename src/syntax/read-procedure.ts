import type { Outcome } from '../findings/finding.ts'
import type { SourceText } from '../text/source-text.ts'
import { checkIds } from './check-ids.ts'
import { checkLetters } from './check-letters.ts'
import { branchWithoutPhase, headingOutOfPlace, noPhase, stepOutsidePhase, titleOutOfPlace } from './faults/faults.ts'
import { readFrontMatter } from './front-matter.ts'
import { gather } from './markdown/gather.ts'
import type { Piece } from './markdown/pieces.ts'
import type { ReadingCache } from './markdown/read-chunk.ts'
import { placeOf, type Reading, report } from './markdown/reading.ts'
import { checkStepNumbers } from './markdown/step-numbers.ts'
import { inOrder, isEmpty, readSections, type Section } from './sections.ts'
import type { WrittenPhase, WrittenProcedure, WrittenTitle } from './written.ts'

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
  const [opening, ...sections] = readSections(reading, frontMatter.end, cache)
  const title = takeTitle(reading, opening?.pieces ?? [])
  const document = gather(reading, opening?.pieces ?? [], 0)
  const [outside] = document.steps
  if (outside !== undefined)
    report(reading, stepOutsidePhase, {
      at: outside.at,
      message: `Step ${outside.typedNumber} stands before the first phase.`,
      advice: 'Type a heading above it that names the phase, for example: ## Park and isolate',
    })
  const phases = readPhases(reading, sections)
  if (phases.length === 0)
    report(reading, noPhase, {
      at: placeOf(reading, source.text.trimEnd().length, source.text.trimEnd().length),
      message: 'The procedure has no phase, so no step can be printed.',
      advice: 'Type a heading, for example: ## Park and isolate, and number the steps below it.',
    })
  checkIds(reading, phases)
  const value: WrittenProcedure = {
    file: source.path,
    frontMatter: frontMatter.block,
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

function readPhases(reading: Reading, sections: readonly Section[]): readonly WrittenPhase[] {
  const phases: WrittenPhase[] = []
  for (const { heading, pieces } of sections) {
    if (heading === null) continue
    reportHeadings(reading, pieces)
    const { prose, block, steps } = gather(reading, pieces, 0)
    checkStepNumbers(reading, steps)
    const level = heading.depth === 3 ? 3 : 2
    const phase: WrittenPhase = {
      level,
      title: heading.title,
      id: heading.id,
      at: heading.at,
      prose,
      block,
      steps,
      branches: [],
    }
    const last = phases.at(-1)
    if (level === 2) phases.push(phase)
    else if (last !== undefined) phases[phases.length - 1] = { ...last, branches: [...last.branches, phase] }
    else {
      report(reading, branchWithoutPhase, {
        at: heading.at,
        message: `The branch "${heading.title}" stands before the first phase.`,
        advice: `For a phase type ## ${heading.title}`,
      })
      phases.push({ ...phase, level: 2 })
    }
  }
  return phases
}
