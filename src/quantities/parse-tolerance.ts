import type { Operator } from './limit-words.ts'
import { decimalText, fractionText } from './number-text.ts'
import type { TypedNumber } from './parse-number.ts'
import { type NumberWithUnit, readNumberWithUnit } from './parse-quantity.ts'
import type { Bound, Limit, Parsed, QuantityKind, Rational } from './quantity-types.ts'
import { add, compare, divide, exactPlaces, multiply, negate, rational } from './rational.ts'
import { refused, type Stretch } from './refusal.ts'
import type { Unit } from './unit-table.ts'

/** The ends that a tolerance makes of a nominal value. */
export interface Tolerance {
  readonly form: Limit['form']
  readonly lower: Bound
  readonly upper: Bound
  /** The unit typed behind the tolerance, where it serves the nominal too: `450 ± 25 psi`. */
  readonly sharedUnit: Unit | null
}

interface ToleranceSign extends Operator {
  readonly after: Stretch
}

/** A deviation in the nominal's unit. */
interface Deviation {
  readonly value: Rational
  /** Null where it was worked out from a percentage or another unit: then the end has no digits of its own. */
  readonly number: TypedNumber | null
}

const HUNDRED = rational(100)

/**
 * Reads what follows `±`, or `+a/-b`.
 *
 *     450 psi ± 25 psi    450 ± 25 psi    450 psi ± 25    250 N·m ± 5 %    20 mm +0.1/-0.2    90 °C ± 5 °C (a difference)
 */
export function readTolerance(text: string, sign: ToleranceSign, nominal: NumberWithUnit): Parsed<Tolerance> {
  return sign.sign === '±' ? readEven(text, sign, nominal) : readUneven(text, sign, nominal)
}

function readEven(text: string, sign: ToleranceSign, nominal: NumberWithUnit): Parsed<Tolerance> {
  const typed = readDeviation(text, sign.after.from, sign.after.to, nominal)
  if (!typed.ok) return typed
  if (typed.value.number.value.numerator < 0n || /^\s*[-+−]/.test(text.slice(sign.after.from)))
    return refused(
      'A tolerance behind ± has no sign of its own.',
      'Type it without the sign: `± 5 mm`.',
      sign.after.from,
      sign.after.to,
    )
  const deviation = inNominalUnit(typed.value, nominal)
  if (!deviation.ok) return deviation
  const isPercent = isShare(typed.value, nominal)
  const ends = isPercent && nominal.number.value.numerator < 0n ? negated(deviation.value) : deviation.value
  return {
    ok: true,
    value: {
      form: isPercent ? 'plus-minus-percent' : 'plus-minus',
      lower: endOf(nominal.number, negated(ends)),
      upper: endOf(nominal.number, ends),
      sharedUnit: isPercent ? null : shared(typed.value, nominal),
    },
  }
}

/** `+a/-b`, `+a -b`, `-b/+a`; each may carry its unit, or the last one for both. */
function readUneven(text: string, sign: ToleranceSign, nominal: NumberWithUnit): Parsed<Tolerance> {
  const within = text.slice(sign.after.from, sign.after.to)
  const parts = /^([+\-−–][^+\-−–/]*(?:\d\/\d[^+\-−–/]*)?)(?:\/\s*|\s+|(?=[+\-−–]))([+\-−–].*)$/su.exec(within)
  if (!parts)
    return refused(
      'A tolerance with two sides names both.',
      'Type it as `20 mm +0.1/-0.2`.',
      sign.after.from,
      sign.after.to,
    )
  const [, firstText = '', secondText = ''] = parts
  const secondFrom = sign.after.to - secondText.length
  const second = readDeviation(text, secondFrom, sign.after.to, nominal)
  if (!second.ok) return second
  const first = readDeviation(text, sign.after.from, sign.after.from + firstText.trimEnd().length, nominal)
  if (!first.ok) return first
  const firstWithUnit = { ...first.value, unit: first.value.unit ?? second.value.unit }
  const one = inNominalUnit(firstWithUnit, nominal)
  if (!one.ok) return one
  const other = inNominalUnit(second.value, nominal)
  if (!other.ok) return other
  const [low, high] =
    compare(one.value.value, other.value.value) <= 0 ? [one.value, other.value] : [other.value, one.value]
  return {
    ok: true,
    value: {
      form: 'plus-minus-uneven',
      lower: endOf(nominal.number, low),
      upper: endOf(nominal.number, high),
      sharedUnit: isShare(second.value, nominal) ? null : shared(second.value, nominal),
    },
  }
}

