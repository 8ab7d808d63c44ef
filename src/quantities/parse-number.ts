import { decimalText, fractionText } from './number-text.ts'
import type { Parsed, Rational } from './quantity-types.ts'
import { add, fromDecimalText, multiply, negate, powerOfTen, rational } from './rational.ts'
import { refused } from './refusal.ts'

/** A number as typed: its value, and how it was written. */
export interface TypedNumber {
  readonly value: Rational
  /** Tidied for print: `−0.10`, `1-1/8`. */
  readonly written: string
  /** Decimals typed; 0 for whole numbers and fractions. */
  readonly places: number
  readonly isFraction: boolean
  /** Letters of the text. */
  readonly from: number
  readonly to: number
}

/** Numbers longer than this are refused, so that no text can make the arithmetic slow. */
const MOST_DIGITS = 30
const LARGEST_EXPONENT = 30

/** Every fraction that is one letter. */
export const VULGAR = '½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒'
const BLANK = '[ \\u00A0\\u2009\\u202F\\t]'

/**
 * What nearly every number looks like, `12.5` with its unit or the end behind it: no pattern below can make anything else of it.
 * What might be a fraction, a group, an exponent or a comma goes on to those.
 */
const plainPattern = new RegExp(
  `(0|[1-9]\\d{0,3})(?:\\.(\\d{1,10}))?(?=$|[A-DF-WYZa-df-wyz°%"µΩ)]| (?![\\s\\d/⁄×x*${VULGAR}]))`,
  'y',
)
const signPattern = new RegExp(`([+\\-−–]?)${BLANK}*`, 'y')
const groupedPattern = new RegExp(`(\\d{1,3}(?:${BLANK}\\d{3})+)(?!\\d|/|⁄|${BLANK}?[⁄/])`, 'y')
const wholePattern = /\d+/y
const decimalsPattern = /\.(\d+)/y
const commaPattern = /(?:,\d+)+(?:\.\d+)?/y
const fractionPattern = /(\d+)[/⁄](\d+)/y
const mixedPattern = new RegExp(`(\\d+)(?:${BLANK}|[-‐‑])(\\d+)[/⁄](\\d+)`, 'y')
const vulgarPattern = new RegExp(`(?:(\\d+)(?:${BLANK}|[-‐‑])?)?([${VULGAR}])`, 'y')
const exponentPattern = new RegExp(
  `(?:[eE]([-+−]?\\d+)|${BLANK}?[×x*]${BLANK}?10(?:\\^([-+−]?\\d+)|([⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+)))(?![\\d.])`,
  'y',
)

/**
 * Reads a whole text as one number: `12`, `−0.5`, `.005`, `1 200`, `3/8`, `1-1/8`, `1 1/8`, `⅜`, `1.2e3`, `1.2 × 10^3`.
 * A decimal comma is refused with both readings named.
 */
export function parseNumber(text: string): Parsed<TypedNumber> {
  const start = text.length - text.trimStart().length
  const end = text.trimEnd().length
  const number = scanNumber(text, start)
  if (!number.ok) return number
  if (number.value.to < end)
    return refused(
      `"${text.slice(number.value.to, end).trim().slice(0, 40)}" is not part of a number.`,
      'Type the number alone.',
      number.value.to,
      end,
    )
  return number
}

/** Reads the number that begins at `start`, sign included, and leaves what follows alone. */
export function scanNumber(text: string, start: number): Parsed<TypedNumber> {
  const plain = matchAt(plainPattern, text, start)
  if (plain) {
    const [written, whole = '', decimals = ''] = plain
    const places = decimals.length
    const value = rational(BigInt(whole + decimals), powerOfTen(places).numerator)
    return { ok: true, value: { value, written, places, isFraction: false, from: start, to: start + written.length } }
  }
  const sign = matchAt(signPattern, text, start)
  const isNegative = /[-−–]/.test(sign?.[1] ?? '')
  const from = start + (sign?.[0].length ?? 0)
  const size = scanSize(text, from)
  if (!size.ok) return size
  const { value, written, places, isFraction, to } = size.value
  const signed = isNegative ? { value: negate(value), written: `−${written}` } : { value, written }
  return { ok: true, value: { ...signed, places, isFraction, from: start, to } }
}

function scanSize(text: string, from: number): Parsed<TypedNumber> {
  const vulgar = matchAt(vulgarPattern, text, from)
  if (vulgar) {
    // Unicode takes ⅜ apart into 3, a fraction slash, and 8.
    const [top = '', bottom = ''] = (vulgar[2] ?? '').normalize('NFKC').split('⁄')
    return fractionOf(vulgar[0], vulgar[1] ?? '0', top, bottom, from)
  }
  const mixed = matchAt(mixedPattern, text, from)
  if (mixed) return fractionOf(mixed[0], mixed[1] ?? '', mixed[2] ?? '', mixed[3] ?? '', from)
  const fraction = matchAt(fractionPattern, text, from)
  if (fraction) return fractionOf(fraction[0], '0', fraction[1] ?? '', fraction[2] ?? '', from)
  return scanDecimal(text, from)
}

