import { nearestName } from '../text/nearest-name.ts'
import { fromBase, toBase } from './convert.ts'
import type { ExpressionTable, LookUpNode, NameNode } from './expression.ts'
import { type ExpressionKind, isPlain } from './expression-kinds.ts'
import { judgeValue } from './judge-reading.ts'
import { parseLimit } from './parse-limit.ts'
import { parseQuantity } from './parse-quantity.ts'
import type { Parsed, QuantityKind, Rational } from './quantity-types.ts'
import { compare } from './rational.ts'
import { type Refusal, refusedAt } from './refusal.ts'
import { unitBySymbol } from './units.ts'

/** A key or a cell: a quantity in its base unit, or a word. */
export type LookUpValue =
  | { readonly is: 'quantity'; readonly kind: QuantityKind; readonly base: Rational }
  | { readonly is: 'outcome'; readonly text: string }

interface FoundColumn {
  readonly name: string
  readonly table: ExpressionTable
  readonly index: number
}

/** The kind of the column; refuses unknown tables and columns, and columns that mix kinds. */
export function kindOfLookUp(
  tables: ReadonlyMap<string, ExpressionTable>,
  node: LookUpNode,
  keys: readonly ExpressionKind[],
): Parsed<ExpressionKind> {
  const column = columnOf(tables, node)
  if (!column.ok) return column
  const wrong = keys.findIndex((key) => key.is === 'condition' || key.isList)
  const wrongKey = node.keys[wrong]
  if (wrongKey)
    return refusedAt('A table is looked up by one value at a time.', 'Type one reading, such as `l1.left`.', wrongKey)
  const { table, index, name } = column.value
  const cells = cellsOf(table, index)
  const kind = kindOfCells(cells)
  if (kind === null)
    return refusedAt(
      `The column "${name}" of "${node.table.name}" mixes different kinds of values.`,
      'Give every cell a value with its unit, or only words.',
      node.column,
    )
  if (kind === 'words') return { ok: true, value: { is: 'outcome', outcomes: [...new Set(cells)], isList: false } }
  return { ok: true, value: { is: 'quantity', kind: kind.quantity, isList: false } }
}

/** Values of one kind, or words; numbers without a unit beside words (`standard`, `+.005`) are names. Null for a mixture. */
function kindOfCells(cells: readonly string[]): 'words' | { readonly quantity: QuantityKind } | null {
  const kinds = new Set<string>()
  for (const cell of cells) {
    const quantity = parseQuantity(cell)
    kinds.add(quantity.ok ? quantity.value.kind : 'word')
  }
  const hasWords = kinds.delete('word')
  if (hasWords) kinds.delete('number')
  const [kind] = kinds
  if (kind === undefined) return 'words'
  return hasWords || kinds.size > 1 ? null : { quantity: kind }
}

function cellsOf(table: ExpressionTable, index: number): readonly string[] {
  return table.rows.map((row) => row[index]?.trim() ?? '')
}

/**
 * The cell of the one row whose first columns fit the keys: a word is equal, a limit holds the value, a bare value is equal.
 * No row, or more than one, is refused: a look-up never guesses.
 */
export function lookUp(
  tables: ReadonlyMap<string, ExpressionTable>,
  node: LookUpNode,
  keys: readonly LookUpValue[],
): Parsed<LookUpValue> {
  const column = columnOf(tables, node)
  if (!column.ok) return column
  const { table, index } = column.value
  const rows = table.rows.filter((row) => keys.every((key, position) => fits(row[position]?.trim() ?? '', key)))
  const [row] = rows
  if (!row) return refusedAt(`No row of "${node.table.name}" fits.`, 'Add the row, or stop and ask.', node)
  if (rows.length > 1)
    return refusedAt(
      `${rows.length} rows of "${node.table.name}" fit.`,
      'Make the rows end where the next one begins.',
      node,
    )
  const cell = row[index]?.trim() ?? ''
  const quantity = parseQuantity(cell)
  const unit = quantity.ok ? unitBySymbol(quantity.value.unit) : null
  if (!quantity.ok || !unit || kindOfCells(cellsOf(table, index)) === 'words')
    return { ok: true, value: { is: 'outcome', text: cell } }
  return { ok: true, value: { is: 'quantity', kind: unit.kind, base: toBase(quantity.value.value, unit) } }
}

function columnOf(tables: ReadonlyMap<string, ExpressionTable>, node: LookUpNode): Parsed<FoundColumn> {
  const table = tables.get(node.table.name)
  if (!table)
    return unknown(
      node.table,
      `There is no table "${node.table.name}".`,
      [...tables.keys()],
      'Define it under `tables`.',
    )
  const name = node.column.name
  const index = table.columns.indexOf(name)
  if (index < 0)
    return unknown(
      node.column,
      `The table "${node.table.name}" has no column "${name}".`,
      table.columns,
      `It has ${table.columns.join(', ')}.`,
    )
  if (index < node.keys.length)
    return refusedAt(`"${name}" is one of the columns looked up by.`, 'Name a column behind the keys.', node.column)
  return { ok: true, value: { name, table, index } }
}

function fits(cell: string, key: LookUpValue): boolean {
  if (key.is === 'outcome') return cell === key.text
  const limit = parseLimit(cell, isPlain(key.kind) ? undefined : key.kind)
  const unit = limit.ok ? unitBySymbol(limit.value.unit) : null
  if (!limit.ok || !unit) return false
  const value = fromBase(key.base, unit)
  if (limit.value.form === 'nominal') return limit.value.aim !== null && compare(limit.value.aim, value) === 0
  return judgeValue(limit.value, value).verdict === 'in'
}

function unknown(node: NameNode, message: string, known: readonly string[], otherwise: string): Refusal {
  const near = nearestName(node.name, known)
  return refusedAt(message, near ? `Did you mean \`${near}\`?` : otherwise, node)
}
