import type { Place } from '../text/place.ts'
import { partOf, type ScalarNode } from './block-node.ts'

/** A stretch of a scalar's text, and where it begins in the text. */
export interface Piece {
  readonly text: string
  readonly from: number
}

/** The scalar that stands for a stretch of another one. */
export function scalarOf(scalar: ScalarNode, piece: Piece): ScalarNode {
  return {
    kind: 'scalar',
    text: piece.text,
    at: placeOf(scalar, piece),
    contentStart: scalar.contentStart === null ? null : scalar.contentStart + piece.from,
  }
}

/** A scalar that the words at a place stand for without being spelt so. */
export function impliedScalar(text: string, at: Place): ScalarNode {
  return { kind: 'scalar', text, at, contentStart: null }
}

export function placeOf(scalar: ScalarNode, piece: Piece): Place {
  return partOf(scalar, piece.from, piece.from + piece.text.length)
}

/** The text without the blanks at either end. */
export function trimmed(piece: Piece): Piece {
  const start = piece.text.length - piece.text.trimStart().length
  return { text: piece.text.trim(), from: piece.from + start }
}

/** What stands between commas that a blank follows; a comma inside brackets does not part. */
export function atCommas(whole: Piece): Piece[] {
  return cut(whole, (text, index) => (text[index] === ',' && /^(?:\s|$)/.test(text.slice(index + 1)) ? 1 : 0))
}

/** What stands between blanks; blanks inside brackets do not part. Commas before a blank part as well. */
export function atBlanks(whole: Piece): Piece[] {
  return atCommas(whole)
    .flatMap((piece) => cut(piece, (text, index) => (/\s/.test(text[index] ?? '') ? 1 : 0)))
    .filter((piece) => piece.text !== '')
}

/** What stands before and after the first `between`. */
export function aroundFirst(whole: Piece, between: string): readonly [Piece, Piece] | null {
  const index = whole.text.indexOf(between)
  if (index < 0) return null
  const after = index + between.length
  return [
    trimmed({ text: whole.text.slice(0, index), from: whole.from }),
    trimmed({ text: whole.text.slice(after), from: whole.from + after }),
  ]
}

/** Cuts outside brackets where `width` says how many letters the cut takes away. */
function cut(whole: Piece, width: (text: string, index: number) => number): Piece[] {
  const pieces: Piece[] = []
  let depth = 0
  let start = 0
  const { text } = whole
  for (let index = 0; index < text.length; index++) {
    const letter = text[index] ?? ''
    if ('([{'.includes(letter)) depth++
    if (')]}'.includes(letter)) depth = Math.max(0, depth - 1)
    const taken = depth === 0 ? width(text, index) : 0
    if (taken === 0) continue
    pieces.push(trimmed({ text: text.slice(start, index), from: whole.from + start }))
    start = index + taken
  }
  pieces.push(trimmed({ text: text.slice(start), from: whole.from + start }))
  return pieces
}
