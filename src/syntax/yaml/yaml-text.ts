import type { SourceText } from '../../text/source-text.ts'

/**
 * The text of a block without its indentation, lines ending in LF, and where each of its lines came from.
 *
 *     10. Tighten.
 *         ```yaml
 *         torque:          ← text line 0 "torque:" comes from column 4
 *           plate: 5 N·m   ← text line 1 "  plate: 5 N·m" comes from column 4
 */
export interface YamlText {
  readonly text: string
  readonly lines: readonly YamlLine[]
}

interface YamlLine {
  /** Offset of the line in the text. */
  readonly start: number
  readonly length: number
  /** Blanks at its start that no letter of the source stands for (the rest of a tab cut in two). */
  readonly lead: number
  /** Offset in the source of the first letter after those. */
  readonly sourceStart: number
}

const LINE_END = /\r\n|\n|\r/

/** The lines of a source from `start` to `end`, as they stand. */
export function yamlTextOf(source: SourceText, start: number, end: number): YamlText {
  const lines: YamlLine[] = []
  let text = ''
  let at = start
  for (const piece of source.text.slice(start, end).split(LINE_END)) {
    lines.push({ start: text.length, length: piece.length, lead: 0, sourceStart: at })
    text += `${piece}\n`
    at += piece.length
    at += source.text[at] === '\r' && source.text[at + 1] === '\n' ? 2 : 1
  }
  return { text, lines }
}

/**
 * The content of a fenced block. Whatever containers it stands in, each of its lines is the end of its line in the source;
 * the fence itself is on line `fenceLine` (counted from 0).
 */
export function yamlTextOfFence(source: SourceText, content: string, fenceLine: number): YamlText {
  const lines: YamlLine[] = []
  let text = ''
  content.split(LINE_END).forEach((piece, index) => {
    const line = fenceLine + 1 + index
    const lineStart = source.lineStarts[line] ?? source.text.length
    const lineWords = source.text.slice(lineStart, source.lineStarts[line + 1] ?? source.text.length)
    const full = lineWords.replace(/[\r\n]+$/, '')
    let same = 0
    while (same < piece.length && same < full.length && piece.at(-1 - same) === full.at(-1 - same)) same++
    lines.push({
      start: text.length,
      length: piece.length,
      lead: piece.length - same,
      sourceStart: lineStart + full.length - same,
    })
    text += `${piece}\n`
  })
  return { text, lines }
}

/** The line (counted from 0) of an offset in the text. */
export function yamlLineAt(yaml: YamlText, offset: number): number {
  let low = 0
  let high = yaml.lines.length - 1
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if ((yaml.lines[middle]?.start ?? 0) <= offset) low = middle
    else high = middle - 1
  }
  return low
}

/** Where a letter of the text stands in the source. */
export function toSource(yaml: YamlText, offset: number): number {
  const line = yaml.lines[yamlLineAt(yaml, offset)]
  if (line === undefined) return 0
  const within = Math.max(0, Math.min(offset - line.start - line.lead, line.length - line.lead))
  return line.sourceStart + within
}

export function yamlLineText(yaml: YamlText, line: number): string {
  const { start, length } = yaml.lines[line] ?? { start: 0, length: 0 }
  return yaml.text.slice(start, start + length)
}
