import { nearestName } from '../text/nearest-name.ts'
import { type Expression, type FunctionName, functionNames, type NameNode } from './expression.ts'
import { type Token, tokensOf } from './expression-tokens.ts'
import type { Parsed } from './quantity-types.ts'
import { negate } from './rational.ts'
import { type Refusal, refusedAt } from './refusal.ts'

const MOST_LETTERS = 1000
const MOST_DEPTH = 40

/** How tightly each joint binds; `not` stands between `and` and the comparisons. */
const strengths: Readonly<Record<string, number>> = {
  or: 1,
  and: 2,
  '=': 4,
  '<': 4,
  '>': 4,
  '<=': 4,
  '>=': 4,
  '+': 5,
  '-': 5,
  '*': 6,
  '/': 6,
}
const NOT_STRENGTH = 3
const COMPARISON_STRENGTH = 4
const NEGATIVE_STRENGTH = 7

const reservedWords = new Set(['and', 'or', 'not', 'in', 'limit', 'all'])

/** The tokens and how far the reading of them has come. */
interface Reading {
  readonly tokens: readonly Token[]
  next: number
  depth: number
}

/**
 * Reads an expression. Nothing is looked up here: names may be anything, and kinds are checked by `expression-kinds.ts`.
 * At most 1000 letters and 40 levels of parentheses.
 */
export function parseExpression(text: string): Parsed<Expression> {
  if (text.length > MOST_LETTERS)
    return refusedAt(
      `The expression is longer than ${MOST_LETTERS} letters.`,
      'Work out a part of it in a `derive` of its own.',
      { from: 0, to: text.length },
    )
  const tokens = tokensOf(text)
  if (!tokens.ok) return tokens
  const reading: Reading = { tokens: tokens.value, next: 0, depth: 0 }
  const expression = readJoined(reading, 0)
  if (!expression.ok) return expression
  const rest = tokenAt(reading)
  if (rest.is !== 'end') return unexpected(rest)
  return expression
}

function readJoined(reading: Reading, outside: number): Parsed<Expression> {
  const first = readOperand(reading)
  if (!first.ok) return first
  let left = first.value
  for (;;) {
    const joint = tokenAt(reading)
    if (outside < COMPARISON_STRENGTH && isInLimit(reading)) {
      const within = readInLimit(reading, left)
      if (!within.ok) return within
      left = within.value
      continue
    }
    const word = joint.is === 'sign' || joint.is === 'name' ? joint.text : ''
    const strength = strengths[word]
    if (strength === undefined || strength <= outside) {
      if (strength === COMPARISON_STRENGTH && left.is === 'comparison')
        return refusedAt('Two comparisons stand side by side.', 'Join them: `a < b and b < c`.', joint)
      return { ok: true, value: left }
    }
    reading.next++
    const right = readJoined(reading, strength)
    if (!right.ok) return right
    if (strength === COMPARISON_STRENGTH && (left.is === 'comparison' || left.is === 'in-limit'))
      return refusedAt('Two comparisons stand side by side.', 'Join them: `a < b and b < c`.', joint)
    left = join(word, left, right.value)
  }
}

function join(word: string, left: Expression, right: Expression): Expression {
  const place = { left, right, from: left.from, to: right.to }
  switch (word) {
    case 'and':
    case 'or':
      return { is: 'logic', operator: word, ...place }
    case '+':
    case '-':
    case '*':
    case '/':
      return { is: 'arithmetic', operator: word, ...place }
    default:
      return { is: 'comparison', operator: word as '=' | '<' | '>' | '<=' | '>=', ...place }
  }
}

function readOperand(reading: Reading): Parsed<Expression> {
  if (reading.depth >= MOST_DEPTH)
    return refusedAt(
      `More than ${MOST_DEPTH} levels of parentheses.`,
      'Work out a part of it in a `derive` of its own.',
      tokenAt(reading),
    )
  reading.depth++
  const operand = readOperandInside(reading)
  reading.depth--
  return operand
}

function readOperandInside(reading: Reading): Parsed<Expression> {
  const token = tokenAt(reading)
  if (token.is === 'end') return refusedAt('The expression stops too early.', 'Type a name or a number here.', token)
  reading.next++
  if (token.is === 'number') return { ok: true, value: literal(token) }
  if (token.is === 'quoted')
    return { ok: true, value: { is: 'quoted', text: token.text, from: token.from, to: token.to } }
  if (token.is === 'sign') return readSigned(reading, token)
  if (token.text === 'not') {
    const of = readJoined(reading, NOT_STRENGTH)
    return of.ok ? { ok: true, value: { is: 'not', of: of.value, from: token.from, to: of.value.to } } : of
  }
  return readNamed(reading, token)
}

function readSigned(reading: Reading, sign: Token & { is: 'name' | 'quoted' | 'sign' | 'end' }): Parsed<Expression> {
  if (sign.text === '(') {
    const inside = readJoined(reading, 0)
    if (!inside.ok) return inside
    const close = expectSign(reading, ')')
    return close ?? inside
  }
  if (sign.text !== '-') return unexpected(sign)
  const number = tokenAt(reading)
  if (number.is === 'number') {
    reading.next++
    const positive = literal(number)
    return { ok: true, value: { ...positive, value: negate(positive.value), from: sign.from } }
  }
  const of = readJoined(reading, NEGATIVE_STRENGTH)
  return of.ok ? { ok: true, value: { is: 'negative', of: of.value, from: sign.from, to: of.value.to } } : of
}