/** A deviation may be in the nominal's kind, in percent of it, or, behind a temperature, a temperature difference. */
function readDeviation(text: string, from: number, to: number, nominal: NumberWithUnit): Parsed<NumberWithUnit> {
  const alone = readNumberWithUnit(text, from, to)
  if (!alone.ok || alone.value.unit === null || nominal.unit === null || alone.value.unit.kind === 'ratio') return alone
  return readNumberWithUnit(text, from, to, deviationKind(nominal.unit.kind))
}

function deviationKind(kind: QuantityKind): QuantityKind {
  return kind === 'temperature' ? 'temperature-difference' : kind
}

function inNominalUnit(typed: NumberWithUnit, nominal: NumberWithUnit): Parsed<Deviation> {
  const { number, unit } = typed
  if (unit?.symbol === '%' && nominal.unit === null)
    return refused(
      `"${nominal.number.written} ± ${number.written} %" is not clear: the unit of ${nominal.number.written} is missing.`,
      `Type the unit behind it, such as \`${nominal.number.written} % ± ${number.written} %\` or \`${nominal.number.written} mm ± ${number.written} %\`.`,
      nominal.from,
      typed.to,
    )
  if (isShare(typed, nominal)) {
    if (nominal.unit?.kind === 'temperature')
      return refused(
        'A percentage of a temperature has no meaning: 0 ° is no zero.',
        'Type the tolerance in degrees, such as `± 5 °C`.',
        typed.from,
        typed.to,
      )
    return { ok: true, value: { value: divide(multiply(nominal.number.value, number.value), HUNDRED), number: null } }
  }
  // `90 ± 5 °C`: the nominal's unit is the one behind the tolerance.
  if (unit === null || nominal.unit === null || unit === nominal.unit)
    return { ok: true, value: { value: number.value, number } }
  const factor = divide(unit.factor, nominal.unit.factor)
  const isSame = factor.numerator === factor.denominator
  return { ok: true, value: { value: multiply(number.value, factor), number: isSame ? number : null } }
}

/** Behind a value in percent, `± 5 %` is five points, as on any gauge; behind all others it is a share of the value. */
function isShare(typed: NumberWithUnit, nominal: NumberWithUnit): boolean {
  return typed.unit?.symbol === '%' && nominal.unit !== null && nominal.unit.kind !== 'ratio'
}

function shared(typed: NumberWithUnit, nominal: NumberWithUnit): Unit | null {
  return nominal.unit === null ? typed.unit : null
}

/** The end with the decimals that were typed, or as a fraction where both were fractions. */
function endOf(nominal: TypedNumber, deviation: Deviation): Bound {
  const value = add(nominal.value, deviation.value)
  if (deviation.number === null) return { value, inclusive: true }
  const places = Math.max(nominal.places, deviation.number.places)
  const exact = exactPlaces(value)
  if (nominal.isFraction && (deviation.number.isFraction || deviation.number.places === 0))
    return { value, inclusive: true, written: fractionText(value) }
  if (deviation.number.isFraction && nominal.places === 0 && !nominal.isFraction)
    return { value, inclusive: true, written: fractionText(value) }
  if (exact === null) return { value, inclusive: true, written: fractionText(value) }
  return { value, inclusive: true, written: decimalText(value, Math.max(places, exact)) }
}

function negated(deviation: Deviation): Deviation {
  return { value: negate(deviation.value), number: deviation.number }
}
