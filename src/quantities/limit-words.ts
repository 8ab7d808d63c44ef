import { VULGAR } from './parse-number.ts'
import { type Refusal, refused, type Stretch } from './refusal.ts'

/** The words and signs that make a limit of numbers, and the look-alikes that do not. */

/** What a number can begin with, behind its sign. */
const START = `[.\\d${VULGAR}]`
const pairStart = new RegExp(`^\\s*(?:(?:max|min|under|over|aim)\\s|[-+−]?${START})`)
const valueStart = new RegExp(`^[-+−]?${START}`)
const operators = new RegExp(
  `\\s+to\\s+|\\s+to$|\\s*(?:±|\\+\\s*/\\s*[-−–]|\\+-)\\s*|\\s*(?<!\\d[eE]|\\^)(?=\\+)|\\s+(?=[-−–]\\s?${START})`,
  'g',
)

export const boundWords = { max: 'upper', under: 'upper', min: 'lower', over: 'lower' } as const
export type BoundWord = keyof typeof boundWords
export const boundPattern = /(max|min|under|over)(?![\p{L}\d])\s*/uy

/** Other ways to say a bound, with the word to type instead. */
const otherBoundWords: readonly (readonly [pattern: RegExp, word: BoundWord])[] = [
  [/(?:maximum|max\.|at most|no more than|not more than|up to|not above|<=|≤)\s*/iy, 'max'],
  [/(?:minimum|min\.|at least|no less than|not less than|not below|>=|≥)\s*/iy, 'min'],
  [/(?:less than|below|<)\s*/iy, 'under'],
  [/(?:more than|greater than|above|>)\s*/iy, 'over'],
  [/max\s*/iy, 'max'],
  [/min\s*/iy, 'min'],
]

/** `0.011 in (0.28 mm)`: parentheses at the end that hold a number are the pair; those of `dB(A)` are not. */
export function splitPair(text: string): { readonly main: Stretch; readonly pair: Stretch | null } {
  const end = text.trimEnd().length
  const open = text.lastIndexOf('(')
  const isPair = text[end - 1] === ')' && open > 0 && pairStart.test(text.slice(open + 1, end))
  if (!isPair) return { main: { from: 0, to: text.length }, pair: null }
  return { main: { from: 0, to: open }, pair: { from: open + 1, to: end - 1 } }
}

export interface Operator extends Stretch {
  readonly sign: 'to' | '±' | 'uneven'
}

/** Finds `to`, `±` (also `+/-`) or the first signed deviation, whichever joins two numbers. */
export function splitAtOperator(
  text: string,
  stretch: Stretch,
): { readonly before: Stretch; readonly operator: Operator | null; readonly after: Stretch | null } {
  // The first letter may be a sign of the number itself, so the search begins behind it.
  operators.lastIndex = stretch.from + 1
  const within = text.slice(0, stretch.to)
  const match = operators.exec(within)
  if (!match) return { before: stretch, operator: null, after: null }
  const joint = match[0].trim()
  const sign = joint === 'to' ? 'to' : joint === '' ? 'uneven' : '±'
  const to = match.index + match[0].length
  return {
    before: { from: stretch.from, to: match.index },
    operator: { sign, from: match.index, to },
    after: { from: to, to: stretch.to },
  }
}

export function otherBoundWord(text: string, from: number): Refusal | null {
  for (const [pattern, word] of otherBoundWords) {
    pattern.lastIndex = from
    const match = pattern.exec(text)
    if (!match || !valueStart.test(text.slice(pattern.lastIndex))) continue
    const rest = text.slice(pattern.lastIndex).trim().slice(0, 60)
    return refused(
      `A limit does not begin with "${match[0].trim()}".`,
      `Type \`${word} ${rest}\`.`,
      from,
      from + match[0].trimEnd().length,
    )
  }
  return null
}

/** `10-15 mm`, `10–15 mm`, `10 - 15 mm`: a hyphen is no range, because it can be a minus or part of `1-1/8`. */
export function hyphenRange(text: string, stretch: Stretch): Refusal | null {
  const match = /^\s*([.\d/]+)\s*(?:[-–—‐‑]|\.\.\.?|…)\s*([.\d/]*\d)\s*(?![-+/±−–])(.*)$/s.exec(
    text.slice(stretch.from, stretch.to),
  )
  if (!match) return null
  const [, low = '', high = '', rest = ''] = match
  // `1-1/8` is one number; `10 -0.2/+0.1 mm` has a tolerance.
  if (rest.includes('+') || (high.includes('/') && /^\d+$/.test(low))) return null
  return refused(
    `"${match[0].trim()}" is not clear: a hyphen can be a minus.`,
    `Type \`${low} to ${high} ${rest.trim()}\`.`.replace(' `.', '`.'),
    stretch.from,
    stretch.to,
  )
}