function readNamed(reading: Reading, name: Token & { is: 'name' | 'quoted' | 'sign' | 'end' }): Parsed<Expression> {
  if (isSign(tokenAt(reading), '(')) return readCall(reading, name)
  if (name.text === 'all') {
    const which = tokenAt(reading)
    if (which.is !== 'name' || reservedWords.has(which.text))
      return refusedAt('"all" needs the name of a reading behind it.', 'Type `all l1`, or `all(l1 < 3 mm)`.', name)
    reading.next++
    return { ok: true, value: { is: 'name', name: which.text, which: 'all', from: name.from, to: which.to } }
  }
  if (reservedWords.has(name.text)) return unexpected(name)
  return { ok: true, value: joinWords(reading, name) }
}

/** `fine paste`: outcomes of several words are one name. */
function joinWords(reading: Reading, first: Token & { is: 'name' | 'quoted' | 'sign' | 'end' }): NameNode {
  let { text, to } = first
  for (;;) {
    const word = tokenAt(reading)
    const after = reading.tokens[reading.next + 1]
    if (word.is !== 'name' || reservedWords.has(word.text) || (after && isSign(after, '('))) break
    text += ` ${word.text}`
    to = word.to
    reading.next++
  }
  return { is: 'name', name: text, which: 'latest', from: first.from, to }
}

function readCall(reading: Reading, name: Token & { is: 'name' | 'quoted' | 'sign' | 'end' }): Parsed<Expression> {
  reading.next++
  const of: Expression[] = []
  if (!isSign(tokenAt(reading), ')'))
    for (;;) {
      const value = readJoined(reading, 0)
      if (!value.ok) return value
      of.push(value.value)
      if (!isSign(tokenAt(reading), ',')) break
      reading.next++
    }
  const to = tokenAt(reading).to
  const notClosed = expectSign(reading, ')')
  if (notClosed) return notClosed
  return callOf(name, of, to)
}

function callOf(
  name: Token & { is: 'name' | 'quoted' | 'sign' | 'end' },
  of: readonly Expression[],
  to: number,
): Parsed<Expression> {
  const place = { from: name.from, to }
  const [first, second] = of
  if (name.text === 'previous' || name.text === 'first') {
    if (first?.is !== 'name' || first.which !== 'latest' || of.length !== 1)
      return refusedAt(`"${name.text}" takes the name of one reading.`, `Type \`${name.text}(l1)\`.`, place)
    return { ok: true, value: { ...first, which: name.text, ...place } }
  }
  if (name.text === 'lookup') {
    if (first?.is !== 'name' || second?.is !== 'name' || of.length < 3)
      return refusedAt(
        '"lookup" takes a table, a column, and what to look up.',
        'Type `lookup(washers, washer, end-play)`.',
        place,
      )
    return { ok: true, value: { is: 'lookup', table: first, column: second, keys: of.slice(2), ...place } }
  }
  const known = functionNames.find((candidate): candidate is FunctionName => candidate === name.text)
  if (known) return { ok: true, value: { is: 'call', name: known, of, ...place } }
  const near = nearestName(name.text, [...functionNames, 'previous', 'first', 'lookup'])
  const advice = near
    ? `Did you mean \`${near}\`?`
    : `There are ${functionNames.join(', ')}, previous, first and lookup.`
  return refusedAt(`"${name.text}" is not something that can be worked out.`, advice, name)
}

function isInLimit(reading: Reading): boolean {
  const words = reading.tokens
    .slice(reading.next, reading.next + 3)
    .map((token) => (token.is === 'name' ? token.text : ''))
  return words[0] === 'in' || (words[0] === 'not' && words[1] === 'in')
}

function readInLimit(reading: Reading, of: Expression): Parsed<Expression> {
  const start = tokenAt(reading)
  const isNot = start.is === 'name' && start.text === 'not'
  reading.next += isNot ? 2 : 1
  const limit = tokenAt(reading)
  if (limit.is !== 'name' || limit.text !== 'limit')
    return refusedAt('"in" goes with "limit" only.', 'Type `end-play in limit`.', { from: start.from, to: limit.to })
  reading.next++
  if (of.is !== 'name')
    return refusedAt('Only a reading has a limit.', 'Type the name of a reading before `in limit`.', of)
  const within: Expression = { is: 'in-limit', of, from: of.from, to: limit.to }
  return { ok: true, value: isNot ? { is: 'not', of: within, from: of.from, to: limit.to } : within }
}

function literal(token: Token & { is: 'number' }): Expression & { is: 'quantity' } {
  return {
    is: 'quantity',
    value: token.value,
    unit: token.unit?.symbol ?? '',
    kind: token.unit?.kind ?? 'number',
    from: token.from,
    to: token.to,
  }
}

function tokenAt(reading: Reading): Token {
  const token = reading.tokens[reading.next] ?? reading.tokens.at(-1)
  return token ?? { is: 'end', text: '', from: 0, to: 0 }
}

function isSign(token: Token, text: string): boolean {
  return token.is === 'sign' && token.text === text
}

function expectSign(reading: Reading, text: string): Refusal | null {
  const token = tokenAt(reading)
  if (!isSign(token, text))
    return token.is === 'end'
      ? refusedAt(`A "${text}" is missing.`, `Type \`${text}\` here.`, token)
      : unexpected(token)
  reading.next++
  return null
}

function unexpected(token: Token): Refusal {
  if (token.is === 'end') return refusedAt('The expression stops too early.', 'Type a name or a number here.', token)
  if (token.is === 'number')
    return refusedAt(
      'A number stands where a sign is wanted.',
      'Type `+`, `-`, `*`, `/` or a comparison before it.',
      token,
    )
  return refusedAt(
    `"${token.text}" cannot stand here.`,
    'Type a name, a number with its unit, or `+ - * / = < > <= >= and or` between two of them.',
    token,
  )
}
