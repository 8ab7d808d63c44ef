import { unitBySpelling } from '../quantities/units.ts'
import type { Look } from './fit-block-schema.ts'
import type { Piece } from './short-form-pieces.ts'

/** The words that a limit may begin with. */
export const limitWords: readonly string[] = ['max', 'min', 'under', 'over', 'aim']

/** A value that is still missing, `??`, or that a fragment or a table row will give, `(=name)`. */
export function isLeftOpen(text: string): boolean {
  return text === '??' || text.includes('(=')
}

// Ways to say a bound that the language does not have; the reader of limits knows what to type instead.
const otherBound =
  /^(?:[<>≤≥]|(?:max(?:imum|\.)?|min(?:imum|\.)?|at (?:most|least)|(?:no|not) (?:more|less) than|(?:less|more|greater) than|not (?:above|below)|up to|below|above|between)(?=\s|\d)).*\d/i

/** `at most 3 mm` is a limit, though `at` is a word of many short forms. */
export function isOtherBound(text: string): boolean {
  return otherBound.test(text)
}

const figure = /^[-+−±]?\s*[\d½¼¾⅓⅔⅛⅜⅝⅞.]/u

export function hasLook(look: Look, text: string): boolean {
  switch (look) {
    case 'limit':
      return isLimit(text)
    case 'unit':
      // One word that does not begin with a figure: `mm`, `N·m`, `%`, `m³/h`.
      return /^[^\s\d][^\s]*$/u.test(text)
    case 'fastener':
      return fastenerParts({ text, from: 0 }) !== null
    case 'span':
      return spanParts({ text, from: 0 }) !== null
  }
}

function isLimit(text: string): boolean {
  if (isLeftOpen(text) || figure.test(text) || text.includes('±') || isOtherBound(text)) return true
  const [firstWord = ''] = text.split(/\s/)
  return limitWords.includes(firstWord) && firstWord !== text
}

/** The named parts of a text that has one of the looks that name their own properties. */
export type NamedPieces = ReadonlyArray<readonly [property: string, piece: Piece]>

// A thread as it is stamped: M20, M20×1.5, 1/2-13, 3/4-10, 1-8, 1-1/8-7, #10-24.
const thread = String.raw`M\d+(?:[.,]\d+)?(?:\s?[×x]\s?[\d.,]+)?|#?\d+(?:[-/]\d+)*-\d+(?:\.\d+)?`
const fastener = new RegExp(
  String.raw`^(?:(?<count>[^\s×]+)\s*(?:×|[x*](?=\s))\s*)?(?<size>${thread})(?:\s+(?<grade>\S.*))?$`,
  'du',
)

// One of the library by name, which has a count before it: a bare name could be any word.
const namedFastener = /^(?<count>\d+)\s*(?:×|[x*](?=\s))\s*(?<of>\p{Ll}[\p{L}\p{N}_-]*)$/du

/** `4 × M20 8.8` has a count, a size and a grade; count and grade may be left out. `4 × wheel-stud` names one of the library. */
export function fastenerParts(piece: Piece): NamedPieces | null {
  const parts = groups(fastener, piece) ?? groups(namedFastener, piece)
  const grade = parts?.find(([property]) => property === 'grade')?.[1].text
  // `40-45 lb-ft` is a torque written with a hyphen, and no thread 40-45.
  return grade !== undefined && unitBySpelling(grade, 'torque')?.kind === 'torque' ? null : parts
}

const span = /^(?<from>\S+)\s+to\s+(?<to>\S+)$/du

/** `1:20 to 2:05`. */
export function spanParts(piece: Piece): NamedPieces | null {
  return groups(span, piece)
}

// `x` and `*` count only between blanks or after a figure, so that a name may contain them.
const counted = /^(?<count>\S(?:.*?\S)?)\s*×\s*(?<thing>\S.*)$|^(?<plain>\d+|\S+\s)\s*[x*]\s+(?<named>\S.*)$/du

/** `24 × wheel-nut` has a count and a thing; a bare name is only the thing. */
export function countedParts(piece: Piece): NamedPieces {
  const found = groups(counted, piece)
  if (found === null) return [['thing', piece]]
  return found.map(([name, part]) => [name === 'plain' ? 'count' : name === 'named' ? 'thing' : name, part])
}

function groups(pattern: RegExp, piece: Piece): NamedPieces | null {
  const match = pattern.exec(piece.text)
  if (match === null) return null
  const parts: (readonly [string, Piece])[] = []
  for (const [name, range] of Object.entries(match.indices?.groups ?? {})) {
    if (range === undefined) continue
    const text = piece.text.slice(range[0], range[1])
    parts.push([name, { text: text.trim(), from: piece.from + range[0] }])
  }
  return parts
}
