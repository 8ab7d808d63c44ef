import { fromBase, toBase } from './convert.ts'
import {
  type ArithmeticNode,
  asDifference,
  type CallNode,
  type ComparisonNode,
  type Expression,
  type InLimitNode,
  type LookUpNode,
  type NameNode,
  type QuantityNode,
} from './expression.ts'
import { valueOfFunction } from './expression-functions.ts'
import { isSameKind, kindOfProduct, kindOfSum, mixedKindsAdvice } from './expression-kinds.ts'
import {
  type ConditionValue,
  type ExpressionValue,
  type ExpressionValues,
  oneCondition,
  type QuantityValue,
} from './expression-values.ts'
import { judgeValue, uncertaintyAt } from './judge-reading.ts'
import { type LookUpValue, lookUp } from './look-up.ts'
import type { Parsed, Rational } from './quantity-types.ts'
import { add, compare, divide, isZero, multiply, negate, subtract, zero } from './rational.ts'
import { type Refusal, refusedAt, type Stretch } from './refusal.ts'
import { unitBySymbol } from './units.ts'

type Evaluated<T extends ExpressionValue = ExpressionValue> = Parsed<T>

/**
 * Works an expression out. It has been checked before; what only the readings show comes back as a problem:
 * a reading not yet taken, a division by zero, no row in a table, lists of different lengths.
 */
export function evaluateExpression(expression: Expression, known: ExpressionValues): Evaluated {
  switch (expression.is) {
    case 'quantity':
      return literal(expression)
    case 'quoted':
      return { ok: true, value: { is: 'outcome', items: [expression.text], isList: false } }
    case 'name':
      return valueOfName(expression, known)
    case 'negative':
      return negative(expression.of, known)
    case 'not':
      return mapped(condition(expression.of, known), (value) => oneCondition(!value.items.every(Boolean)))
    case 'logic':
      return logic(expression.operator, expression.left, expression.right, known)
    case 'in-limit':
      return inLimit(expression, known)
    case 'comparison':
      return comparison(expression, known)
    case 'arithmetic':
      return arithmetic(expression, known)
    case 'call':
      return call(expression, known)
    case 'lookup':
      return lookedUp(expression, known)
  }
}

function literal(node: QuantityNode): Evaluated<QuantityValue> {
  const unit = unitBySymbol(node.unit)
  if (!unit) return refusedAt(`"${node.unit}" is not a unit.`, 'Type a known unit.', node)
  return { ok: true, value: { is: 'quantity', kind: unit.kind, items: [toBase(node.value, unit)], isList: false } }
}

function valueOfName(node: NameNode, known: ExpressionValues): Evaluated {
  const name = node.which === 'all' && known.values.has(`${node.name}.all`) ? `${node.name}.all` : node.name
  const named = known.values.get(name)
  const value = node.which === 'previous' || node.which === 'first' ? named?.[node.which] : named?.latest
  if (value) return { ok: true, value: node.which === 'all' ? { ...value, isList: true } : value }
  const which = node.which === 'previous' ? 'earlier ' : node.which === 'first' ? 'first ' : ''
  return refusedAt(`There is no ${which}reading of "${node.name}" yet.`, 'Take it first.', node)
}

function negative(of: Expression, known: ExpressionValues): Evaluated {
  const value = quantity(of, known)
  if (!value.ok) return value
  if (value.value.kind === 'temperature')
    return refusedAt('A temperature read off a scale cannot be turned negative.', 'Type a difference.', of)
  return { ok: true, value: { ...value.value, items: value.value.items.map(negate) } }
}

function logic(
  operator: 'and' | 'or',
  leftNode: Expression,
  rightNode: Expression,
  known: ExpressionValues,
): Evaluated {
  const left = condition(leftNode, known)
  if (!left.ok) return left
  const isLeftTrue = left.value.items.every(Boolean)
  // What is already decided does not wait for a reading that is not needed.
  if (isLeftTrue === (operator === 'or')) return { ok: true, value: oneCondition(isLeftTrue) }
  return mapped(condition(rightNode, known), (right) => oneCondition(right.items.every(Boolean)))
}

