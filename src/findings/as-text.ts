import type { Place } from '../text/place.ts'
import { lineAndColumn, type SourceText } from '../text/source-text.ts'
import { type Excerpt, excerptOf } from './excerpt.ts'
import type { Edit, Finding, Severity, StoryPlace } from './finding.ts'
import { withoutSteering } from './shown-text.ts'

/** Puts colour on text, or does not: the door decides. */
export interface Painter {
  readonly severity: (severity: Severity, text: string) => string
  readonly strong: (text: string) => string
  readonly faint: (text: string) => string
}

const plainPainter: Painter = {
  severity: (_severity, text) => text,
  strong: (text) => text,
  faint: (text) => text,
}

export interface TextOptions {
  readonly painter?: Painter
  /** Columns for a source line, 100 unless said otherwise. */
  readonly width?: number
}

/**
 * Findings for people: where, how bad and which fault; the line with the span marked; what is wrong; what to type next.
 * Each finding ends with an empty line; no findings give the empty text.
 */
export function asText(
  findings: readonly Finding[],
  sources: readonly SourceText[],
  options: TextOptions = {},
): string {
  const painter = options.painter ?? plainPainter
  const width = options.width ?? 100
  const byPath = new Map(sources.map((source) => [source.path, source]))
  const written = findings.map((finding) => {
    const head = `${position(finding.at, byPath)} ${painter.severity(finding.severity, `${finding.severity} ${finding.name}`)}`
    const related = (finding.related ?? []).flatMap((place) => [
      `  ${painter.faint('see')} ${position(place.at, byPath)} ${withoutSteering(place.message)}`,
      ...excerpt(place.at, byPath, width, painter.faint, painter),
    ])
    return [
      painter.strong(head),
      ...excerpt(finding.at, byPath, width, (mark) => painter.severity(finding.severity, mark), painter),
      ...indented(finding.message, ''),
      ...told(finding.story ?? [], painter),
      ...indented(finding.advice, '→ '),
      ...related,
      ...(finding.edit ? offered(finding.edit, byPath, painter) : []),
      '',
      '',
    ].join('\n')
  })
  return written.join('')
}

function position(at: Place, byPath: ReadonlyMap<string, SourceText>): string {
  const source = byPath.get(at.file)
  const file = withoutSteering(at.file)
  if (source === undefined) return file
  const { line, column } = lineAndColumn(source, at.start)
  return `${file}:${line}:${column}`
}

function excerpt(
  at: Place,
  byPath: ReadonlyMap<string, SourceText>,
  width: number,
  paintMark: (text: string) => string,
  painter: Painter,
): readonly string[] {
  const source = byPath.get(at.file)
  // A file that could not be read, or is empty, has no line to show.
  if (source === undefined || source.text.trim() === '') return []
  const shown: Excerpt = excerptOf(source, at, width)
  const gutter = Math.max(...shown.lines.map((line) => String(line.line).length))
  const bar = (name: string) => painter.faint(`  ${name.padStart(gutter)} │ `)
  return shown.lines.flatMap((line, index) => [
    ...(index > 0 && shown.leftOut > 0 ? [bar('⋮').trimEnd()] : []),
    `${bar(String(line.line))}${line.text}`.trimEnd(),
    `${bar('')}${' '.repeat(line.markFrom)}${paintMark('^'.repeat(line.markWidth))}`,
  ])
}

/** A message may have lines of its own: a line to type, a list of choices. */
function indented(text: string, sign: string): readonly string[] {
  return text
    .split('\n')
    .map((line, index) => `  ${index === 0 ? sign : ' '.repeat(sign.length)}${withoutSteering(line)}`.trimEnd())
}

/** The way that leads to a fault, a numbered line a place. */
function told(story: readonly StoryPlace[], painter: Painter): readonly string[] {
  if (story.length === 0) return []
  const width = String(story.length).length
  const lines = story.map(({ text }, index) => {
    const number = painter.faint(`${String(index + 1).padStart(width)})`)
    return `    ${number} ${withoutSteering(text)}`
  })
  return [`  ${painter.faint('It comes to this by:')}`, ...lines]
}

function offered(edit: Edit, byPath: ReadonlyMap<string, SourceText>, painter: Painter): readonly string[] {
  const changes = edit.changes.map((change) => {
    const source = byPath.get(change.at.file)
    const before = source?.text.slice(change.at.start, change.at.end) ?? ''
    if (before === '') return `${quoted(change.newText)} put in at ${position(change.at, byPath)}`
    if (change.newText === '') return `${quoted(before)} taken out`
    return `${quoted(before)} becomes ${quoted(change.newText)}`
  })
  return [`  ${painter.faint('edit')} ${withoutSteering(edit.title)}`, ...changes.map((change) => `       ${change}`)]
}

function quoted(text: string): string {
  const oneLine = withoutSteering(text.replace(/\r\n|\r|\n/g, '⏎'))
  return `“${oneLine.length > 80 ? `${oneLine.slice(0, 79)}…` : oneLine}”`
}
