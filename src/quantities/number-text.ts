import type { Rational } from './quantity-types.ts'
import { absolute, exactPlaces, isZero, rational, toDecimalText } from './rational.ts'
import type { Unit } from './unit-table.ts'

/** Numbers and quantities as people read them. */

const MINUS = '\u2212'
/** Keeps the groups of one number on one line. */
const GROUP_BLANK = '\u00A0'

/** With a true minus sign, and whole digits in groups of three from 10 000 up. */
export function decimalText(value: Rational, places: number): string {
  return tidyNumber(toDecimalText(value, places))
}

/** The exact decimal where a short one exists, else a fraction. */
export function exactNumberText(value: Rational): string {
  const places = exactPlaces(value)
  return places !== null && places <= 12 ? decimalText(value, places) : fractionText(value)
}

/** `3/8`, `−1-1/8`, `2`. */
export function fractionText(value: Rational): string {
  const size = absolute(value)
  const sign = value.numerator < 0n ? MINUS : ''
  const whole = size.numerator / size.denominator
  const rest = rational(size.numerator % size.denominator, size.denominator)
  if (isZero(rest)) return `${sign}${grouped(whole.toString())}`
  const fraction = `${rest.numerator}/${rest.denominator}`
  return whole === 0n ? `${sign}${fraction}` : `${sign}${whole}-${fraction}`
}

/** Turns `-12345.60` into `−12 345.60`. */
function tidyNumber(text: string): string {
  const wholeDigits = text.includes('.') ? text.indexOf('.') : text.length
  if (wholeDigits < 5 && text[0] !== '-' && text[0] !== MINUS) return text
  const parts = /^([-−]?)(\d+)(.*)$/.exec(text)
  if (!parts) return text
  const [, sign = '', whole = '', rest = ''] = parts
  const isNothing = /^0+$/.test(whole) && !/[1-9]/.test(rest)
  return `${sign && !isNothing ? MINUS : ''}${grouped(whole)}${rest}`
}

/** The number with its unit: `20 °C`, `60°`, `75 %`, `1 turn`, `3 turns`. */
export function withUnit(number: string, unit: Unit): string {
  if (unit.symbol === '') return number
  if (unit.symbol === '°' || unit.symbol === '′') return `${number}${unit.symbol}`
  const name = unit.plural && !/^[−]?(1|\d+\/\d+)$/.test(number) ? unit.plural : unit.symbol
  return `${number} ${name}`
}

function grouped(digits: string): string {
  return digits.length < 5 ? digits : digits.replace(/\B(?=(\d{3})+$)/g, GROUP_BLANK)
}
