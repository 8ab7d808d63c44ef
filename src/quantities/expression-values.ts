import { fromBase, toBase } from './convert.ts'
import type { ExpressionTable } from './expression.ts'
import { isSameKind } from './expression-kinds.ts'
import type { Limit, Quantity, QuantityKind, Rational } from './quantity-types.ts'
import { unitBySymbol } from './units.ts'

/** What an expression is worth; quantities are in the base unit of their kind, exact. A list has one item a position. */
export type ExpressionValue =
  | {
      readonly is: 'quantity'
      readonly kind: QuantityKind
      readonly items: readonly Rational[]
      readonly isList: boolean
    }
  | { readonly is: 'condition'; readonly items: readonly boolean[]; readonly isList: boolean }
  | { readonly is: 'outcome'; readonly items: readonly string[]; readonly isList: boolean }

export type QuantityValue = ExpressionValue & { is: 'quantity' }
export type ConditionValue = ExpressionValue & { is: 'condition' }

/** The readings of one name; null or missing where none was taken. */
export interface NamedValue {
  readonly latest: ExpressionValue | null
  readonly previous?: ExpressionValue | null
  readonly first?: ExpressionValue | null
}

/** An amount, or with the unit `%` a share of what is read. */
export interface Uncertainty {
  readonly value: Rational
  readonly unit: string
}

export interface ExpressionValues {
  /** By name, positions as names of their own, as in `ExpressionNames`. */
  readonly values: ReadonlyMap<string, NamedValue>
  readonly limits: ReadonlyMap<string, Limit>
  /** Answers that pass, of checks by hand or eye: what `in limit` means for them. */
  readonly passes?: ReadonlyMap<string, readonly string[]>
  /** Expanded uncertainty of a reading, where guard bands are kept: in doubt is not in limit. */
  readonly uncertainties?: ReadonlyMap<string, Uncertainty>
  readonly tables: ReadonlyMap<string, ExpressionTable>
}

/** The value of one reading, or of one a position. All quantities must be of one kind. */
export function valueOfQuantities(quantities: readonly Quantity[], isList: boolean): ExpressionValue | null {
  const kind = quantities[0]?.kind
  if (kind === undefined || quantities.some((quantity) => quantity.kind !== kind)) return null
  const items = quantities.map((quantity) => {
    const unit = unitBySymbol(quantity.unit)
    return unit ? toBase(quantity.value, unit) : null
  })
  return items.every((item) => item !== null) ? { is: 'quantity', kind, items, isList } : null
}

/** The items of a quantity in a unit; null for other values and units of another kind. */
export function itemsInUnit(value: ExpressionValue, symbol: string): readonly Rational[] | null {
  const unit = unitBySymbol(symbol)
  if (value.is !== 'quantity' || !unit || !isSameKind(unit.kind, value.kind)) return null
  return value.items.map((item) => fromBase(item, unit))
}

/** Whether a condition holds, a list of conditions meaning every one of them; null for other values. */
export function holds(value: ExpressionValue): boolean | null {
  return value.is === 'condition' ? value.items.every(Boolean) : null
}

/** One condition. */
export function oneCondition(isTrue: boolean): ConditionValue {
  return { is: 'condition', items: [isTrue], isList: false }
}
