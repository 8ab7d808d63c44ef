import { type Expression, namesIn } from '../../quantities/expression.ts'
import type { ExpressionValues } from '../../quantities/expression-values.ts'
import { limitOfPrinted } from '../../quantities/judge-reading.ts'
import { parseExpression } from '../../quantities/parse-expression.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import { parseQuantity } from '../../quantities/parse-quantity.ts'
import { printLimit } from '../../quantities/print-limit.ts'
import type { Limit, PrintedLimit, Quantity } from '../../quantities/quantity-types.ts'
import { multiply } from '../../quantities/rational.ts'
import { unitBySpelling, unitBySymbol } from '../../quantities/units.ts'
import { endsOfShare, limitOfRow, readFormulaEnds, type WorkedLimit } from '../../quantities/worked-limit.ts'
import { type BlockNode, type ScalarNode, valueAt } from '../../syntax/block-node.ts'
import { nearestName } from '../../text/nearest-name.ts'
import type { Only } from '../variants.ts'
import { textAt } from './read-node.ts'
import { type LimitContext, printOptions, reportLimit, resolveLimit, withAim } from './resolve-limit.ts'

/** A limit that is settled now, or one that the bench works out, or neither. */
export interface LimitOrWork {
  readonly limit: PrintedLimit | null
  readonly worked: WorkedLimit | null
}

const none: LimitOrWork = { limit: null, worked: null }

/** `max first(l1) + 0.1 mm`: the ends are formulas over readings. */
export function limitOfFormula(typed: ScalarNode, unit: string | null, context: LimitContext): LimitOrWork {
  const ends = readFormulaEnds(typed.text)
  if (!ends.ok) {
    reportLimit(typed, ends.problem, context)
    return none
  }
  const { lower, upper, expressions } = ends.value
  return {
    limit: null,
    worked: { typed: typed.text, lower, upper, table: null, unit: unitOf(unit, expressions, context) },
  }
}

/**
 * A limit in % that is taken of something else: settled now where that is a figure, at the bench where it is a reading.
 *
 *     max 105 %, of first(hook)      95 to 105 %, of 250 N·m
 *
 * Null where the limit is no share: then `of` says something else.
 */
export function limitOfShare(
  typed: ScalarNode,
  of: ScalarNode,
  unit: string | null,
  tools: readonly string[],
  context: LimitContext,
): LimitOrWork | null {
  const share = resolveLimit(typed, { ...context, findings: [] })
  const ends = share && endsOfShare(share, of.text)
  if (share === null || ends === null) return null
  const says = `${typed.text} of ${of.text}`
  const figure = parseQuantity(of.text)
  if (figure.ok) {
    const limit = shareOf(share, figure.value, says)
    return limit && { limit: withAim(printLimit(limit, printOptions(context, tools))), worked: null }
  }
  const expression = parseExpression(of.text)
  if (!expression.ok) {
    reportLimit(of, expression.problem, context)
    return none
  }
  return {
    limit: null,
    worked: { typed: says, ...ends, table: null, unit: unitOf(unit, [expression.value], context) },
  }
}

function shareOf(share: PrintedLimit, figure: Quantity, typed: string): Limit | null {
  const limit = limitOfPrinted(share)
  const percent = unitBySymbol(share.unit)
  if (limit === null || percent === null) return null
  const part = (value: Quantity['value']) => multiply(multiply(value, percent.factor), figure.value)
  const bound = (end: Limit['lower']) => end && { value: part(end.value), inclusive: end.inclusive }
  const { unit, ucum, kind } = figure
  return {
    ...limit,
    typed,
    lower: bound(limit.lower),
    upper: bound(limit.upper),
    aim: limit.aim && part(limit.aim),
    unit,
    ucum,
    kind,
  }
}

export interface TableCase extends LimitOrWork {
  readonly only: Only | null
}

