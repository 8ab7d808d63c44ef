import { scanNumber } from './parse-number.ts'
import type { Parsed, Rational } from './quantity-types.ts'
import { refused } from './refusal.ts'
import type { Unit } from './unit-table.ts'
import { unitBySpelling } from './units.ts'

export type Token =
  | {
      readonly is: 'number'
      readonly value: Rational
      readonly unit: Unit | null
      readonly from: number
      readonly to: number
    }
  | {
      readonly is: 'name' | 'quoted' | 'sign' | 'end'
      readonly text: string
      readonly from: number
      readonly to: number
    }

const blankPattern = /[\s\u00A0\u2009\u202F]+/y
const namePattern = /\p{L}[\p{L}\p{N}_-]*(?:\.[\p{L}\p{N}_°-]+)*/uy
const quotedPattern = /"([^"]*)"/y
const signPattern = /<=|>=|[≤≥=<>+\-−*×/(),]/y
const plainDecimalPattern = /\d+(?:\.\d+)?|\.\d+/y
const numberStart = /[\d½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒]|\.\d/y

const sameSign: Readonly<Record<string, string>> = { '≤': '<=', '≥': '>=', '−': '-', '×': '*' }

/** Signs of programming languages, with what to type instead. */
const foreignSigns: readonly (readonly [sign: string, advice: string])[] = [
  ['==', 'Type one `=`.'],
  ['!=', 'Type `not a = b`.'],
  ['<>', 'Type `not a = b`.'],
  ['&&', 'Type `and`.'],
  ['||', 'Type `or`.'],
  ['!', 'Type `not`.'],
  ['%', 'A `%` stands behind a number: `5 %`.'],
  ['^', 'Multiply the value with itself.'],
]

/** Cuts an expression into numbers with their units, names, quoted outcomes and signs. */
export function tokensOf(text: string): Parsed<readonly Token[]> {
  const tokens: Token[] = []
  let at = 0
  while (at < text.length) {
    const blank = matchAt(blankPattern, text, at)
    if (blank) {
      at += blank.length
      continue
    }
    const token = tokenAt(text, at)
    if (!token.ok) return token
    tokens.push(token.value)
    at = token.value.to
  }
  tokens.push({ is: 'end', text: '', from: text.length, to: text.length })
  return { ok: true, value: tokens }
}

function tokenAt(text: string, from: number): Parsed<Token> {
  if (matchAt(numberStart, text, from)) return numberAt(text, from)
  for (const [sign, advice] of foreignSigns)
    if (text.startsWith(sign, from))
      return refused(`"${sign}" is not part of the language.`, advice, from, from + sign.length)
  const name = matchAt(namePattern, text, from)
  if (name) return nameToken(text, name, from)
  const quoted = matchAt(quotedPattern, text, from)
  if (quoted)
    return { ok: true, value: { is: 'quoted', text: quoted.slice(1, -1).trim(), from, to: from + quoted.length } }
  const sign = matchAt(signPattern, text, from)
  if (sign) return { ok: true, value: { is: 'sign', text: sameSign[sign] ?? sign, from, to: from + sign.length } }
  const letter = String.fromCodePoint(text.codePointAt(from) ?? 32)
  return refused(
    `"${letter}" has no meaning here.`,
    'Type names, numbers with units, and `+ - * / = < > <= >= ( )`.',
    from,
    from + letter.length,
  )
}

function nameToken(text: string, name: string, from: number): Parsed<Token> {
  const to = from + name.length
  if (!name.endsWith('-')) return { ok: true, value: { is: 'name', text: name, from, to } }
  const rest = /^\s*([\p{L}\p{N}._-]*)/u.exec(text.slice(to))?.[1] ?? ''
  return refused(
    `"${name}" ends in a hyphen.`,
    `Put blanks on both sides of a minus: \`${name.replace(/-+$/, '')} - ${rest || '…'}\`.`,
    from,
    to,
  )
}

/** `3/8 in` and `1 200 kg` are one number because a unit follows; `3/8` without one is a division. */
function numberAt(text: string, from: number): Parsed<Token> {
  const number = scanNumber(text, from)
  if (!number.ok) return number
  const unit = unitAt(text, number.value.to)
  if (unit) return { ok: true, value: { is: 'number', value: number.value.value, unit: unit.unit, from, to: unit.to } }
  const typed = text.slice(from, number.value.to)
  const plain = /[\s/⁄-]/.test(typed) && !/[eE×x^]/.test(typed) ? matchAt(plainDecimalPattern, text, from) : null
  if (plain === null || plain === typed)
    return { ok: true, value: { is: 'number', value: number.value.value, unit: null, from, to: number.value.to } }
  const alone = scanNumber(plain, 0)
  if (!alone.ok) return alone
  return { ok: true, value: { is: 'number', value: alone.value.value, unit: null, from, to: from + plain.length } }
}

/** The longest spelling of a unit behind a number: up to three words, cut short at signs that could belong to the expression. */
function unitAt(text: string, from: number): { readonly unit: Unit; readonly to: number } | null {
  const run =
    /^[ \t\u00A0\u2009\u202F]?((?:dB\(A\)|[^\s()<>=,+])+(?:[ \u00A0](?!(?:and|or|not)\b)(?!in limit\b)[^\s()<>=,+]+){0,2})/.exec(
      text.slice(from, from + 80),
    )
  const all = run?.[1]
  if (!run || !all || /^(?:and|or|not)\b|^in limit\b/.test(all)) return null
  const start = from + run[0].length - all.length
  for (let length = all.length; length > 0; length--) {
    const isWordEnd = length === all.length || /[\s*/×−-]/.test(all[length] ?? '')
    if (!isWordEnd || /[\s*/×−-]$/.test(all.slice(0, length))) continue
    const unit = unitBySpelling(all.slice(0, length))
    if (unit && text[start + length] !== '(') return { unit, to: start + length }
  }
  return null
}

function matchAt(pattern: RegExp, text: string, at: number): string | null {
  pattern.lastIndex = at
  return pattern.exec(text)?.[0] ?? null
}
