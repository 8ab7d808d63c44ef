import type { Rational } from '../../src/quantities/quantity-types.ts'
import type { CaseValue } from './case-file.ts'

/**
 * How the cases of a family find what works them out: by the names of their inputs and outputs alone. A mapping holds no number of a case, no
 * title and no id, and does no arithmetic.
 */
export type CaseMapping = CalculatorMapping | FunctionMapping

interface NamesOnly {
  /** Names of the expected values that are a note of the source and no result. */
  readonly aside?: readonly string[]
}

/** Cases for one of `src/trade/calculators.ts`. */
export interface CalculatorMapping extends NamesOnly {
  readonly calculator: string
  /** Name in the case → input of the calculator. A list is worked out value by value unless the input takes lists. */
  readonly inputs: Readonly<Record<string, string>>
  /** Inputs that the names of a case imply. */
  readonly fixed?: Readonly<Record<string, string>>
  /** Name in the case → result of the calculator; two results for values that are written as a pair. */
  readonly expected: Readonly<Record<string, string | readonly [single: string, pair: readonly [string, string]]>>
  /** Words of the cases in the calculator's words, inputs and results alike. */
  readonly words?: Readonly<Record<string, string>>
}

/** What a function gives for one expected name. */
export type Outcome =
  | { readonly exact: Rational; readonly unit: string; readonly text?: string }
  | string
  | number
  | boolean
  | null
  | readonly Outcome[]
  | { readonly [name: string]: Outcome }

/** Cases that call functions of `src/` themselves, where texts into texts do not fit. */
export interface FunctionMapping extends NamesOnly {
  readonly inputs: readonly string[]
  readonly expected: readonly string[]
  /**
   * May throw to refuse a case that is not meant for it. `told` are the words around the case: only there may a choice stand that the inputs
   * leave open, such as the kind of work that a rule is for.
   */
  readonly work: (
    inputs: ReadonlyMap<string, CaseValue>,
    expected: ReadonlyMap<string, CaseValue>,
    told: string,
  ) => Readonly<Record<string, Outcome>>
}