function inLimit(node: InLimitNode, known: ExpressionValues): Evaluated {
  const named = valueOfName(node.of, known)
  if (!named.ok) return named
  if (named.value.is === 'outcome') return hasPassed(node, named.value.items, named.value.isList, known)
  const value = quantity(node.of, known)
  if (!value.ok) return value
  const limit = known.limits.get(node.of.name)
  const unit = limit ? unitBySymbol(limit.unit) : null
  if (!limit || !unit || !isSameKind(unit.kind, value.value.kind))
    return refusedAt(`"${node.of.name}" has no limit.`, 'Give the reading a limit.', node)
  const uncertainty = known.uncertainties?.get(node.of.name)
  const items = value.value.items.map((item) => {
    const read = fromBase(item, unit)
    return judgeValue(limit, read, uncertaintyAt(uncertainty, read, limit.unit)).verdict === 'in'
  })
  return { ok: true, value: { is: 'condition', items, isList: value.value.isList } }
}

/** A check is in limit where its answer is one that passes. */
function hasPassed(node: InLimitNode, answers: readonly string[], isList: boolean, known: ExpressionValues): Evaluated {
  const passes = known.passes?.get(node.of.name)
  if (!passes) return refusedAt(`"${node.of.name}" has no limit.`, 'Compare it with one of its answers.', node)
  return { ok: true, value: { is: 'condition', items: answers.map((answer) => passes.includes(answer)), isList } }
}

function comparison(node: ComparisonNode, known: ExpressionValues): Evaluated {
  const left = evaluateExpression(node.left, known)
  if (!left.ok) return left
  if (left.value.is === 'outcome') return outcomeComparison(node, left.value.items, left.value.isList)
  const right = quantity(node.right, known)
  if (!right.ok) return right
  if (left.value.is !== 'quantity') return notAValue(node.left)
  const [a, b] = settleComparedDegrees(node, left.value, right.value)
  if (!isSameKind(a.kind, b.kind))
    return refusedAt('Values of different kinds are compared.', mixedKindsAdvice(a.kind, b.kind), node)
  const isTrue = (one: Rational, other: Rational) => {
    const order = compare(one, other)
    return { '=': order === 0, '<': order < 0, '>': order > 0, '<=': order <= 0, '>=': order >= 0 }[node.operator]
  }
  const items = paired(a.items, b.items, isTrue)
  if (!items) return unequalLists(node)
  return { ok: true, value: { is: 'condition', items, isList: a.isList || b.isList } }
}

function outcomeComparison(node: ComparisonNode, outcomes: readonly string[], isList: boolean): Evaluated {
  const { right } = node
  const wanted = right.is === 'quoted' ? right.text : right.is === 'name' ? right.name : null
  if (wanted === null || node.operator !== '=')
    return refusedAt('An outcome is compared by `=` with one of its outcomes.', 'Type `bearing-look = good`.', node)
  return { ok: true, value: { is: 'condition', items: outcomes.map((outcome) => outcome === wanted), isList } }
}

/** `t2 - t1 < 5 °C`: the literal is a difference where the other side is one. */
function settleComparedDegrees(
  node: ComparisonNode,
  left: QuantityValue,
  right: QuantityValue,
): readonly [QuantityValue, QuantityValue] {
  if (left.kind === 'temperature-difference' && right.kind === 'temperature')
    return [left, asDegrees(node.right, right)]
  if (left.kind === 'temperature' && right.kind === 'temperature-difference') return [asDegrees(node.left, left), right]
  return [left, right]
}

function arithmetic(node: ArithmeticNode, known: ExpressionValues): Evaluated {
  const left = quantity(node.left, known)
  if (!left.ok) return left
  const right = quantity(node.right, known)
  if (!right.ok) return right
  const { operator } = node
  const [a, b] = operator === '+' ? settleAddedDegrees(node, left.value, right.value) : [left.value, right.value]
  const isSum = operator === '+' || operator === '-'
  const kind = isSum ? kindOfSum(operator, a.kind, b.kind) : kindOfProduct(operator, a.kind, b.kind)
  if (kind === null)
    return refusedAt('These kinds of values do not go together.', mixedKindsAdvice(a.kind, b.kind), node)
  if (operator === '/' && b.items.some(isZero))
    return refusedAt('This divides by zero.', 'Check the reading below the line.', node.right)
  const work = { '+': add, '-': subtract, '*': multiply, '/': divide }[operator]
  const items = paired(a.items, b.items, work)
  return items ? { ok: true, value: { is: 'quantity', kind, items, isList: a.isList || b.isList } } : unequalLists(node)
}

