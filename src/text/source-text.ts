/** One text with the offsets at which its lines begin. */
export interface SourceText {
  /** Relative to the library's root, with forward slashes. */
  readonly path: string
  readonly text: string
  readonly lineStarts: readonly number[]
}

export interface LineAndColumn {
  /** Counted from 1. */
  readonly line: number
  /** Counted from 1, in UTF-16 units, as editors and SARIF count. */
  readonly column: number
}

/** Lines end in LF, CRLF or CR. */
export function sourceText(path: string, text: string): SourceText {
  const lineStarts = [0]
  for (const lineEnd of text.matchAll(/\r\n|\n|\r/g)) lineStarts.push(lineEnd.index + lineEnd[0].length)
  return { path, text, lineStarts }
}

/** The line and column of an offset; offsets past either end count as that end. */
export function lineAndColumn(source: SourceText, offset: number): LineAndColumn {
  const within = Math.max(0, Math.min(offset, source.text.length))
  let low = 0
  let high = source.lineStarts.length - 1
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if ((source.lineStarts[middle] ?? 0) <= within) low = middle
    else high = middle - 1
  }
  return { line: low + 1, column: within - (source.lineStarts[low] ?? 0) + 1 }
}

/** The text of a line (counted from 1) without its line end. */
export function lineText(source: SourceText, line: number): string {
  const start = source.lineStarts[line - 1]
  if (start === undefined) return ''
  return source.text.slice(start, source.lineStarts[line] ?? source.text.length).replace(/[\r\n]+$/, '')
}
