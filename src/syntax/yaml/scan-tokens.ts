import { Lexer } from 'yaml'

export interface YamlToken {
  readonly text: string
  readonly start: number
  /** Plain, block and quoted texts; everything else is punctuation, blanks or comments. */
  readonly isScalar: boolean
}

/** The words and signs of a YAML text, with their offsets. */
export function scanTokens(text: string): readonly YamlToken[] {
  const tokens: YamlToken[] = []
  let start = 0
  let scalarNext = false
  for (const word of new Lexer().lex(text)) {
    if (word === SCALAR) {
      scalarNext = true
      continue
    }
    if (word === DOCUMENT || word === FLOW_ERROR_END) continue
    const isQuoted = word.startsWith('"') || word.startsWith("'")
    tokens.push({ text: word, start, isScalar: scalarNext || isQuoted })
    scalarNext = false
    start += word.length
  }
  return tokens
}

// Marks of the lexer that stand for no letter of the text.
const DOCUMENT = '\u0002'
const FLOW_ERROR_END = '\u0018'
const SCALAR = '\u001f'

/** How deep braces and brackets, list dashes and indentation go, at most. */
export function deepestNesting(text: string): number {
  let depth = 0
  let deepest = 0
  for (const line of text.split('\n')) {
    const prefix = /^[ \t]*(?:[-?] +)*/.exec(line)?.[0] ?? ''
    deepest = Math.max(deepest, Math.floor(prefix.length / 2))
    for (const letter of line.slice(prefix.length)) {
      if (letter === '{' || letter === '[') deepest = Math.max(deepest, ++depth)
      else if (letter === '}' || letter === ']') depth = Math.max(0, depth - 1)
    }
  }
  return deepest
}