/** `t1 + 5 °C`: the literal beside the plus can only be a difference. */
function settleAddedDegrees(
  node: ArithmeticNode,
  a: QuantityValue,
  b: QuantityValue,
): readonly [QuantityValue, QuantityValue] {
  if (a.kind !== 'temperature' || b.kind !== 'temperature') return [a, b]
  return node.right.is === 'quantity' ? [a, asDegrees(node.right, b)] : [asDegrees(node.left, a), b]
}

/** A typed temperature as a difference; values that were measured stay what they are. */
function asDegrees(node: Expression, value: QuantityValue): QuantityValue {
  if (node.is !== 'quantity') return value
  const difference = literal(asDifference(node))
  return difference.ok ? difference.value : value
}

function call(node: CallNode, known: ExpressionValues): Evaluated {
  const values: ExpressionValue[] = []
  for (const of of node.of) {
    const value = evaluateExpression(of, known)
    if (!value.ok) return value
    values.push(value.value)
  }
  return valueOfFunction(node, values)
}

function lookedUp(node: LookUpNode, known: ExpressionValues): Evaluated {
  const keys: LookUpValue[] = []
  for (const key of node.keys) {
    const value = evaluateExpression(key, known)
    if (!value.ok) return value
    const found = lookUpKey(value.value)
    if (!found)
      return refusedAt('A table is looked up by one value at a time.', 'Type one reading, such as `l1.left`.', key)
    keys.push(found)
  }
  return mapped(
    lookUp(known.tables, node, keys),
    (found): ExpressionValue =>
      found.is === 'outcome'
        ? { is: 'outcome', items: [found.text], isList: false }
        : { is: 'quantity', kind: found.kind, items: [found.base], isList: false },
  )
}

function lookUpKey(value: ExpressionValue): LookUpValue | null {
  if (value.items.length !== 1) return null
  if (value.is === 'outcome') return { is: 'outcome', text: value.items[0] ?? '' }
  const base = value.is === 'quantity' ? value.items[0] : undefined
  return base && value.is === 'quantity' ? { is: 'quantity', kind: value.kind, base } : null
}

function quantity(node: Expression, known: ExpressionValues): Evaluated<QuantityValue> {
  const value = evaluateExpression(node, known)
  if (!value.ok) return value
  return value.value.is === 'quantity' ? { ok: true, value: value.value } : notAValue(node)
}

function condition(node: Expression, known: ExpressionValues): Evaluated<ConditionValue> {
  const value = evaluateExpression(node, known)
  if (!value.ok) return value
  if (value.value.is === 'condition') return { ok: true, value: value.value }
  return refusedAt('A condition is wanted here.', 'Compare the value with something.', node)
}

/** Item by item; a single one goes with every item of the other side. Null where two lists differ in length. */
function paired<T>(
  left: readonly Rational[],
  right: readonly Rational[],
  work: (a: Rational, b: Rational) => T,
): readonly T[] | null {
  const [onlyLeft, onlyRight] = [left[0], right[0]]
  if (left.length === 1 && onlyLeft) return right.map((item) => work(onlyLeft, item))
  if (right.length === 1 && onlyRight) return left.map((item) => work(item, onlyRight))
  if (left.length !== right.length) return null
  return left.map((item, index) => work(item, right[index] ?? zero))
}

function mapped<A, B>(value: Parsed<A>, change: (value: A) => B): Parsed<B> {
  return value.ok ? { ok: true, value: change(value.value) } : value
}

function notAValue(at: Stretch): Refusal {
  return refusedAt('A measured value is wanted here.', 'Type the name of a reading.', at)
}

function unequalLists(at: Stretch): Refusal {
  return refusedAt(
    'The two readings have different numbers of positions.',
    'Use readings with the same positions, or `mean(…)`.',
    at,
  )
}
