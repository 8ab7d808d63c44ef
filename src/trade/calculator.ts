import type { QuantityKind } from '../quantities/quantity-types.ts'

/** What the trade's calculators look like from outside: plain data and one function, texts in, texts out. */

export interface CalculatorInput {
  /** In trade words with hyphens: `thread-size`, `wrench-length`. */
  readonly name: string
  readonly what: string
  /**
   * A kind of quantity; `word` is one of `choices`; `size` is a designation such as `1/2-13` or `M20`, `text` free. `any` takes every kind, the same for
   * all such inputs of a calculator; `any-difference` is a difference of that kind.
   */
  readonly kind: QuantityKind | 'word' | 'size' | 'text' | 'any' | 'any-difference'
  /** A usual unit, to show; every unit of the kind is taken. Null for plain numbers, words and sizes. */
  readonly unit: string | null
  readonly symbol?: string
  readonly optional?: true
  /** Several values, `;` or `, ` between them. */
  readonly list?: true
  readonly choices?: readonly string[]
}

export interface CalculatorResult {
  readonly name: string
  readonly what: string
  /** The decimal to show, with sensible digits; or a word, or words with `, ` between them. */
  readonly value: string
  /** `p/q` or a whole number; null where a root, π or a rounded table stands behind it, and for words. */
  readonly exact: string | null
  /** `p/q` as worked out, good to 12 digits at least; null for words. For whoever goes on computing. */
  readonly worked: string | null
  /** Symbol of the unit; empty for plain numbers and words. */
  readonly unit: string
  readonly kind: QuantityKind | 'word'
}

export interface CalculatorProblem {
  /** The input at fault; null where several together are. */
  readonly input: string | null
  readonly message: string
  readonly advice: string
}

export type Calculation =
  | {
      readonly ok: true
      readonly results: readonly CalculatorResult[]
      /** How it was worked out: formula, numbers put in, results, cautions. */
      readonly working: readonly string[]
    }
  | { readonly ok: false; readonly problem: CalculatorProblem }

export interface Calculator {
  /** `bolt-torque` */
  readonly name: string
  readonly what: string
  /** With symbols, for print. */
  readonly formula: string
  /** Where it holds, and what is refused. */
  readonly validity: string
  /** Title, edition, section. */
  readonly source: string
  readonly inputs: readonly CalculatorInput[]
  readonly run: (given: ReadonlyMap<string, string>) => Calculation
}
