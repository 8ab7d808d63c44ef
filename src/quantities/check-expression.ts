import { nearestName } from '../text/nearest-name.ts'
import type {
  ArithmeticNode,
  CallNode,
  ComparisonNode,
  Expression,
  ExpressionTable,
  InLimitNode,
  NameNode,
} from './expression.ts'
import { kindOfFunction } from './expression-functions.ts'
import { type ExpressionKind, isSameKind, kindOfProduct, kindOfSum, mixedKindsAdvice } from './expression-kinds.ts'
import { kindOfLookUp } from './look-up.ts'
import type { Parsed, QuantityKind, QuantityProblem } from './quantity-types.ts'
import type { Stretch } from './refusal.ts'
import { kindInWords } from './units.ts'

/** What a name stands for. Positions are names of their own: `l1`, `l1.left`, `l1.right`, `l1.all`. */
export interface NameInfo {
  readonly kind: ExpressionKind
  /** Of a check: that some of its answers pass. */
  readonly hasLimit: boolean
}

export interface ExpressionNames {
  readonly names: ReadonlyMap<string, NameInfo>
  readonly tables: ReadonlyMap<string, ExpressionTable>
}

export interface CheckedExpression {
  /** Null where something is wrong. */
  readonly kind: ExpressionKind | null
  readonly problems: readonly QuantityProblem[]
}

/** Everything the walk needs: what names mean, and where problems go. */
interface Walk extends ExpressionNames {
  readonly problems: QuantityProblem[]
}

const condition: ExpressionKind = { is: 'condition', isList: false }

/**
 * Works out the kind of an expression before anything is measured: unknown names, mixed kinds, comparisons without meaning.
 * A list of conditions stands for "every one of them" wherever one condition is wanted.
 */
export function checkExpression(expression: Expression, known: ExpressionNames): CheckedExpression {
  const walk: Walk = { ...known, problems: [] }
  const kind = kindOf(walk, expression)
  return { kind: walk.problems.length === 0 ? kind : null, problems: walk.problems }
}

function kindOf(walk: Walk, node: Expression): ExpressionKind | null {
  switch (node.is) {
    case 'quantity':
      return { is: 'quantity', kind: node.kind, isList: false }
    case 'quoted':
      return report(walk, 'Quotes hold an outcome, which stands beside `=`.', 'Type `oil-look = "water in oil"`.', node)
    case 'name':
      return kindOfName(walk, node)
    case 'negative':
      return kindOfNegative(walk, node.of)
    case 'not':
      return wantCondition(walk, node.of) && condition
    case 'logic': {
      const left = wantCondition(walk, node.left)
      const right = wantCondition(walk, node.right)
      return left && right && condition
    }
    case 'in-limit':
      return kindOfInLimit(walk, node)
    case 'comparison':
      return kindOfComparison(walk, node)
    case 'arithmetic':
      return kindOfArithmetic(walk, node)
    case 'call':
      return kindOfCall(walk, node)
    case 'lookup': {
      const keys = node.keys.map((key) => kindOf(walk, key)).filter((key) => key !== null)
      return keys.length < node.keys.length ? null : taken(walk, kindOfLookUp(walk.tables, node, keys))
    }
  }
}

function kindOfName(walk: Walk, node: NameNode): ExpressionKind | null {
  const name = node.which === 'all' && walk.names.has(`${node.name}.all`) ? `${node.name}.all` : node.name
  const info = walk.names.get(name)
  if (!info) return unknownName(walk, node)
  return node.which === 'all' ? { ...info.kind, isList: true } : info.kind
}

function unknownName(walk: Walk, node: NameNode): null {
  const known = [...walk.names.keys()]
  const message = `Nothing is called "${node.name}" here.`
  const minus = hiddenMinus(walk, node.name)
  if (minus) return report(walk, message, `Put blanks on both sides of a minus: \`${minus}\`.`, node)
  const positions = known.filter((name) => name.startsWith(`${node.name}.`))
  if (positions.length > 0)
    return report(
      walk,
      `"${node.name}" has several positions.`,
      `Type ${positions
        .slice(0, 4)
        .map((name) => `\`${name}\``)
        .join(' or ')}.`,
      node,
    )
  const near = nearestName(node.name, known)
  return report(
    walk,
    message,
    near ? `Did you mean \`${near}\`?` : 'Type the name of a reading, a count, a check or a state.',
    node,
  )
}

/** `l1-l2` is one name unless both halves are names. */
function hiddenMinus(walk: Walk, name: string): string | null {
  for (let at = name.indexOf('-'); at > 0; at = name.indexOf('-', at + 1)) {
    const [left, right] = [name.slice(0, at), name.slice(at + 1)]
    if (walk.names.has(left) && walk.names.has(right)) return `${left} - ${right}`
  }
  return null
}

function kindOfNegative(walk: Walk, of: Expression): ExpressionKind | null {
  const kind = wantQuantity(walk, of)
  if (kind?.kind !== 'temperature') return kind
  return report(
    walk,
    'A temperature read off a scale cannot be turned negative.',
    'Type a difference, such as `t2 - t1`.',
    of,
  )
}

function kindOfInLimit(walk: Walk, node: InLimitNode): ExpressionKind | null {
  const kind = kindOfName(walk, node.of)
  if (!kind) return null
  // The answers of a check pass or fail; a state or a variant has no such thing.
  if (kind.is === 'outcome' && walk.names.get(node.of.name)?.hasLimit) return { is: 'condition', isList: kind.isList }
  if (kind.is !== 'quantity')
    return report(
      walk,
      `"${node.of.name}" is no measured value, so it has no limit.`,
      'Compare it with an outcome: `… = good`.',
      node.of,
    )
  if (!walk.names.get(node.of.name)?.hasLimit)
    return report(
      walk,
      `"${node.of.name}" has no limit.`,
      'Give the reading a limit, or compare it with a value.',
      node.of,
    )
  return { is: 'condition', isList: kind.isList }
}