function scanDecimal(text: string, from: number): Parsed<TypedNumber> {
  const whole = matchAt(groupedPattern, text, from)?.[0] ?? matchAt(wholePattern, text, from)?.[0] ?? ''
  let to = from + whole.length
  const comma = whole ? matchAt(commaPattern, text, to) : null
  if (comma) return commaFault(text.slice(from, to + comma[0].length), from)
  const decimals = matchAt(decimalsPattern, text, to)?.[1] ?? ''
  if (decimals) to += decimals.length + 1
  const late = decimals ? matchAt(commaPattern, text, to) : null
  if (late) return commaFault(text.slice(from, to + late[0].length), from)
  const digits = whole.replace(/\D/g, '') || '0'
  if (whole === '' && decimals === '') return noNumber(text, from)
  if (digits.length + decimals.length > MOST_DIGITS)
    return refused('The number is too long.', `Type at most ${MOST_DIGITS} digits.`, from, to)
  const value = fromDecimalText(decimals ? `${digits}.${decimals}` : digits) ?? rational(0)
  const exponent = matchAt(exponentPattern, text, to)
  const places = decimals.length
  if (!exponent)
    return { ok: true, value: { value, written: decimalText(value, places), places, isFraction: false, from, to } }
  return withExponent(value, places, exponent, from, to + exponent[0].length)
}

function withExponent(
  value: Rational,
  places: number,
  match: RegExpExecArray,
  from: number,
  to: number,
): Parsed<TypedNumber> {
  const power = (match[1] ?? match[2] ?? lowered(match[3] ?? '')).replace('−', '-').replace('+', '')
  if (power.length > 4 || Math.abs(Number(power)) > LARGEST_EXPONENT)
    return refused(
      `10 to the power ${power.slice(0, 12)} is beyond anything a workshop measures.`,
      'Type the number with a larger or smaller unit.',
      from,
      to,
    )
  const exponent = Number(power)
  const scaled = multiply(value, powerOfTen(exponent))
  const kept = Math.max(0, places - exponent)
  return {
    ok: true,
    value: { value: scaled, written: decimalText(scaled, kept), places: kept, isFraction: false, from, to },
  }
}

function fractionOf(typed: string, whole: string, top: string, bottom: string, from: number): Parsed<TypedNumber> {
  const to = from + typed.length
  if (whole.length + top.length + bottom.length > MOST_DIGITS)
    return refused('The fraction is too long.', `Type at most ${MOST_DIGITS} digits.`, from, to)
  if (BigInt(bottom) === 0n)
    return refused(
      `"${typed}" divides by zero.`,
      'Type the fraction with a number other than 0 below the line, such as `3/8`.',
      from,
      to,
    )
  const part = rational(BigInt(top), BigInt(bottom))
  if (whole !== '0' && BigInt(top) >= BigInt(bottom))
    return refused(
      `"${typed}" has a fraction that is not below 1.`,
      `Type \`${fractionText(part)}\` or \`${fractionText(add(part, rational(BigInt(whole))))}\`, whichever is meant.`,
      from,
      to,
    )
  const value = add(rational(BigInt(whole)), part)
  // Printed as typed, not cut down: a 2/64 in mark is read as such. Blank or hyphen between whole and part become one hyphen.
  const written = whole === '0' ? `${top}/${bottom}` : `${whole}-${top}/${bottom}`
  return { ok: true, value: { value, written, places: 0, isFraction: true, from, to } }
}

function commaFault(typed: string, from: number): Parsed<TypedNumber> {
  const to = from + typed.length
  const message = (a: string, b: string) => `"${typed}" can be read as ${a} or as ${b}.`
  const commas = typed.split(',').length - 1
  if (typed.length > MOST_DIGITS || commas > 1 || typed.includes('.')) {
    const joined = typed.replaceAll(',', '')
    return refused(
      `"${typed.slice(0, 40)}" has commas in the number.`,
      `Type \`${joined.slice(0, 40)}\`: no commas, a point for decimals.`,
      from,
      to,
    )
  }
  const point = typed.replace(',', '.')
  const joined = typed.replace(',', '').replace(/^0+(?=\d)/, '')
  return refused(
    message(point, joined),
    `Type \`${point}\` or \`${joined}\`: a point for decimals, a blank between thousands.`,
    from,
    to,
  )
}

function noNumber(text: string, from: number): Parsed<TypedNumber> {
  const rest = text.slice(from).trim()
  if (rest === '')
    return refused('A number is missing.', 'Type a number and its unit, such as `12 mm`.', from, text.length)
  const word = rest.split(/\s/)[0]?.slice(0, 40) ?? ''
  return refused(
    `"${word}" is not a number.`,
    'Type a number and its unit, such as `12 mm`.',
    from,
    from + Math.max(1, word.length),
  )
}

function lowered(raised: string): string {
  return raised
    .replace('⁻', '-')
    .replace('⁺', '')
    .replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹]/g, (digit) => String('⁰¹²³⁴⁵⁶⁷⁸⁹'.indexOf(digit)))
}

function matchAt(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at
  return pattern.exec(text)
}
