import { toBase } from './convert.ts'
import {
  asDifference,
  type CallNode,
  type ComparisonNode,
  type Expression,
  type InLimitNode,
  type NameNode,
  namesIn,
} from './expression.ts'
import type { Limit, QuantityKind, Rational } from './quantity-types.ts'
import { add, compare, divide, isZero, multiply, negate, one, subtract, zero } from './rational.ts'
import { unitBySymbol } from './units.ts'

/** What a name in a condition can turn out to be. `places` is how many readings it stands for. */
export type Domain =
  | {
      readonly is: 'line'
      readonly kind: QuantityKind
      readonly places: number
      /** Whole numbers only. */
      readonly isWhole: boolean
      /** Ends that it cannot pass, in the base unit; null where there is none. */
      readonly lowest: Rational | null
      readonly highest: Rational | null
      /** What it can only be here, because the work went another way otherwise. */
      readonly only: Limit | null
      /** What `in limit` means for it; null where only the bench can say. */
      readonly limit: Limit | null
    }
  | {
      readonly is: 'choices'
      readonly values: readonly string[]
      readonly passes: readonly string[]
      readonly places: number
    }

export interface NamedDomain {
  readonly domain: Domain
  /** Names of everything it depends on, its own first: two subjects that share one are not independent. */
  readonly restsOn: readonly string[]
}

/** A quantity, or an answer, that conditions ask about. */
export interface Subject {
  readonly key: string
  /** As the author would say it. */
  readonly label: string
  readonly domain: Domain
  readonly restsOn: readonly string[]
}

export type Operator = ComparisonNode['operator']

/** One question about one subject. Of several readings, `every` or `some` must fit. */
export type Leaf = { readonly subject: string; readonly of: 'every' | 'some' } & (
  | { readonly is: 'compared'; readonly operator: Operator; readonly value: Rational; readonly cut: Cut }
  | { readonly is: 'within'; readonly limit: Limit }
  | { readonly is: 'among'; readonly values: readonly string[] }
)

/** A value at which an answer changes, as it was typed; empty where it was worked out. */
export interface Cut {
  readonly typed: string
  readonly unit: string
}

export type Logic =
  | { readonly is: 'always'; readonly holds: boolean }
  | { readonly is: 'leaf'; readonly leaf: Leaf }
  | { readonly is: 'not'; readonly of: Logic }
  | { readonly is: 'and' | 'or'; readonly of: readonly Logic[] }

export interface LeafContext {
  readonly text: string
  readonly domainOf: (node: NameNode) => NamedDomain | null
  /** Collected on the way, by key. */
  readonly subjects: Map<string, Subject>
}

/** A condition as questions about single subjects; null where it is beyond that. */
export function leavesOf(node: Expression, context: LeafContext): Logic | null {
  switch (node.is) {
    case 'logic': {
      const left = leavesOf(node.left, context)
      const right = leavesOf(node.right, context)
      return left && right && { is: node.operator, of: [left, right] }
    }
    case 'not': {
      const of = leavesOf(node.of, context)
      return of && { is: 'not', of }
    }
    case 'in-limit':
      return inLimit(node, 'every', context)
    case 'comparison':
      return comparison(node, 'every', context)
    case 'call':
      return quantified(node, context)
    default:
      return null
  }
}

/** `any(l1 > 3 mm)`, `all(…)`. */
function quantified(node: CallNode, context: LeafContext): Logic | null {
  if (node.name !== 'any' && node.name !== 'all') return null
  const of = node.name === 'any' ? 'some' : 'every'
  const parts = node.of.map((part) => {
    if (part.is === 'comparison') return comparison(part, of, context)
    return part.is === 'in-limit' ? inLimit(part, of, context) : leavesOf(part, context)
  })
  if (parts.some((part) => part === null)) return null
  return { is: node.name === 'any' ? 'or' : 'and', of: parts.filter((part) => part !== null) }
}

