import type { TextChange } from '../../findings/finding.ts'
import { lineAndColumn, type SourceText } from '../../text/source-text.ts'

const TAB = 4

/** The column (blanks from the left edge, tabs to the next multiple of four) that a run of text ends in. */
export function columnAfter(text: string, from = 0): number {
  let column = from
  for (const letter of text) column += letter === '\t' ? TAB - (column % TAB) : 1
  return column
}

function lineStartOf(source: SourceText, offset: number): number {
  return source.lineStarts[lineAndColumn(source, offset).line - 1] ?? 0
}

/** The blanks and tabs at the start of the line that holds `offset`. */
function indentTextAt(source: SourceText, offset: number): string {
  const start = lineStartOf(source, offset)
  let end = start
  while (source.text[end] === ' ' || source.text[end] === '\t') end++
  return source.text.slice(start, end)
}

export function indentAt(source: SourceText, offset: number): number {
  return columnAfter(indentTextAt(source, offset))
}

/**
 * The column in which everything that belongs to a list item must start.
 *
 *     10. Tighten …       marker at column 0, text at column 4
 *         ```yaml         so four spaces
 */
export function contentColumn(source: SourceText, itemStart: number): number {
  const lineStart = lineStartOf(source, itemStart)
  const markerColumn = columnAfter(source.text.slice(lineStart, itemStart))
  const rest = source.text.slice(itemStart, itemStart + 24)
  const marker = /^(?:\d{1,9}[.)]|[-+*])/.exec(rest)?.[0] ?? ''
  const markerEnd = markerColumn + marker.length
  const blanks = /^[ \t]*/.exec(rest.slice(marker.length))?.[0] ?? ''
  const next = rest[marker.length + blanks.length]
  if (next === undefined || next === '\n' || next === '\r') return markerEnd + 1
  const textColumn = columnAfter(blanks, markerEnd)
  return textColumn - markerEnd > TAB ? markerEnd + 1 : textColumn
}

export function spaces(count: number): string {
  if (count === 0) return 'no space'
  return count === 1 ? '1 space' : `${count} spaces`
}

/** Changes that move the lines from `start` to `end` by a number of columns; tabs in front of them become spaces. */
export function shiftLines(source: SourceText, start: number, end: number, by: number): readonly TextChange[] {
  const changes: TextChange[] = []
  for (let line = lineAndColumn(source, start).line; ; line++) {
    const lineStart = source.lineStarts[line - 1]
    if (lineStart === undefined || lineStart > end) return changes
    const blanks = /^[ \t]*/.exec(source.text.slice(lineStart, end))?.[0] ?? ''
    const newText = ' '.repeat(Math.max(0, columnAfter(blanks) + by))
    const isEmpty = /^[\r\n]?$/.test(source.text.charAt(lineStart + blanks.length))
    const at = { file: source.path, start: lineStart, end: lineStart + blanks.length }
    if (!isEmpty && newText !== blanks) changes.push({ at, newText })
  }
}
