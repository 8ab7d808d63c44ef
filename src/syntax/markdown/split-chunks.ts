import type { SourceText } from '../../text/source-text.ts'
import { columnAfter } from './columns.ts'

/** A stretch of the source that Markdown reads the same whether it stands alone or in its document. */
export interface Chunk {
  readonly start: number
  readonly end: number
}

interface Fence {
  readonly letter: string
  readonly length: number
}

interface State {
  /** A fence or comment that runs at the left edge, and the first line in it that looks like the start of something else. */
  inside: { readonly until: Fence | 'comment'; suspect: number | null } | null
  /** Content column of the list item that is open at the left edge. */
  item: number | null
  afterBlank: boolean
}

/**
 * Cuts a text before and behind every `##` and `###` heading and before every numbered step at the left edge.
 * Parsing one long list takes more than linear time; parsing its items one by one does not, and an edit touches one of them.
 *
 *     ## Raise the axle      ← cut
 *                            ← cut
 *     (prose and block of the phase)
 *     1. Slacken …           ← cut
 *     2. Place the jack …    ← cut
 *
 * A fence or comment at the left edge that is never closed, or meets another opening fence first, is taken to end before
 * the first heading or step in it: what follows is then still read, and the fence is reported when its chunk is.
 */
export function splitChunks(source: SourceText, from: number): readonly Chunk[] {
  const cuts: number[] = []
  const state: State = { inside: null, item: null, afterBlank: true }
  const firstLine = source.lineStarts.findIndex((start) => start >= from)
  const lineCount = source.lineStarts.length
  for (let line = firstLine < 0 ? lineCount : firstLine; ; line++) {
    if (line >= lineCount) {
      const suspect = state.inside?.suspect ?? null
      if (suspect === null) break
      state.inside = null
      state.afterBlank = true
      line = suspect
    }
    const start = source.lineStarts[line] ?? 0
    const text = source.text.slice(start, source.lineStarts[line + 1] ?? source.text.length).replace(/[\r\n]+$/, '')
    if (state.inside !== null) {
      const rewind = readInside(state, text, line)
      if (rewind !== null) line = rewind - 1
      continue
    }
    if (cutsBefore(state, text) && cuts.at(-1) !== start) cuts.push(start)
    if (PHASE_OR_BRANCH.test(text)) cuts.push(source.lineStarts[line + 1] ?? source.text.length)
    readOutside(state, text)
  }
  return toChunks(cuts, from, source.text.length)
}

/** One line inside a fence or comment; a line to go back to where the fence turns out to be left open. */
function readInside(state: State, text: string, line: number): number | null {
  const inside = state.inside
  if (inside === null) return null
  if (inside.until === 'comment') {
    if (text.includes('-->')) leave(state)
    else if (inside.suspect === null && looksLikeStart(text)) inside.suspect = line
    return null
  }
  if (closes(inside.until, text)) {
    leave(state)
    return null
  }
  if (inside.suspect !== null && opensInside(inside.until, text)) {
    const suspect = inside.suspect
    leave(state)
    return suspect
  }
  if (inside.suspect === null && looksLikeStart(text)) inside.suspect = line
  return null
}

function leave(state: State): void {
  state.inside = null
  state.item = null
  state.afterBlank = true
}

const HEADING = /^#{1,6}(?=[ \t]|$)/
const PHASE_OR_BRANCH = /^#{2,3}(?=[ \t]|$)/
const NUMBER = /^\d{1,9}[.)](?=[ \t]|$)/

function looksLikeStart(text: string): boolean {
  return PHASE_OR_BRANCH.test(text) || NUMBER.test(text)
}

function cutsBefore(state: State, text: string): boolean {
  if (PHASE_OR_BRANCH.test(text)) return true
  return NUMBER.test(text) && (state.afterBlank || state.item !== null)
}

function readOutside(state: State, text: string): void {
  if (text.trim() === '') {
    state.afterBlank = true
    return
  }
  const indent = columnAfter(/^[ \t]*/.exec(text)?.[0] ?? '')
  const afterBlank = state.afterBlank
  state.afterBlank = false
  if (state.item !== null && indent >= state.item) return
  if (indent > 3) return
  const words = text.trimStart()
  const marker = /^(?:\d{1,9}[.)]|[-+*])(?=[ \t]|$)/.exec(words)?.[0]
  if (marker !== undefined) {
    state.item = itemContent(words, marker, indent)
    return
  }
  const fence = openingFence(words)
  const opensComment = words.startsWith('<!--')
  const isBlockStart = fence !== null || opensComment || HEADING.test(words) || /^[>|]/.test(words)
  if (afterBlank || isBlockStart) state.item = null
  if (HEADING.test(words)) state.afterBlank = true
  if (fence !== null) state.inside = { until: fence, suspect: null }
  else if (opensComment && !words.includes('-->', 4)) state.inside = { until: 'comment', suspect: null }
}

function itemContent(words: string, marker: string, indent: number): number {
  const rest = words.slice(marker.length)
  const blanks = /^[ \t]*/.exec(rest)?.[0] ?? ''
  const markerEnd = indent + marker.length
  const column = columnAfter(blanks, markerEnd)
  return blanks.length === rest.length || column - markerEnd > 4 ? markerEnd + 1 : column
}

function openingFence(words: string): Fence | null {
  const marks = /^(?:`{3,}(?=[^`]*$)|~{3,})/.exec(words)?.[0]
  return marks === undefined ? null : { letter: marks.charAt(0), length: marks.length }
}

function closes(fence: Fence, text: string): boolean {
  const marks = /^ {0,3}(`{3,}|~{3,})[ \t]*$/.exec(text)?.[1]
  return marks !== undefined && marks.charAt(0) === fence.letter && marks.length >= fence.length
}

/** A fence line with an info string cannot close anything: the one before it was left open. */
function opensInside(fence: Fence, text: string): boolean {
  const marks = /^[ \t]*(`{3,}|~{3,})[ \t]*[^\s`~]/.exec(text)?.[1]
  return marks !== undefined && marks.charAt(0) === fence.letter && marks.length >= fence.length
}

function toChunks(cuts: readonly number[], from: number, end: number): readonly Chunk[] {
  const starts = cuts[0] === from ? cuts : [from, ...cuts]
  return starts
    .map((start, index) => ({ start, end: starts[index + 1] ?? end }))
    .filter((chunk) => chunk.end > chunk.start)
}
