import { scanNumber, type TypedNumber } from './parse-number.ts'
import type { Parsed, Quantity, QuantityKind } from './quantity-types.ts'
import type { Unit } from './unit-table.ts'
import { readUnit, unitBySymbol } from './units.ts'

/** A number and the unit typed behind it; null where there was none. */
export interface NumberWithUnit {
  readonly number: TypedNumber
  readonly unit: Unit | null
  readonly from: number
  readonly to: number
}

/**
 * Reads `390 N·m`, `3/8 in`, `20 °C`, `75 %`, `3 turns`; a number alone is of the kind `number`.
 * `asked` is the kind wanted: it tells `ft lb` as energy from torque, and refuses other kinds with the choices named.
 */
export function parseQuantity(text: string, asked?: QuantityKind): Parsed<Quantity> {
  const read = readNumberWithUnit(text, 0, text.length, asked)
  if (!read.ok) return read
  const { number, unit: typedUnit } = read.value
  if (!typedUnit && asked !== undefined && asked !== 'number') return unitMissing(text, number, asked)
  const unit = typedUnit ?? plainNumber()
  return {
    ok: true,
    value: {
      typed: tidyBlanks(text),
      value: number.value,
      unit: unit.symbol,
      ucum: unit.ucum,
      kind: unit.kind,
      written: number.written,
    },
  }
}

/** Reads the letters `from` … `to` as a number and, behind it, a unit. */
export function readNumberWithUnit(
  text: string,
  from: number,
  to: number,
  asked?: QuantityKind,
): Parsed<NumberWithUnit> {
  const within = text.slice(0, to)
  const start = from + (within.slice(from).length - within.slice(from).trimStart().length)
  const number = scanNumber(within, start)
  if (!number.ok) return number
  const unitText = within.slice(number.value.to).trim()
  if (unitText === '')
    return { ok: true, value: { number: number.value, unit: null, from: start, to: number.value.to } }
  const unitFrom = within.indexOf(unitText, number.value.to)
  const unit = readUnit(unitText, asked)
  const end = unitFrom + unitText.length
  if (!unit.ok) return { ok: false, problem: { ...unit.problem, from: unitFrom, to: end } }
  return { ok: true, value: { number: number.value, unit: unit.unit, from: start, to: end } }
}

/** The unit of numbers without one. */
export function plainNumber(): Unit {
  const unit = unitBySymbol('')
  if (!unit) throw new Error('the table of units has no plain number')
  return unit
}

export function tidyBlanks(text: string): string {
  const tidy = text.trim()
  return /[^\S ]| {2}/.test(tidy) ? tidy.replace(/\s+/g, ' ') : tidy
}

function unitMissing(text: string, number: TypedNumber, asked: QuantityKind): Parsed<Quantity> {
  const reading = readUnit('', asked)
  const problem = reading.ok ? { message: 'The unit is missing.', advice: 'Type the unit.' } : reading.problem
  return { ok: false, problem: { ...problem, from: number.from, to: Math.min(text.length, number.to) } }
}
