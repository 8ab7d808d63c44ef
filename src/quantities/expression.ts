import type { QuantityKind, Rational } from './quantity-types.ts'

/**
 * Expressions over readings, states and outcomes, as a tree. Every node knows its letters in the text (`from` … `to`).
 *
 *     max(journal) - min(journal)        bearing = fine paste and not (end-play in limit)        lookup(washers, washer, end-play)
 */
export type Expression =
  | QuantityNode
  | NameNode
  | QuotedNode
  | NegativeNode
  | ArithmeticNode
  | ComparisonNode
  | LogicNode
  | NotNode
  | InLimitNode
  | CallNode
  | LookUpNode

interface Node {
  readonly from: number
  readonly to: number
}

export interface QuantityNode extends Node {
  readonly is: 'quantity'
  /** In the typed unit. */
  readonly value: Rational
  readonly unit: string
  readonly kind: QuantityKind
}

/** A reading, state or, beside `=`, an outcome. */
export interface NameNode extends Node {
  readonly is: 'name'
  /** With its position, `l1.left`; outcomes may be several words. */
  readonly name: string
  /** Which reading: the last one taken, the one before it, the first one, or those of all positions. */
  readonly which: 'latest' | 'previous' | 'first' | 'all'
}

/** An outcome in quotes, for words the language keeps for itself: `"water in oil"`. */
interface QuotedNode extends Node {
  readonly is: 'quoted'
  readonly text: string
}

interface NegativeNode extends Node {
  readonly is: 'negative'
  readonly of: Expression
}

export interface ArithmeticNode extends Node {
  readonly is: 'arithmetic'
  readonly operator: '+' | '-' | '*' | '/'
  readonly left: Expression
  readonly right: Expression
}

export interface ComparisonNode extends Node {
  readonly is: 'comparison'
  readonly operator: '=' | '<' | '>' | '<=' | '>='
  readonly left: Expression
  readonly right: Expression
}

interface LogicNode extends Node {
  readonly is: 'logic'
  readonly operator: 'and' | 'or'
  readonly left: Expression
  readonly right: Expression
}

interface NotNode extends Node {
  readonly is: 'not'
  readonly of: Expression
}

export interface InLimitNode extends Node {
  readonly is: 'in-limit'
  readonly of: NameNode
}

export const functionNames = ['abs', 'min', 'max', 'mean', 'sum', 'span', 'count', 'any', 'all', 'clamp'] as const
export type FunctionName = (typeof functionNames)[number]

export interface CallNode extends Node {
  readonly is: 'call'
  readonly name: FunctionName
  readonly of: readonly Expression[]
}

/** `lookup(table, column, key …)`: the row whose first columns fit the keys, and there the column's value. */
export interface LookUpNode extends Node {
  readonly is: 'lookup'
  readonly table: NameNode
  readonly column: NameNode
  readonly keys: readonly Expression[]
}

/** A table as typed: its first columns are the keys. */
export interface ExpressionTable {
  readonly columns: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

/** Every name in the expression, in reading order; outcomes beside `=` are among them. */
export function namesIn(expression: Expression): readonly NameNode[] {
  switch (expression.is) {
    case 'quantity':
    case 'quoted':
      return []
    case 'name':
      return [expression]
    case 'negative':
    case 'not':
    case 'in-limit':
      return namesIn(expression.of)
    case 'arithmetic':
    case 'comparison':
    case 'logic':
      return [...namesIn(expression.left), ...namesIn(expression.right)]
    case 'call':
      return expression.of.flatMap(namesIn)
    case 'lookup':
      return expression.keys.flatMap(namesIn)
  }
}

/** `5 °C` where only a difference makes sense: beside a `+`, or compared with a difference. */
export function asDifference(node: QuantityNode): QuantityNode {
  return { ...node, unit: node.unit === '°F' ? 'Δ°F' : 'Δ°C', kind: 'temperature-difference' }
}