function inLimit({ of: node }: InLimitNode, of: Leaf['of'], context: LeafContext): Logic | null {
  const named = context.domainOf(node)
  if (!named) return null
  const { domain } = named
  const key = keyOf(node)
  if (domain.is === 'choices') {
    if (domain.passes.length === 0) return null
    return leaf({ is: 'among', values: domain.passes, of, subject: enter(context, key, key, named) })
  }
  if (domain.limit) return leaf({ is: 'within', limit: domain.limit, of, subject: enter(context, key, key, named) })
  // The limit is worked out at the bench: all that is known is that the reading is in it or not.
  const answer: NamedDomain = {
    ...named,
    domain: { is: 'choices', values: ['in limit', 'out of limit'], passes: ['in limit'], places: domain.places },
  }
  return leaf({ is: 'among', values: ['in limit'], of, subject: enter(context, `${key} in limit`, key, answer) })
}

function comparison(node: ComparisonNode, of: Leaf['of'], context: LeafContext): Logic | null {
  const { left, right, operator } = node
  const asked = left.is === 'name' ? context.domainOf(left) : null
  if (left.is === 'name' && asked?.domain.is === 'choices') {
    const wanted = right.is === 'quoted' ? right.text : right.is === 'name' ? right.name : null
    if (wanted === null || operator !== '=' || !asked.domain.values.includes(wanted)) return null
    const key = keyOf(left)
    return leaf({ is: 'among', values: [wanted], of, subject: enter(context, key, key, asked) })
  }
  return compared(left, operator, right, of, context)
}

const mirrored: Readonly<Record<Operator, Operator>> = { '=': '=', '<': '>', '>': '<', '<=': '>=', '>=': '<=' }

/** `left` against `right`; calls whose meaning on a line is plain are written out first. */
function compared(
  left: Expression,
  operator: Operator,
  right: Expression,
  of: Leaf['of'],
  context: LeafContext,
): Logic | null {
  const opened = openCall(left, operator, right, of, context) ?? openCall(right, mirrored[operator], left, of, context)
  if (opened) return opened
  const [a, b] = settleDegrees(left, right, context)
  const sum = linearOf(a, context)
  const other = linearOf(b, context)
  if (!sum || !other) return null
  const terms = collect([...sum.terms, ...other.terms.map((term) => ({ ...term, factor: negate(term.factor) }))])
  const constant = subtract(other.constant, sum.constant)
  const [first, ...more] = terms
  if (!first) return { is: 'always', holds: holdsFor(zero, operator, constant) }
  const value = divide(constant, first.factor)
  const side = first.factor.numerator < 0n ? mirrored[operator] : operator
  const cut = cutOf(a, context) ?? cutOf(b, context) ?? { typed: '', unit: '' }
  if (more.length === 0) {
    const typed =
      compare(first.factor, one) === 0 && isZero(multiply(sum.constant, other.constant)) ? cut : { ...cut, typed: '' }
    return leaf({
      is: 'compared',
      operator: side,
      value,
      cut: typed,
      of,
      subject: enter(context, first.key, first.label, first.named),
    })
  }
  return leaf({
    is: 'compared',
    operator: side,
    value,
    cut: { ...cut, typed: '' },
    of,
    subject: enterSum(context, terms),
  })
}

/** `max(a, b) < c` is both below; `abs(a) > c` is above `c` or below `-c`. Null where there is nothing to write out. */
function openCall(
  call: Expression,
  operator: Operator,
  other: Expression,
  of: Leaf['of'],
  context: LeafContext,
): Logic | null {
  if (call.is !== 'call' || namesIn(other).length > 0) return null
  if (call.name === 'abs' && call.of[0]) {
    const inside = call.of[0]
    const below: Expression = { is: 'negative', of: other, from: other.from, to: other.to }
    const high = compared(inside, operator, other, of, context)
    const low = compared(inside, mirrored[operator], below, of, context)
    const size = linearOf(other, context)
    // `abs(a) = c` is a point on either side; below nothing there is no size.
    if (!high || !low || of === 'some' || operator === '=' || !size || size.constant.numerator < 0n) return null
    const isBelow = operator === '<' || operator === '<='
    // Of several readings some may lie above and some below: then neither side holds for every one.
    return isBelow || placesOf(inside, context) === 1 ? { is: isBelow ? 'and' : 'or', of: [high, low] } : null
  }
  if ((call.name !== 'max' && call.name !== 'min') || operator === '=') return null
  const isEvery = (call.name === 'max') === (operator === '<' || operator === '<=')
  const parts = call.of.map((part) => compared(part, operator, other, isEvery ? 'every' : 'some', context))
  if (parts.some((part) => part === null)) return null
  return { is: isEvery ? 'and' : 'or', of: parts.filter((part) => part !== null) }
}

