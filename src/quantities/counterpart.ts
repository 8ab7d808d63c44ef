import { convertToRound } from './convert.ts'
import type { Rational } from './quantity-types.ts'
import { absolute, compare, fromDecimalText, zero } from './rational.ts'
import type { Unit } from './unit-table.ts'
import { unitBySymbol } from './units.ts'

/**
 * Where the size decides which unit the trade reads: below (or from) an amount of the usual counterpart, another one.
 * Common practice, no published source.
 */
const bySize: readonly {
  readonly unit: string
  readonly side: 'below' | 'from'
  readonly amount: string
  readonly instead: string
}[] = [
  { unit: 'lbf·ft', side: 'below', amount: '10', instead: 'lbf·in' },
  { unit: 'lbf·in', side: 'from', amount: '240', instead: 'lbf·ft' },
  { unit: 'kPa', side: 'from', amount: '10000', instead: 'MPa' },
  { unit: 'm', side: 'below', amount: '1', instead: 'mm' },
  { unit: 'mm', side: 'from', amount: '10000', instead: 'm' },
  { unit: 'N', side: 'from', amount: '10000', instead: 'kN' },
  { unit: 'L', side: 'below', amount: '0.25', instead: 'mL' },
  { unit: 'US gal', side: 'below', amount: '1', instead: 'US qt' },
  { unit: 'kg', side: 'below', amount: '0.5', instead: 'g' },
  { unit: 'lb', side: 'below', amount: '0.5', instead: 'oz av' },
  { unit: 'in', side: 'from', amount: '120', instead: 'ft' },
]

/** The unit of the other system that the trade reads for values of this size, or null where there is none. */
export function counterpartUnit(unit: Unit, values: readonly Rational[]): Unit | null {
  const usual = unit.counterpart === undefined ? null : unitBySymbol(unit.counterpart)
  if (!usual) return null
  const largest = values
    .map((value) => absolute(convertToRound(value, unit, usual)))
    .reduce((most, value) => (compare(value, most) > 0 ? value : most), zero)
  for (const { unit: symbol, side, amount, instead } of bySize) {
    if (symbol !== usual.symbol || largest.numerator === 0n) continue
    const isBelow = compare(largest, fromDecimalText(amount) ?? zero) < 0
    if (isBelow === (side === 'below')) return unitBySymbol(instead)
  }
  return usual
}
