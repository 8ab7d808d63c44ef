import { fromBase, toBase } from '../../quantities/convert.ts'
import { exactNumberText, withUnit } from '../../quantities/number-text.ts'
import type { QuantityKind, Rational } from '../../quantities/quantity-types.ts'
import { fromDecimalText, toExactText } from '../../quantities/rational.ts'
import type { Unit } from '../../quantities/unit-table.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import { sensibleDecimal } from '../../trade/sensible-decimal.ts'
import type { WorkedFigure } from '../working.ts'

/** Numbers of a working: values in the base unit of their kind go in, what people read comes out. */

export interface FigureToShow {
  readonly name: string
  readonly kind: QuantityKind
  readonly unit: string
  /** In the base unit of the kind. */
  readonly value: Rational
  /** Most significant digits; 3 unless said. */
  readonly digits?: number
  /** `down` for what must not be exceeded, `up` for what must be reached. */
  readonly rounding?: 'up' | 'down'
  /** Set where a root, π or a rounded table stands behind it. */
  readonly isRounded?: true
}

export function workedFigure(figure: FigureToShow): WorkedFigure {
  const value = fromBase(figure.value, unitNamed(figure.unit))
  return {
    name: figure.name,
    value: sensibleDecimal(value, figure.digits ?? DIGITS, figure.rounding),
    exact: figure.isRounded ? null : toExactText(value),
    unit: figure.unit,
    kind: figure.kind,
  }
}

/** A figure that is a word or a row of them. */
export function wordFigure(name: string, value: string): WorkedFigure {
  return { name, value, exact: null, unit: '', kind: 'word' }
}

const DIGITS = 3

/** `12 300 N`, `95.8 kN`: the value, in the base unit of its kind, as people read it. */
export function shown(value: Rational, unit: string, digits = DIGITS, rounding?: 'up' | 'down'): string {
  const known = unitNamed(unit)
  return withUnit(shownNumber(fromBase(value, known), digits, rounding), known)
}

/** The same for a plain number. */
export function shownNumber(value: Rational, digits = DIGITS, rounding?: 'up' | 'down'): string {
  return exactNumberText(fromDecimalText(sensibleDecimal(value, digits, rounding)) ?? value)
}

/** `90 to 102 kN`, and `90 kN` where both ends are one. */
export function shownBand(low: Rational, high: Rational, unit: string, digits = DIGITS): string {
  const known = unitNamed(unit)
  const from = shownNumber(fromBase(low, known), digits)
  const to = shownNumber(fromBase(high, known), digits)
  return from === to ? withUnit(to, known) : `${from} to ${withUnit(to, known)}`
}

/** A value typed in a unit, in the base unit of its kind. */
export function inBase(value: Rational, unit: string): Rational {
  return toBase(value, unitNamed(unit))
}

function unitNamed(symbol: string): Unit {
  const unit = unitBySymbol(symbol)
  if (!unit) throw new Error(`no unit "${symbol}": units of a working are the program's own or come from the parser`)
  return unit
}