interface Term {
  readonly key: string
  readonly label: string
  readonly named: NamedDomain
  readonly factor: Rational
}

interface Linear {
  readonly terms: readonly Term[]
  /** In the base unit. */
  readonly constant: Rational
}

/** A sum of subjects with exact factors; what is no sum is a subject of its own. Null where a name is not known. */
function linearOf(node: Expression, context: LeafContext): Linear | null {
  switch (node.is) {
    case 'quantity': {
      const unit = unitBySymbol(node.unit)
      return unit && { terms: [], constant: toBase(node.value, unit) }
    }
    case 'name': {
      const named = context.domainOf(node)
      if (named?.domain.is !== 'line') return null
      const key = keyOf(node)
      return { terms: [{ key, label: key, named, factor: one }], constant: zero }
    }
    case 'negative': {
      const of = linearOf(node.of, context)
      return of && scaled(of, negate(one))
    }
    case 'arithmetic': {
      const left = linearOf(addedDegrees(node.left, node.operator), context)
      const right = linearOf(addedDegrees(node.right, node.operator), context)
      if (!left || !right) return null
      if (node.operator === '+') return sumOf(left, right)
      if (node.operator === '-') return sumOf(left, scaled(right, negate(one)))
      if (right.terms.length === 0 && node.operator === '*') return scaled(left, right.constant)
      if (right.terms.length === 0 && !isZero(right.constant)) return scaled(left, divide(one, right.constant))
      if (left.terms.length === 0 && node.operator === '*') return scaled(right, left.constant)
      return opaque(node, context)
    }
    case 'call':
    case 'lookup':
      return opaque(node, context)
    default:
      return null
  }
}

/** Something worked out of readings in a way that is no sum: a line of its own. */
function opaque(node: Expression, context: LeafContext): Linear | null {
  const names = namesIn(node).map(context.domainOf)
  if (names.some((named) => named === null)) return null
  const label = context.text.slice(node.from, node.to)
  const counts = node.is === 'call' && node.name === 'count'
  const neverBelow = counts || (node.is === 'call' && (node.name === 'abs' || node.name === 'span'))
  const named: NamedDomain = {
    domain: {
      is: 'line',
      kind: counts ? 'number' : '',
      places: keepsPlaces(node) ? placesOf(node, context) : 1,
      isWhole: counts,
      lowest: neverBelow ? zero : null,
      highest: null,
      only: null,
      limit: null,
    },
    restsOn: [label, ...names.flatMap((one) => one?.restsOn ?? [])],
  }
  return { terms: [{ key: label, label, named, factor: one }], constant: zero }
}

/** How many values an expression has: as many as its readings have places. */
function placesOf(node: Expression, context: LeafContext): number {
  return Math.max(1, ...namesIn(node).map((name) => context.domainOf(name)?.domain.places ?? 1))
}

/** `abs(l1)` has a value for each place; `mean(l1)` has one. */
function keepsPlaces(node: Expression): boolean {
  return node.is === 'arithmetic' || (node.is === 'call' && (node.name === 'abs' || node.name === 'clamp'))
}

function scaled({ terms, constant }: Linear, factor: Rational): Linear {
  return {
    terms: terms.map((term) => ({ ...term, factor: multiply(term.factor, factor) })),
    constant: multiply(constant, factor),
  }
}

const sumOf = (a: Linear, b: Linear): Linear => ({
  terms: [...a.terms, ...b.terms],
  constant: add(a.constant, b.constant),
})

