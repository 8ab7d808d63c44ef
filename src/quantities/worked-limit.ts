import { fromBase } from './convert.ts'
import { evaluateExpression } from './evaluate-expression.ts'
import type { Expression, LookUpNode, NameNode } from './expression.ts'
import { isSameKind } from './expression-kinds.ts'
import type { ExpressionValues } from './expression-values.ts'
import { parseExpression } from './parse-expression.ts'
import { parseLimit } from './parse-limit.ts'
import { parseQuantity } from './parse-quantity.ts'
import type { Bound, Limit, Parsed, PrintedLimit, QuantityProblem } from './quantity-types.ts'
import { refused, refusedAt, type Stretch } from './refusal.ts'
import { unitBySymbol } from './units.ts'

/**
 * A limit that only the bench can work out: its ends are formulas over readings, or it stands in a table and a reading picks the row.
 *
 *     max first(l1) + 0.1 mm          upper: first(l1) + 0.1 mm
 *     max 105 %, of base              upper: (base) * 105 / 100
 *     from { table, column, row }     table
 */
export interface WorkedLimit {
  /** As it prints: `max first(l1) + 0.1 mm`. */
  readonly typed: string
  readonly lower: WorkedBound | null
  readonly upper: WorkedBound | null
  readonly table: TableLimit | null
  /** Symbol of the unit it is judged in. */
  readonly unit: string
}

export interface WorkedBound {
  readonly expression: string
  readonly inclusive: boolean
}

/** The limit stands in `column`, in the row whose first column fits `row`. */
export interface TableLimit {
  readonly table: string
  readonly column: string
  /** A name or formula, or the value itself. */
  readonly row: string
}

/** The ends of a limit as they were typed, each a formula. */
export interface FormulaEnds {
  readonly lower: WorkedBound | null
  readonly upper: WorkedBound | null
  readonly expressions: readonly Expression[]
}

const boundWord = /^\s*(max|min|under|over)\s+/u
const aimBehind = /,\s*aim\s.*$/su

/** Reads the ends of a limit that names readings. `max F`, `min F`, `under F`, `over F`, `F to F`, `F ± F`. */
export function readFormulaEnds(text: string): Parsed<FormulaEnds> {
  const to = text.length - (aimBehind.exec(text)?.[0].length ?? 0)
  const word = boundWord.exec(text.slice(0, to))
  if (word) {
    const end = readEnd(text, { from: word[0].length, to })
    if (!end.ok) return end
    const bound = { expression: end.value.text, inclusive: word[1] === 'max' || word[1] === 'min' }
    const isUpper = word[1] === 'max' || word[1] === 'under'
    return {
      ok: true,
      value: { lower: isUpper ? null : bound, upper: isUpper ? bound : null, expressions: [end.value.expression] },
    }
  }
  const joint = jointOf(text.slice(0, to))
  if (!joint)
    return refused(
      'A limit that names readings says which way it goes.',
      'Type `max first(l1) + 0.1 mm`, `min …`, or both ends with `to` between them.',
      0,
      to,
    )
  const first = readEnd(text, { from: 0, to: joint.from })
  if (!first.ok) return first
  const second = readEnd(text, { from: joint.to, to })
  if (!second.ok) return second
  const expressions = [first.value.expression, second.value.expression]
  const bound = (expression: string): WorkedBound => ({ expression, inclusive: true })
  const [a, b] = [first.value.text, second.value.text]
  if (joint.sign === 'to') return { ok: true, value: { lower: bound(a), upper: bound(b), expressions } }
  const isShare = second.value.expression.is === 'quantity' && second.value.expression.kind === 'ratio'
  const reach = isShare ? `(${a}) * ${b}` : `(${b})`
  return {
    ok: true,
    value: { lower: bound(`(${a}) - ${reach}`), upper: bound(`(${a}) + ${reach}`), expressions },
  }
}

/** The ends of a limit in % (or a plain share), taken of what a formula gives. Null where the limit is of another kind. */
export function endsOfShare(limit: PrintedLimit, of: string): Pick<WorkedLimit, 'lower' | 'upper'> | null {
  const unit = unitBySymbol(limit.unit)
  if (unit?.kind !== 'ratio') return null
  const scale = `${unit.factor.numerator} / ${unit.factor.denominator}`
  const end = (bound: PrintedLimit['lower']): WorkedBound | null =>
    bound && { expression: `(${of}) * ${spaced(bound.exact)} * ${scale}`, inclusive: bound.inclusive }
  return { lower: end(limit.lower), upper: end(limit.upper) }
}

