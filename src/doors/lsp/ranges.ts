import type { Position, Range } from 'vscode-languageserver/node'
import type { TextDocument } from 'vscode-languageserver-textdocument'
import type { Place } from '../../text/place.ts'
import { lineAndColumn, type SourceText } from '../../text/source-text.ts'

/** The offset of a position; what lies outside the text counts as its nearest end. */
export function offsetOf(document: TextDocument, position: Position): number {
  const line = whole(position?.line)
  if (line >= document.lineCount) return document.getText().length
  return document.offsetAt({ line, character: whole(position?.character) })
}

const whole = (number: unknown): number =>
  typeof number === 'number' && Number.isFinite(number) ? Math.max(0, Math.floor(number)) : 0

export function rangeOf(document: TextDocument, start: number, end: number): Range {
  return { start: document.positionAt(start), end: document.positionAt(end) }
}

/** The range of a place in any text: lines and UTF-16 units from 0. */
export function rangeIn(source: SourceText, { start, end }: Pick<Place, 'start' | 'end'>): Range {
  return { start: positionIn(source, start), end: positionIn(source, end) }
}

function positionIn(source: SourceText, offset: number): Position {
  const { line, column } = lineAndColumn(source, offset)
  return { line: line - 1, character: column - 1 }
}