function kindOfComparison(walk: Walk, node: ComparisonNode): ExpressionKind | null {
  const left = kindOf(walk, node.left)
  if (!left) return null
  if (left.is === 'outcome') return kindOfOutcomeComparison(walk, node, left)
  if (left.is === 'condition')
    return report(
      walk,
      'A condition is not compared with anything.',
      'Join conditions by `and`, `or`, `not`.',
      node.left,
    )
  const right = kindOf(walk, node.right)
  if (!right) return null
  if (right.is === 'outcome')
    return report(walk, 'The outcome stands behind the `=`.', 'Type the name first: `bearing-look = good`.', node)
  if (right.is === 'condition')
    return report(
      walk,
      'A condition is not compared with anything.',
      'Join conditions by `and`, `or`, `not`.',
      node.right,
    )
  const kinds = [left.kind, right.kind].sort().join()
  const hasBareDegrees = [node.left, node.right].some((side) => side.is === 'quantity' && side.kind === 'temperature')
  const isDegreesOfDifference = kinds === 'temperature,temperature-difference' && hasBareDegrees
  if (!isSameKind(left.kind, right.kind) && !isDegreesOfDifference)
    return report(
      walk,
      `${capital(kindInWords(left.kind))} is compared with ${kindInWords(right.kind)}.`,
      mixedKindsAdvice(left.kind, right.kind),
      node,
    )
  return { is: 'condition', isList: left.isList || right.isList }
}

function kindOfOutcomeComparison(
  walk: Walk,
  node: ComparisonNode,
  left: ExpressionKind & { is: 'outcome' },
): ExpressionKind | null {
  if (node.operator !== '=') return report(walk, 'An outcome has no size.', 'Compare it with `=`.', node)
  const wanted =
    node.right.is === 'quoted'
      ? node.right.text
      : node.right.is === 'name' && node.right.which === 'latest'
        ? node.right.name
        : null
  if (wanted === null)
    return report(walk, 'An outcome is wanted behind the `=`.', `Type ${listed(left.outcomes)}.`, node.right)
  if (!left.outcomes.includes(wanted)) {
    const near = nearestName(wanted, left.outcomes)
    return report(
      walk,
      `"${wanted}" is none of its outcomes.`,
      near ? `Did you mean \`${near}\`?` : `Type ${listed(left.outcomes)}.`,
      node.right,
    )
  }
  return { is: 'condition', isList: left.isList }
}

function kindOfArithmetic(walk: Walk, node: ArithmeticNode): ExpressionKind | null {
  const left = wantQuantity(walk, node.left)
  const right = wantQuantity(walk, node.right)
  if (!left || !right) return null
  const { operator } = node
  const isSum = operator === '+' || operator === '-'
  const [a, b] = operator === '+' ? settleAddedDegrees(node, left.kind, right.kind) : [left.kind, right.kind]
  const kind = isSum ? kindOfSum(operator, a, b) : kindOfProduct(operator, a, b)
  if (kind !== null) return { is: 'quantity', kind, isList: left.isList || right.isList }
  const verb = { '+': 'added to', '-': 'taken from', '*': 'multiplied with', '/': 'divided by' }[operator]
  const [what, other] = isSum ? [b, a] : [a, b]
  return report(
    walk,
    `${capital(kindInWords(what))} cannot be ${verb} ${kindInWords(other)}.`,
    mixedKindsAdvice(what, other),
    node,
  )
}

/** `t1 + 5 °C`: the literal beside the plus can only be a difference. */
function settleAddedDegrees(
  node: ArithmeticNode,
  a: QuantityKind,
  b: QuantityKind,
): readonly [QuantityKind, QuantityKind] {
  if (a !== 'temperature' || b !== 'temperature') return [a, b]
  if (node.right.is === 'quantity') return [a, 'temperature-difference']
  return node.left.is === 'quantity' ? ['temperature-difference', b] : [a, b]
}

function kindOfCall(walk: Walk, node: CallNode): ExpressionKind | null {
  const kinds = node.of.map((of) => kindOf(walk, of))
  const known = kinds.filter((kind) => kind !== null)
  return known.length < kinds.length ? null : taken(walk, kindOfFunction(node, known))
}

function wantQuantity(walk: Walk, node: Expression): (ExpressionKind & { is: 'quantity' }) | null {
  const kind = kindOf(walk, node)
  if (!kind || kind.is === 'quantity') return kind
  return report(
    walk,
    kind.is === 'condition' ? 'A condition is no value.' : 'An outcome is no value.',
    'Type a measured value here.',
    node,
  )
}

function wantCondition(walk: Walk, node: Expression): (ExpressionKind & { is: 'condition' }) | null {
  const kind = kindOf(walk, node)
  if (!kind || kind.is === 'condition') return kind
  const advice =
    kind.is === 'outcome'
      ? `Compare it: \`… = ${kind.outcomes[0] ?? 'good'}\`.`
      : 'Compare it: `… in limit`, or `… > 3 mm`.'
  return report(walk, 'A condition is wanted here.', advice, node)
}

function listed(outcomes: readonly string[]): string {
  return outcomes.map((outcome) => `\`${outcome}\``).join(' or ')
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}

function taken(walk: Walk, kind: Parsed<ExpressionKind>): ExpressionKind | null {
  if (kind.ok) return kind.value
  walk.problems.push(kind.problem)
  return null
}

function report(walk: Walk, message: string, advice: string, at: Stretch): null {
  walk.problems.push({ message, advice, from: at.from, to: at.to })
  return null
}