/** The limit, worked out from what was read. What is not read yet comes back as a problem that names it. */
export function workOutLimit(worked: WorkedLimit, known: ExpressionValues): Parsed<Limit> {
  if (worked.table) return limitOfRow(worked.table, known)
  const unit = unitBySymbol(worked.unit)
  if (!unit) return refused(`"${worked.unit}" is not a unit.`, 'Ask for the limit.', 0, 0)
  const ends: (Bound | null)[] = []
  for (const bound of [worked.lower, worked.upper]) {
    if (bound === null) {
      ends.push(null)
      continue
    }
    const expression = parseExpression(bound.expression)
    if (!expression.ok) return expression
    const value = evaluateExpression(expression.value, known)
    if (!value.ok) return value
    const item = value.value.is === 'quantity' && value.value.items.length === 1 ? value.value.items[0] : undefined
    if (item === undefined || value.value.is !== 'quantity' || !isSameKind(value.value.kind, unit.kind))
      return refusedAt(
        `"${bound.expression}" gives no single figure in ${worked.unit || 'plain numbers'}.`,
        'Ask for the limit.',
        expression.value,
      )
    ends.push({ value: fromBase(item, unit), inclusive: bound.inclusive })
  }
  const [lower = null, upper = null] = ends
  const { typed } = worked
  const form =
    lower && upper ? 'range' : lower ? (lower.inclusive ? 'min' : 'over') : upper?.inclusive ? 'max' : 'under'
  return {
    ok: true,
    value: { typed, form, lower, upper, aim: null, unit: unit.symbol, ucum: unit.ucum, kind: unit.kind, pair: null },
  }
}

/** The limit in the cell of a table; the row is picked by a reading, a count, a variant, or the value itself. */
export function limitOfRow({ table, column, row }: TableLimit, known: ExpressionValues): Parsed<Limit> {
  const place = { from: 0, to: row.length }
  const name = (text: string): NameNode => ({ is: 'name', name: text, which: 'latest', ...place })
  const node: LookUpNode = {
    is: 'lookup',
    table: name(table),
    column: name(column),
    keys: [rowKey(row, known)],
    ...place,
  }
  const cell = evaluateExpression(node, known)
  if (!cell.ok) return cell
  const text = cell.value.is === 'outcome' ? cell.value.items[0] : undefined
  if (text === undefined)
    return refusedAt(
      `The column "${column}" of "${table}" holds values without a tolerance.`,
      'Write limits into it, such as `80.00 to 80.05 mm`.',
      node,
    )
  return parseLimit(text)
}

/** A name that is known here is what it stands for; anything else is the value itself. */
function rowKey(row: string, known: ExpressionValues): Expression {
  const place = { from: 0, to: row.length }
  const quantity = parseQuantity(row)
  if (quantity.ok) {
    const { value, unit, kind } = quantity.value
    return { is: 'quantity', value, unit, kind, ...place }
  }
  const expression = parseExpression(row)
  const isValue = !expression.ok || (expression.value.is === 'name' && !known.values.has(expression.value.name))
  return isValue ? { is: 'quoted', text: row.trim(), ...place } : expression.value
}

interface Joint extends Stretch {
  readonly sign: 'to' | '±'
}

/** The `to` or `±` that stands outside all parentheses. */
function jointOf(text: string): Joint | null {
  for (const match of text.matchAll(/\s+to\s+|\s*±\s*/gu)) {
    const before = text.slice(0, match.index)
    const depth = (before.match(/\(/g)?.length ?? 0) - (before.match(/\)/g)?.length ?? 0)
    if (depth === 0)
      return { sign: match[0].includes('±') ? '±' : 'to', from: match.index, to: match.index + match[0].length }
  }
  return null
}

function readEnd(
  text: string,
  { from, to }: Stretch,
): Parsed<{ readonly text: string; readonly expression: Expression }> {
  const typed = text.slice(from, to)
  const expression = parseExpression(typed)
  if (expression.ok) return { ok: true, value: { text: typed.trim(), expression: expression.value } }
  const { problem } = expression
  const moved: QuantityProblem = { ...problem, from: problem.from + from, to: problem.to + from }
  return { ok: false, problem: moved }
}

/** `211/2` → `211 / 2`: in a formula a fraction without blanks is a number of its own. */
const spaced = (exact: string): string => exact.replace('/', ' / ')