/** Terms of one subject put together, in the order of their keys, those that cancel out left out. */
function collect(terms: readonly Term[]): readonly Term[] {
  const byKey = new Map<string, Term>()
  for (const term of terms) {
    const before = byKey.get(term.key)
    byKey.set(term.key, before ? { ...before, factor: add(before.factor, term.factor) } : term)
  }
  return [...byKey.values()].filter(({ factor }) => !isZero(factor)).sort((a, b) => (a.key < b.key ? -1 : 1))
}

/** Several subjects that are only ever compared together: `l1 - l2` is a line of its own. */
function enterSum(context: LeafContext, terms: readonly Term[]): string {
  const leading = terms[0]?.factor ?? one
  const parts = terms.map(({ label, factor }) => ({ label, share: divide(factor, leading) }))
  const key = parts.map(({ label, share }) => `${share.numerator}/${share.denominator} ${label}`).join(' ')
  const label = parts
    .map(({ label: name, share }, index) => {
      const sign = share.numerator < 0n ? '- ' : index > 0 ? '+ ' : ''
      const size = {
        numerator: share.numerator < 0n ? -share.numerator : share.numerator,
        denominator: share.denominator,
      }
      const times =
        compare(size, one) === 0 ? '' : `${size.numerator}${size.denominator === 1n ? '' : `/${size.denominator}`} * `
      return `${sign}${times}${name}`
    })
    .join(' ')
  const places = Math.max(...terms.map(({ named }) => named.domain.places))
  const domain: Domain = {
    is: 'line',
    kind: '',
    places,
    isWhole: false,
    lowest: null,
    highest: null,
    only: null,
    limit: null,
  }
  return enter(context, key, label, { domain, restsOn: [key, ...terms.flatMap(({ named }) => named.restsOn)] })
}

function enter(context: LeafContext, key: string, label: string, { domain, restsOn }: NamedDomain): string {
  if (!context.subjects.has(key)) context.subjects.set(key, { key, label, domain, restsOn })
  return key
}

const leaf = (of: Leaf): Logic => ({ is: 'leaf', leaf: of })

export function keyOf({ name, which }: NameNode): string {
  if (which === 'latest') return name
  return which === 'all' ? `all ${name}` : `${which}(${name})`
}

/** `t2 - t1 < 5 °C`, `rise < 5 °C`: the figure is a difference where the other side is one. */
function settleDegrees(left: Expression, right: Expression, context: LeafContext): readonly [Expression, Expression] {
  const settle = (figure: Expression, other: Expression): Expression =>
    figure.is === 'quantity' && figure.kind === 'temperature' && isDifference(other, context)
      ? asDifference(figure)
      : figure
  return [settle(left, right), settle(right, left)]
}

/** `t1 + 5 °C`: a temperature that is added can only be a difference. */
function addedDegrees(node: Expression, operator: string): Expression {
  return operator === '+' && node.is === 'quantity' && node.kind === 'temperature' ? asDifference(node) : node
}

function isDifference(node: Expression, context: LeafContext): boolean {
  if (node.is === 'name') {
    const domain = context.domainOf(node)?.domain
    return domain?.is === 'line' && domain.kind === 'temperature-difference'
  }
  return node.is === 'arithmetic' && node.operator === '-'
}

/** The figure of one side, as it was typed. */
function cutOf(node: Expression, context: LeafContext): Cut | null {
  if (node.is === 'negative') {
    const cut = cutOf(node.of, context)
    return cut && { ...cut, typed: '' }
  }
  if (node.is !== 'quantity') return null
  const typed = context.text.slice(node.from, node.to)
  return { typed: /^[-−]?\s*[\d.]+/.exec(typed)?.[0]?.trim() ?? '', unit: node.unit }
}

export function holdsFor(value: Rational, operator: Operator, other: Rational): boolean {
  const order = compare(value, other)
  return { '=': order === 0, '<': order < 0, '>': order > 0, '<=': order <= 0, '>=': order >= 0 }[operator]
}
