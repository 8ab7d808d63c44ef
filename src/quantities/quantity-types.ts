/**
 * The plain data of quantities. Every number is an exact rational; no binary float touches a limit.
 */

/** An exact fraction in lowest terms; the denominator is positive. */
export interface Rational {
  readonly numerator: bigint
  readonly denominator: bigint
}

/** Which of the two printed families a unit belongs to; `both` prints unchanged (s, %, turns, °). */
export type UnitSystem = 'metric' | 'inch' | 'both'

/** What a quantity is, finer than its dimension: torque is not energy, a temperature difference is no temperature. */
export type QuantityKind = string

/** What was typed as one quantity. */
export interface Quantity {
  /** As typed, blanks tidied. */
  readonly typed: string
  /** In the typed unit. */
  readonly value: Rational
  /** Canonical symbol of the typed unit, `N·m`. */
  readonly unit: string
  /** The same unit in UCUM, `N.m`; empty for units UCUM does not know. */
  readonly ucum: string
  readonly kind: QuantityKind
  /** The number as typed, tidied for print: `3/8`, `1-1/8`, `0.10`, `−15`. */
  readonly written?: string
}

/** One end of a limit, in the typed unit. */
export interface Bound {
  readonly value: Rational
  /** Whether the end itself is within the limit. */
  readonly inclusive: boolean
  /** The number to print in the typed unit; missing where it was worked out and wants rounding (± %). */
  readonly written?: string
}

/** What was typed as one limit. `nominal` has a value and no tolerance: nothing can be judged by it. */
export interface Limit {
  readonly typed: string
  readonly form:
    | 'min'
    | 'max'
    | 'under'
    | 'over'
    | 'range'
    | 'plus-minus'
    | 'plus-minus-percent'
    | 'plus-minus-uneven'
    | 'nominal'
  readonly lower: Bound | null
  readonly upper: Bound | null
  /** The optimum (`aim …`), or the nominal of a ± form. */
  readonly aim: Rational | null
  /** The aim as typed, tidied for print. */
  readonly aimWritten?: string
  readonly unit: string
  readonly ucum: string
  readonly kind: QuantityKind
  /** A second value typed in parentheses, `0.011 in (0.28 mm)`: kept to be checked against the first. */
  readonly pair: Limit | null
}

/** Why a text is not a quantity or limit; offsets are letters of the text given. */
export interface QuantityProblem {
  readonly message: string
  readonly advice: string
  readonly from: number
  readonly to: number
}

export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: QuantityProblem }

/** A limit with everything an output needs to print and judge it. */
export interface PrintedLimit {
  readonly typed: string
  /** What to print: `238 to 262 N·m (176 to 193 lbf·ft)`. The aim is not in it, unless the limit is nothing but an aim. */
  readonly text: string
  readonly kind: string
  readonly form: string
  readonly lower: PrintedBound | null
  readonly upper: PrintedBound | null
  /** The optimum, the nominal of a ± form, or the value of a bare quantity: exact, in the typed unit, `p/q` or an integer. */
  readonly aim: string | null
  /** The aim to print behind the text: `250 N·m (184 lbf·ft)`; missing for a bare quantity and a lone `aim`, whose text says it. */
  readonly aimText?: string
  /** The unit that was typed, and is judged. */
  readonly unit: string
  readonly ucum: string
  readonly inUnits: readonly LimitInUnit[]
  /** As typed in parentheses behind the limit, or null. */
  readonly pair: string | null
}

export interface PrintedBound {
  /** Exact, in the typed unit: `p/q` or an integer. */
  readonly exact: string
  readonly inclusive: boolean
}

export interface LimitInUnit {
  readonly system: UnitSystem
  readonly unit: string
  readonly text: string
}

/** A quantity as it prints: `30 lbf·ft (40.7 N·m)`. */
export interface PrintedQuantity {
  readonly text: string
  readonly inUnits: readonly LimitInUnit[]
}
