import type { TextChange } from '../../findings/finding.ts'
import {
  blockAfterSteps,
  blockOutsideStep,
  headingWithoutBlank,
  secondBlock,
  stepInParagraph,
  textOutsideStep,
} from '../faults/faults.ts'
import type { Prose } from '../prose.ts'
import type { WrittenBlock, WrittenStep } from '../written.ts'
import { contentColumn, indentAt, shiftLines, spaces } from './columns.ts'
import type { BlockPiece, Piece, ProsePiece } from './pieces.ts'
import { firstWords, inPlaces, inSource, placeOf, type Reading, report } from './reading.ts'

/** A place that takes prose, one block and steps: the document, a phase, or a step. */
interface Gathered {
  readonly prose: readonly Prose[]
  readonly block: WrittenBlock | null
  readonly steps: readonly WrittenStep[]
}

/**
 * Puts the pieces of one place together: prose and block first, then its steps. What stands behind the steps belongs to
 * none of them; it is reported and, so that later stages still see it, given to the last step.
 *
 * @param ownColumn column in which the content of this place starts: 0 for a phase
 */
export function gather(reading: Reading, pieces: readonly Piece[], ownColumn: number): Gathered {
  const prose: Prose[] = []
  const steps: WrittenStep[] = []
  let block: WrittenBlock | null = null
  let blockAt: BlockPiece['at'] | null = null
  let lostLines: ReadonlySet<number> | null = null
  let isBehindLostLine = false
  for (const piece of pieces) {
    if (piece.kind === 'heading') continue
    if (piece.kind === 'steps') {
      steps.push(...piece.steps)
      isBehindLostLine = false
      continue
    }
    // Reported where it was read; which place it belongs to does not matter.
    if (piece.kind === 'block' && piece.isLeftOpen) continue
    const last = steps.at(-1)
    if (last !== undefined) {
      lostLines ??= startsOfLostLines(reading)
      if (lostLines.has(piece.at.start)) isBehindLostLine = true
      steps[steps.length - 1] = isBehindLostLine
        ? takeSilently(piece, last)
        : piece.kind === 'block'
          ? takeStrayBlock(reading, piece, last, ownColumn)
          : takeStrayProse(reading, piece, last)
      continue
    }
    if (piece.kind === 'prose') {
      prose.push(piece.prose)
      continue
    }
    if (blockAt !== null) {
      report(reading, secondBlock, {
        at: openingFence(reading, piece),
        message: 'A second block stands in one place.',
        advice: 'Move its lines into the first block and delete this one.',
        related: [{ at: openingFence(reading, { at: blockAt }), message: 'The first block begins here.' }],
      })
      continue
    }
    blockAt = piece.at
    block = piece.block
  }
  return { prose, block, steps }
}

/** Where paragraphs begin that were meant as a step or phase and are reported as that: what follows belongs to them. */
function startsOfLostLines(reading: Reading): ReadonlySet<number> {
  const lost = [headingWithoutBlank.name, stepInParagraph.name]
  return new Set(reading.findings.filter(({ name }) => lost.includes(name)).map(({ at }) => at.start))
}

function takeSilently(piece: BlockPiece | ProsePiece, last: WrittenStep): WrittenStep {
  return piece.kind === 'block' ? last : { ...last, details: [...last.details, piece.prose] }
}

/** The last step written, however deep: what slipped out slipped out of it. */
function takeStrayBlock(reading: Reading, piece: BlockPiece, last: WrittenStep, ownColumn: number): WrittenStep {
  const { source } = reading
  const column = indentAt(source, inSource(reading, piece.at.start))
  const target = nearestStep(reading, last, column)
  const needed = contentColumn(source, inSource(reading, target.at.start))
  if (column > ownColumn) {
    report(reading, blockOutsideStep, {
      at: openingFence(reading, piece),
      message: `This block has ${spaces(column)} before it and stands outside step ${target.typedNumber}.`,
      advice: `Type ${spaces(needed)} before each line of the block.`,
      related: [{ at: target.at, message: `Step ${target.typedNumber} stands here.` }],
      edit: {
        title: `Indent the block by ${spaces(needed)}`,
        changes: shiftedLines(reading, piece, needed - column),
      },
    })
  } else {
    report(reading, blockAfterSteps, {
      at: openingFence(reading, piece),
      message:
        ownColumn === 0
          ? `This block stands at the left edge behind step ${target.typedNumber}: it is neither in the step nor above the first one.`
          : `This block stands behind the sub-steps of a step, and it is not clear to which it belongs.`,
      advice:
        ownColumn === 0
          ? `If it belongs to step ${target.typedNumber}, type ${spaces(needed)} before each of its lines. If it belongs to the whole phase, move it above the first step.`
          : `If it belongs to sub-step ${target.typedNumber}, type ${spaces(needed)} before each of its lines. If it belongs to the step itself, move it above the sub-steps.`,
      related: [{ at: target.at, message: `Step ${target.typedNumber} stands here.` }],
    })
  }
  return giveBlock(last, target, piece.block)
}

/** The deepest last sub-step whose text starts at or left of the first column right of `column`. */
function nearestStep(reading: Reading, step: WrittenStep, column: number): WrittenStep {
  const sub = step.steps.at(-1)
  if (sub === undefined) return step
  return indentAt(reading.source, inSource(reading, sub.at.start)) <= column ? nearestStep(reading, sub, column) : step
}

function giveBlock(step: WrittenStep, target: WrittenStep, block: WrittenBlock | null): WrittenStep {
  if (step === target) return step.block === null ? { ...step, block } : step
  const sub = step.steps.at(-1)
  return sub === undefined ? step : { ...step, steps: [...step.steps.slice(0, -1), giveBlock(sub, target, block)] }
}

function takeStrayProse(reading: Reading, piece: ProsePiece, last: WrittenStep): WrittenStep {
  const { source } = reading
  const words = firstWords(source.text.slice(inSource(reading, piece.at.start), inSource(reading, piece.at.end)))
  const needed = contentColumn(source, inSource(reading, last.at.start))
  report(reading, textOutsideStep, {
    at: piece.at,
    message: `"${words}" stands behind step ${last.typedNumber} but not in it.`,
    advice: `If it belongs to the step, type ${spaces(needed)} before each of its lines. Otherwise move it above the first step.`,
    related: [{ at: last.at, message: `Step ${last.typedNumber} stands here.` }],
  })
  return { ...last, details: [...last.details, piece.prose] }
}

function shiftedLines(reading: Reading, { at }: BlockPiece, by: number): readonly TextChange[] {
  const changes = shiftLines(reading.source, inSource(reading, at.start), inSource(reading, at.end), by)
  return changes.map((change) => ({
    ...change,
    at: placeOf(reading, inPlaces(reading, change.at.start), inPlaces(reading, change.at.end)),
  }))
}

function openingFence(reading: Reading, piece: Pick<BlockPiece, 'at'>) {
  const { text } = reading.source
  const start = inSource(reading, piece.at.start)
  const last = inSource(reading, piece.at.end)
  let end = start
  while (end < last && text[end] !== '\n' && text[end] !== '\r') end++
  return placeOf(reading, piece.at.start, piece.at.start + end - start)
}
