import type { Code } from 'mdast'
import type { TextChange } from '../../findings/finding.ts'
import { lineAndColumn } from '../../text/source-text.ts'
import { blockOutsideStep } from '../faults/faults.ts'
import { columnAfter, indentAt, spaces } from './columns.ts'
import { endOf, firstWords, placeOf, type Reading, report, sliceOf, startOf } from './reading.ts'

/** Lines of a block that run out of its step, from the first of them to the fence that was to close it. */
export interface RunOut {
  readonly start: number
  readonly end: number
}

/**
 * A block whose first line stands in a step and a later one does not: the step, and with it the block, ends there.
 *
 *     1. Tighten.
 *        ```yaml
 *       torque: …      ← two spaces, three are wanted
 *        ```
 */
export function runOutOf(reading: Reading, node: Code): RunOut | null {
  const { source } = reading
  const needed = indentAt(source, startOf(node))
  if (needed === 0) return null
  const marks = /^(?:`{3,}|~{3,})/.exec(sliceOf(reading, node))?.[0]
  if (marks === undefined) return null
  const firstLine = lineAndColumn(source, endOf(node)).line + 1
  for (let line = firstLine; line <= source.lineStarts.length; line++) {
    const start = source.lineStarts[line - 1] ?? 0
    const text = source.text.slice(start, source.lineStarts[line] ?? source.text.length).trimEnd()
    const words = text.trim()
    if (/^#{1,6}[ \t]/.test(text) || /^\d{1,9}[.)][ \t]/.test(words)) return null
    if (/^(?:`{3,}|~{3,})/.test(words)) {
      const closes = words === marks.charAt(0).repeat(words.length) && words.length >= marks.length
      return closes ? { start: source.lineStarts[firstLine - 1] ?? 0, end: start + text.length } : null
    }
  }
  return null
}

export function reportRunOut(reading: Reading, node: Code): boolean {
  const runOut = runOutOf(reading, node)
  if (runOut === null) return false
  const { source } = reading
  const needed = indentAt(source, startOf(node))
  const lines: { start: number; blanks: string; words: string }[] = []
  for (let line = lineAndColumn(source, runOut.start).line; ; line++) {
    const start = source.lineStarts[line - 1]
    if (start === undefined || start > runOut.end) break
    const text = source.text.slice(start, Math.min(runOut.end, source.lineStarts[line] ?? runOut.end)).trimEnd()
    const blanks = /^[ \t]*/.exec(text)?.[0] ?? ''
    if (text.trim() !== '') lines.push({ start, blanks, words: text.trim() })
  }
  const first = lines[0]
  if (first === undefined) return false
  const least = Math.min(...lines.map((line) => columnAfter(line.blanks)))
  const isFence = lines.length === 1
  const changes: TextChange[] = lines
    .filter((line) => isFence || columnAfter(line.blanks) < needed || least < needed)
    .map((line) => ({
      at: placeOf(reading, line.start, line.start + line.blanks.length),
      newText: ' '.repeat(shifted(columnAfter(line.blanks), needed, least, line === lines.at(-1))),
    }))
  report(reading, blockOutsideStep, {
    at: placeOf(reading, first.start + first.blanks.length, first.start + first.blanks.length + first.words.length),
    message: isFence
      ? `The fence that closes the block has ${spaces(columnAfter(first.blanks))} before it and stands outside the step.`
      : `"${firstWords(first.words)}" has ${spaces(columnAfter(first.blanks))} before it: the block runs out of its step here.`,
    advice: `Type ${spaces(needed)} before each line of the block.`,
    related: [{ at: placeOf(reading, startOf(node), startOf(node) + 3), message: 'The block begins here.' }],
    edit: { title: `Indent the block by ${spaces(needed)}`, changes },
  })
  return true
}

/** The content moves as one; the closing fence goes under the opening one. */
function shifted(column: number, needed: number, least: number, isClosing: boolean): number {
  return isClosing ? needed : column + Math.max(0, needed - least)
}
