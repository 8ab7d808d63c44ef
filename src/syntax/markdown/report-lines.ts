import type { Paragraph } from 'mdast'
import { lineAndColumn } from '../../text/source-text.ts'
import { fenceTooDeep, headingWithoutBlank, stepInParagraph } from '../faults/faults.ts'
import { contentColumn, indentAt, shiftLines, spaces } from './columns.ts'
import { endOf, firstWords, placeOf, type Reading, report, startOf } from './reading.ts'

/** Lines of a paragraph that were meant as a step, a heading or a fence but are read as text. */
export function reportLinesInParagraph(reading: Reading, node: Paragraph): void {
  const { source } = reading
  const end = endOf(node)
  const firstLine = lineAndColumn(source, startOf(node)).line
  let isInFence = false
  let isBehindStep = false
  for (let line = firstLine; ; line++) {
    const lineStart = line === firstLine ? startOf(node) : (source.lineStarts[line - 1] ?? end)
    if (lineStart >= end) return
    const full = source.text.slice(lineStart, Math.min(end, source.lineStarts[line] ?? end))
    const words = full.trim()
    const start = lineStart + full.indexOf(words)
    if (/^(?:`{3,}|~{3,})/.test(words)) {
      if (!isInFence) reportFenceAsText(reading, start, start + words.length)
      isInFence = !isInFence
    } else if (reportLine(reading, words, start, line !== firstLine && !isBehindStep)) isBehindStep = true
  }
}

/** True where a step was lost: numbered lines below it are steps again as soon as it is one. */
function reportLine(reading: Reading, words: string, start: number, canLoseStep: boolean): boolean {
  const at = placeOf(reading, start, start + words.length)
  const number = /^\d{1,9}[.)]/.exec(words)?.[0]
  if (number !== undefined && canLoseStep && /^[ \t]/.test(words.slice(number.length))) {
    report(reading, stepInParagraph, {
      at,
      message: `"${firstWords(words)}" is read as part of the text above it, not as a step.`,
      advice: 'Leave a line blank above it. If it is no step, move it up behind the line before.',
    })
    return true
  }
  if (number !== undefined && /^\p{L}/u.test(words.slice(number.length))) {
    const behind = start + number.length
    report(reading, stepInParagraph, {
      at,
      message: `"${firstWords(words)}" is read as text: a blank is missing behind "${number}".`,
      advice: `Type ${number} ${firstWords(words.slice(number.length))}`,
      edit: { title: 'Add the blank', changes: [{ at: placeOf(reading, behind, behind), newText: ' ' }] },
    })
    return true
  }
  const hashes = /^#{2,6}(?=[^#\s])/.exec(words)?.[0]
  if (hashes !== undefined) {
    const behind = start + hashes.length
    report(reading, headingWithoutBlank, {
      at,
      message: `"${firstWords(words)}" is read as text: a blank is missing behind ${hashes}.`,
      advice: `Type ${hashes} ${firstWords(words.slice(hashes.length))}`,
      edit: { title: 'Add the blank', changes: [{ at: placeOf(reading, behind, behind), newText: ' ' }] },
    })
  }
  return false
}

/** A fence that stands too far right to be one. */
export function reportFenceAsText(reading: Reading, start: number, end: number): void {
  const { source } = reading
  const column = indentAt(source, start)
  const needed = neededIndent(reading, start)
  const closing = closingFence(reading, start)
  report(reading, fenceTooDeep, {
    at: placeOf(reading, start, end),
    message: `The fence "${source.text.slice(start, end)}" has ${spaces(column)} before it and is read as plain text.`,
    advice: `Type ${spaces(needed)} before each line of the block.`,
    ...(closing === null || column <= needed
      ? {}
      : {
          edit: {
            title: `Indent the block by ${spaces(needed)}`,
            changes: shiftLines(source, start, closing, needed - column),
          },
        }),
  })
}

/** The end of the fence that closes the one at `start`, if it comes before a blank line. */
function closingFence({ source }: Reading, start: number): number | null {
  const marks = /^(?:`+|~+)/.exec(source.text.slice(start, start + 80))?.[0] ?? ''
  for (let line = lineAndColumn(source, start).line + 1; line <= source.lineStarts.length; line++) {
    const lineStart = source.lineStarts[line - 1] ?? 0
    const text = source.text.slice(lineStart, source.lineStarts[line] ?? source.text.length).trimEnd()
    if (text === '') return null
    if (text.trim() === marks) return lineStart + text.length
  }
  return null
}

/** Where a block above which `offset` stands would belong: under the text of the nearest numbered line above. */
export function neededIndent({ source }: Reading, offset: number): number {
  const column = indentAt(source, offset)
  for (let line = lineAndColumn(source, offset).line - 1; line >= 1; line--) {
    const start = source.lineStarts[line - 1] ?? 0
    const blanks = /^[ \t]*(?=\d{1,9}[.)][ \t])/.exec(source.text.slice(start, start + 200))?.[0]
    if (blanks === undefined) continue
    const needed = contentColumn(source, start + blanks.length)
    if (needed <= column) return needed
  }
  return 0
}
