import type { Place } from '../text/place.ts'
import { lineAndColumn, lineText, type SourceText } from '../text/source-text.ts'
import { type ShownSign, shownSigns, widthOf } from './shown-text.ts'

/** A source line as shown, cut to the width, and the columns of it that are marked. */
export interface ExcerptLine {
  readonly line: number
  readonly text: string
  readonly markFrom: number
  readonly markWidth: number
}

/** The excerpt of a place: its line, or its first and last line where it goes over several. */
export interface Excerpt {
  readonly lines: readonly ExcerptLine[]
  /** Lines left out between the two shown. */
  readonly leftOut: number
}

const ellipsis: ShownSign = { text: '…', width: 1, start: -1, end: -1 }

export function excerptOf(source: SourceText, at: Place, width: number): Excerpt {
  const first = lineAndColumn(source, at.start)
  // A place that ends with its line's end belongs to that line alone.
  const lastOffset = at.end > at.start ? at.end - 1 : at.end
  const last = lineAndColumn(source, lastOffset)
  const lineOf = (line: number, from: number, to: number) => excerptLine(source, line, from, to, width)
  if (first.line === last.line)
    return {
      lines: [lineOf(first.line, first.column - 1, first.column - 1 + Math.max(0, at.end - at.start))],
      leftOut: 0,
    }
  const lastLine = lineText(source, last.line)
  const indentation = lastLine.length - lastLine.trimStart().length
  return {
    lines: [
      lineOf(first.line, first.column - 1, lineText(source, first.line).length),
      lineOf(last.line, Math.min(indentation, last.column - 1), last.column),
    ],
    leftOut: last.line - first.line - 1,
  }
}

function excerptLine(source: SourceText, line: number, from: number, to: number, width: number): ExcerptLine {
  const part = partAround(lineText(source, line).trimEnd(), from, to)
  const signs = shownSigns(part.text)
  const before = signs.filter((sign) => sign.end <= from - part.start)
  const marked = signs.filter((sign) => sign.end > from - part.start && sign.start < to - part.start)
  const cut = cutAround(signs, before.length, before.length + marked.length, width, part)
  return {
    line,
    text: cut.signs
      .map((sign) => sign.text)
      .join('')
      .trimEnd(),
    markFrom: widthOf(cut.signs.slice(0, cut.from)),
    // Where something is missing nothing is marked: point at the column where it would stand.
    markWidth: Math.max(1, widthOf(cut.signs.slice(cut.from, cut.to))),
  }
}

interface LinePart {
  readonly text: string
  readonly start: number
  readonly cutBefore: boolean
  readonly cutAfter: boolean
}

/** The neighbourhood of a span in a line of any length: cutting megabytes into signs would take seconds. */
function partAround(line: string, from: number, to: number): LinePart {
  const reach = 1000
  if (line.length <= 4 * reach) return { text: line, start: 0, cutBefore: false, cutAfter: false }
  const start = Math.max(0, from - reach)
  const end = Math.min(line.length, Math.min(to, from + reach) + reach)
  return { text: line.slice(start, end), start, cutBefore: start > 0, cutAfter: end < line.length }
}

/** As many signs as fit, the marked ones among them, with `…` where something is cut off. */
function cutAround(signs: readonly ShownSign[], from: number, to: number, width: number, part: LinePart) {
  if (!part.cutBefore && !part.cutAfter && widthOf(signs) <= width) return { signs, from, to }
  const room = width - 2
  let left = Math.min(from, signs.length)
  let right = left
  let used = 0
  const widthAt = (index: number) => signs[index]?.width ?? 0
  while (right < Math.min(to, signs.length) && used + widthAt(right) <= room) used += widthAt(right++)
  const markedTo = right
  // What is left of the room goes to both sides in turn.
  for (let grew = true; grew; ) {
    grew = false
    if (left > 0 && used + widthAt(left - 1) <= room) {
      used += widthAt(--left)
      grew = true
    }
    if (right < signs.length && used + widthAt(right) <= room) {
      used += widthAt(right++)
      grew = true
    }
  }
  const start = left > 0 || part.cutBefore ? [ellipsis] : []
  const end = right < signs.length || part.cutAfter ? [ellipsis] : []
  const shift = start.length - left
  return {
    signs: [...start, ...signs.slice(left, right), ...end],
    from: Math.min(from, markedTo) + shift,
    to: markedTo + shift,
  }
}
