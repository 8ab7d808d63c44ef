import type { Parsed, Rational } from './quantity-types.ts'
import { add, divide, multiply, subtract } from './rational.ts'
import { refused } from './refusal.ts'
import type { Unit } from './unit-table.ts'
import { kindInWords, unitBySymbol } from './units.ts'

/** Into the base unit of the kind. */
export function toBase(value: Rational, unit: Unit): Rational {
  return add(multiply(value, unit.factor), unit.offset)
}

/** From the base unit of the kind. */
export function fromBase(value: Rational, unit: Unit): Rational {
  return divide(subtract(value, unit.offset), unit.factor)
}

/** Exact; both units must be of one kind, which the caller knows. */
export function convertBetween(value: Rational, from: Unit, to: Unit): Rational {
  if (from === to) return value
  if (from.offset === to.offset) return divide(multiply(value, from.factor), to.factor)
  return fromBase(toBase(value, from), to)
}

/**
 * The same number, but not in lowest terms: for comparing and rounding, where bringing it there takes longer than all the rest.
 */
export function convertToRound(value: Rational, from: Unit, to: Unit): Rational {
  if (from === to || from.offset !== to.offset) return convertBetween(value, from, to)
  return {
    numerator: value.numerator * from.factor.numerator * to.factor.denominator,
    denominator: value.denominator * from.factor.denominator * to.factor.numerator,
  }
}

/** Exact conversion between two symbols; refuses unknown units and units of different kinds. */
export function convertValue(value: Rational, fromUnit: string, toUnit: string): Parsed<Rational> {
  const from = unitBySymbol(fromUnit)
  const to = unitBySymbol(toUnit)
  if (!from || !to) {
    const unknown = from ? toUnit : fromUnit
    return refused(`"${unknown}" is not a unit.`, 'Use the printed symbol of a unit, such as `N·m`.', 0, 0)
  }
  if (from.kind !== to.kind)
    return refused(
      `${from.symbol || 'A plain number'} is ${kindInWords(from.kind)} and ${to.symbol || 'the other'} is ${kindInWords(to.kind)}.`,
      'Convert between units of one kind only.',
      0,
      0,
    )
  return { ok: true, value: convertBetween(value, from, to) }
}
