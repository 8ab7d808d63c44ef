import type { CallNode } from './expression.ts'
import { type ExpressionKind, isSameKind, mixedKindsAdvice } from './expression-kinds.ts'
import { type ExpressionValue, oneCondition, type QuantityValue } from './expression-values.ts'
import type { Parsed, QuantityKind, Rational } from './quantity-types.ts'
import { absolute, add, compare, divide, larger, rational, smaller, subtract, zero } from './rational.ts'
import { type Refusal, refusedAt } from './refusal.ts'
import { kindInWords } from './units.ts'

/**
 * The functions of the language, first by kind, then by value:
 *
 *     abs(a)   clamp(a, low, high)          item by item
 *     min max mean sum span (a, b, …)       over every item of every argument; span = largest − smallest
 *     any all count (conditions)            count of readings counts the readings
 */

type QuantityKindOf = ExpressionKind & { is: 'quantity' }

/** The kind of a call whose arguments have these kinds. */
export function kindOfFunction(node: CallNode, kinds: readonly ExpressionKind[]): Parsed<ExpressionKind> {
  if (kinds.length === 0) return refusedAt(`"${node.name}" has nothing to work on.`, `Type \`${node.name}(l1)\`.`, node)
  if (node.name === 'count') return kindOfCount(node, kinds)
  const wantsConditions = node.name === 'any' || node.name === 'all'
  const wrong = kinds.findIndex((kind) => kind.is !== (wantsConditions ? 'condition' : 'quantity'))
  const wrongNode = node.of[wrong]
  if (wrongNode && wantsConditions)
    return refusedAt(`"${node.name}" takes conditions.`, `Type \`${node.name}(l1 < 3 mm)\`.`, wrongNode)
  if (wrongNode) return refusedAt(`"${node.name}" takes measured values.`, 'Type the name of a reading.', wrongNode)
  if (wantsConditions) return { ok: true, value: { is: 'condition', isList: false } }
  return kindOfNumbers(node, kinds as readonly QuantityKindOf[])
}

/** The value of a call; the kinds are checked again, so that nothing unchecked slips through. */
export function valueOfFunction(node: CallNode, values: readonly ExpressionValue[]): Parsed<ExpressionValue> {
  const kinds = values.map(kindOfValue)
  const kind = kindOfFunction(node, kinds)
  if (!kind.ok) return kind
  const conditions = values.flatMap((value) => (value.is === 'condition' ? value.items : []))
  if (node.name === 'any') return { ok: true, value: oneCondition(conditions.some(Boolean)) }
  if (node.name === 'all') return { ok: true, value: oneCondition(conditions.every(Boolean)) }
  if (node.name === 'count') {
    const isOfConditions = values.every((value) => value.is === 'condition')
    const readings = values.reduce((total, value) => total + value.items.length, 0)
    const total = isOfConditions ? conditions.filter(Boolean).length : readings
    return { ok: true, value: { is: 'quantity', kind: 'number', items: [rational(total)], isList: false } }
  }
  const quantities = values.filter((value): value is QuantityValue => value.is === 'quantity')
  return valueOfNumbers(node, quantities, kind.value.is === 'quantity' ? kind.value.kind : 'number')
}

function kindOfValue(value: ExpressionValue): ExpressionKind {
  switch (value.is) {
    case 'quantity':
      return { is: 'quantity', kind: value.kind, isList: value.isList }
    case 'condition':
      return { is: 'condition', isList: value.isList }
    case 'outcome':
      return { is: 'outcome', outcomes: value.items, isList: value.isList }
  }
}

function kindOfCount(node: CallNode, kinds: readonly ExpressionKind[]): Parsed<ExpressionKind> {
  if (new Set(kinds.map((kind) => kind.is)).size > 1)
    return refusedAt('"count" takes conditions or readings, not both.', 'Type `count(l1 < 3 mm)`.', node)
  return { ok: true, value: { is: 'quantity', kind: 'number', isList: false } }
}

function kindOfNumbers(node: CallNode, kinds: readonly QuantityKindOf[]): Parsed<ExpressionKind> {
  const [first] = kinds
  if (!first) return refusedAt(`"${node.name}" has nothing to work on.`, 'Type the name of a reading.', node)
  const odd = kinds.findIndex((kind) => !isSameKind(kind.kind, first.kind))
  const oddKind = kinds[odd]
  if (oddKind)
    return refusedAt(
      `${kindInWords(oddKind.kind)} stands beside ${kindInWords(first.kind)}.`.replace(/^a/, 'A'),
      mixedKindsAdvice(first.kind, oddKind.kind),
      node.of[odd] ?? node,
    )
  const refusal = wrongUse(node, first.kind)
  if (refusal) return refusal
  if (node.name === 'abs' || node.name === 'clamp') return { ok: true, value: first }
  const isTemperatureSpan = node.name === 'span' && first.kind === 'temperature'
  return {
    ok: true,
    value: { is: 'quantity', kind: isTemperatureSpan ? 'temperature-difference' : first.kind, isList: false },
  }
}

function wrongUse(node: CallNode, kind: QuantityKind): Refusal | null {
  if (node.name === 'abs' && node.of.length !== 1)
    return refusedAt('"abs" takes one value.', 'Type `abs(a - b)`.', node)
  if (node.name === 'abs' && kind === 'temperature')
    return refusedAt('A temperature read off a scale has no size without its sign.', 'Type `abs(t2 - t1)`.', node)
  if (node.name === 'clamp' && node.of.length !== 3)
    return refusedAt('"clamp" takes a value, the lowest and the highest.', 'Type `clamp(x, 1 mm, 3 mm)`.', node)
  if (node.name === 'sum' && kind === 'temperature')
    return refusedAt('Temperatures have no sum.', 'Type `mean(…)`.', node)
  return null
}

function valueOfNumbers(node: CallNode, values: readonly QuantityValue[], kind: QuantityKind): Parsed<ExpressionValue> {
  const [first] = values
  const all = values.flatMap((value) => value.items)
  if (!first || all.length === 0)
    return refusedAt(`"${node.name}" has nothing to work on.`, 'Take the readings first.', node)
  const one = (value: Rational): Parsed<ExpressionValue> => ({
    ok: true,
    value: { is: 'quantity', kind, items: [value], isList: false },
  })
  switch (node.name) {
    case 'abs':
      return { ok: true, value: { ...first, items: first.items.map(absolute) } }
    case 'clamp':
      return clamped(node, first, values)
    case 'min':
      return one(all.reduce(smaller))
    case 'max':
      return one(all.reduce(larger))
    case 'sum':
      return one(all.reduce(add, zero))
    case 'mean':
      return one(divide(all.reduce(add, zero), rational(all.length)))
    default:
      return one(subtract(all.reduce(larger), all.reduce(smaller)))
  }
}

function clamped(node: CallNode, value: QuantityValue, values: readonly QuantityValue[]): Parsed<ExpressionValue> {
  const [low, high] = [values[1]?.items[0], values[2]?.items[0]]
  if (!low || !high || compare(low, high) > 0)
    return refusedAt('"clamp" wants the lowest before the highest.', 'Type `clamp(x, 1 mm, 3 mm)`.', node)
  return { ok: true, value: { ...value, items: value.items.map((item) => smaller(larger(item, low), high)) } }
}