/** `from: { table, column, row }`: settled now for a value or for each value of a variant, at the bench for a reading. */
export function limitsOfTable(
  from: BlockNode,
  unit: string | null,
  tools: readonly string[],
  context: LimitContext,
): readonly TableCase[] {
  const [tableAt, columnAt, rowAt] = ['table', 'column', 'row'].map((key) => valueAt(from, key))
  if (tableAt?.kind !== 'scalar' || columnAt?.kind !== 'scalar' || rowAt?.kind !== 'scalar') return []
  const table = context.tables.find(({ id }) => id === tableAt.text)
  if (table === undefined)
    return unknown(
      tableAt,
      'No table of this document is called',
      context.tables.map(({ id }) => id),
      context,
    )
  const place = table.columns.indexOf(columnAt.text)
  if (place < 1)
    return unknown(columnAt, `The table "${table.id}" has no column of limits called`, table.columns.slice(1), context)
  const at = { table: table.id, column: columnAt.text }
  const settled = (row: string, only: Only | null): TableCase => {
    const limit = limitOfRow({ ...at, row }, knownBefore(context))
    if (limit.ok) return { limit: withAim(printLimit(limit.value, printOptions(context, tools))), worked: null, only }
    reportLimit(rowAt, { ...limit.problem, from: 0, to: rowAt.text.length }, context)
    return { ...none, only }
  }
  const variant = context.variants.find(({ name }) => name === rowAt.text)
  if (variant) return variant.values.map((value) => settled(value, { variant: variant.name, values: [value] }))
  const expression = parseExpression(rowAt.text)
  const names = expression.ok ? namesIn(expression.value) : []
  if (!names.some(({ name }) => context.readingUnits.has(baseOf(name)))) return [settled(rowAt.text, null)]
  const cells = table.rows.map((row) => parseLimit(row[place] ?? ''))
  const cellUnit = cells.flatMap((cell) => (cell.ok ? [cell.value.unit] : []))[0] ?? ''
  const typed = `as in table ${table.id}, column ${columnAt.text}, at ${rowAt.text}`
  const worked: WorkedLimit = {
    typed,
    lower: null,
    upper: null,
    table: { ...at, row: rowAt.text },
    unit: unitOf(unit ?? cellUnit, [], context),
  }
  return [{ limit: null, worked, only: null }]
}

function unknown(
  scalar: ScalarNode,
  message: string,
  known: readonly string[],
  context: LimitContext,
): readonly TableCase[] {
  const near = nearestName(scalar.text, known)
  const problem = {
    message: `${message} "${scalar.text}".`,
    advice: near
      ? `Did you mean "${near}"?`
      : known.length > 0
        ? `There is ${known.join(', ')}.`
        : 'Write it under tables.',
    from: 0,
    to: scalar.text.length,
  }
  reportLimit(scalar, problem, context)
  return []
}

/** What is known before anybody reads anything: the tables. */
function knownBefore({ tables }: LimitContext): ExpressionValues {
  return { values: new Map(), limits: new Map(), tables: new Map(tables.map((table) => [table.id, table])) }
}

/** The unit typed, else that of the first reading named, else that of the first figure with one. */
function unitOf(typed: string | null, expressions: readonly Expression[], context: LimitContext): string {
  const own = typed === null ? null : unitBySpelling(typed)
  if (own) return own.symbol
  for (const { name } of expressions.flatMap(namesIn)) {
    const unit = context.readingUnits.get(baseOf(name))
    if (unit) return unit
  }
  return expressions.flatMap(unitsIn)[0] ?? ''
}

function unitsIn(expression: Expression): readonly string[] {
  switch (expression.is) {
    case 'quantity':
      return expression.kind === 'number' || expression.kind === 'ratio' ? [] : [expression.unit]
    case 'negative':
      return unitsIn(expression.of)
    case 'arithmetic':
      return [...unitsIn(expression.left), ...unitsIn(expression.right)]
    case 'call':
      return expression.of.flatMap(unitsIn)
    default:
      return []
  }
}

const baseOf = (name: string): string => name.split('.')[0] ?? ''

/** The unit that each reading is written down in, by name; empty for plain numbers and for what has none. */
export function unitsOfReadings(
  readings: readonly (readonly [name: string, node: BlockNode])[],
): ReadonlyMap<string, string> {
  return new Map(
    readings.map(([name, node]): [string, string] => {
      const typed = textAt(node, 'unit')
      const limit = parseLimit(textAt(node, 'limit') ?? '')
      return [name, (typed === null ? null : unitBySpelling(typed)?.symbol) ?? (limit.ok ? limit.value.unit : '')]
    }),
  )
}
