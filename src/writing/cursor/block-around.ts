import type { BlockPlace } from '../../syntax/fit-block-schema.ts'

/** The block that an offset stands in, closed or not. Read line by line, so that half-typed text has one, too. */
export interface BlockAround {
  readonly place: BlockPlace
  /** Offset of its first line of keys, and behind its last one. */
  readonly start: number
  readonly end: number
  /** Blanks in front of its fence. */
  readonly indent: number
}

const fenceLine = /^(\s*)(`{3,}|~{3,})\s*(\S*)\s*$/
const phaseLine = /^#{2,3}\s/
const stepLine = /^\s*\d{1,9}[.)](?:\s|$)/

/** Null in prose, in a heading and on a line of a fence. */
export function blockAround(text: string, offset: number): BlockAround | null {
  let hasPhase = false
  let open: {
    readonly marks: string
    readonly indent: number
    readonly start: number
    readonly isBlock: boolean
  } | null = null
  let isFrontMatter = false
  let isFirst = true
  for (const { start, end, words } of linesOf(text)) {
    const isHere = start <= offset && offset <= end
    if (isFirst && /^\uFEFF?---\s*$/.test(words)) {
      isFrontMatter = true
      open = { marks: '---', indent: 0, start: end + 1, isBlock: true }
    } else if (isFrontMatter && open !== null) {
      const closes = /^---\s*$/.test(words)
      if (closes || phaseLine.test(words)) {
        if (offset < start && offset >= open.start)
          return { place: 'front-matter', start: open.start, end: start, indent: 0 }
        isFrontMatter = false
        open = null
      }
    } else if (open !== null) {
      const marks = fenceLine.exec(words)
      const closes = marks !== null && marks[3] === '' && marks[2]?.startsWith(open.marks) === true
      if (closes || isLeftOpenBefore(words, open.indent)) {
        if (open.isBlock && offset < start && offset >= open.start) return around(open, start, hasPhase)
        open = null
        if (!closes && phaseLine.test(words)) hasPhase = true
        else if (closes && isHere) return null
      }
    } else {
      const marks = fenceLine.exec(words)
      if (marks !== null)
        open = {
          marks: marks[2] ?? '```',
          indent: marks[1]?.length ?? 0,
          start: Math.min(end + 1, text.length),
          isBlock: /^(?:ya?ml)?$/i.test(marks[3] ?? ''),
        }
      else if (phaseLine.test(words)) hasPhase = true
    }
    isFirst = false
    if (start > offset && open === null) return null
  }
  if (open === null || offset < open.start) return null
  if (isFrontMatter) return { place: 'front-matter', start: open.start, end: text.length, indent: 0 }
  return open.isBlock ? around(open, text.length, hasPhase) : null
}

/** A heading or a step that stands further left than the block shows that its author has not closed it yet. */
function isLeftOpenBefore(words: string, indent: number): boolean {
  if (phaseLine.test(words)) return true
  return stepLine.test(words) && words.search(/\S/) < Math.max(indent, 1)
}

function around(
  open: { readonly indent: number; readonly start: number },
  end: number,
  hasPhase: boolean,
): BlockAround {
  const place = open.indent > 0 ? 'step' : hasPhase ? 'phase' : 'document'
  return { place, start: open.start, end, indent: open.indent }
}

export interface Line {
  readonly start: number
  /** Before the line end. */
  readonly end: number
  readonly words: string
}

export function* linesOf(text: string): Generator<Line> {
  const lineEnd = /\r\n|\n|\r|$/g
  let start = 0
  while (start <= text.length) {
    lineEnd.lastIndex = start
    const match = lineEnd.exec(text)
    const end = match?.index ?? text.length
    yield { start, end, words: text.slice(start, end) }
    if (match === null || match[0] === '') return
    start = end + match[0].length
  }
}
