import type { Phase, Step } from '../../../src/model/procedure.ts'
import type { Reading } from '../../../src/model/readings.ts'
import { convertValue } from '../../../src/quantities/convert.ts'
import type { ComparisonNode, Expression, NameNode, QuantityNode } from '../../../src/quantities/expression.ts'
import { namesIn } from '../../../src/quantities/expression.ts'
import { parseExpression } from '../../../src/quantities/parse-expression.ts'
import type { Rational } from '../../../src/quantities/quantity-types.ts'
import {
  add,
  compare,
  divide,
  fromExactText,
  negate,
  one,
  rational,
  subtract,
  toExactText,
} from '../../../src/quantities/rational.ts'
import { applies, type Facts, flat, idHere, isWithin, positionsOf } from './facts.ts'
import { type Situation, without } from './situation.ts'

/** Where a condition stands: names mean this position. */
export interface Here {
  readonly positions: readonly string[]
}

export interface Answered {
  readonly value: boolean
  readonly situation: Situation
}

export function hereOf(step: Step | null, phase: Phase | undefined): Here {
  return { positions: positionsOf(step, phase) }
}

const readBefore = new Map<string, Expression | null>()

function parsed(text: string): Expression | null {
  const before = readBefore.get(text)
  if (before !== undefined) return before
  const read = parseExpression(text)
  const expression = read.ok ? read.value : null
  readBefore.set(text, expression)
  return expression
}

function allReadings(facts: Facts): readonly Reading[] {
  return facts.steps.flatMap((step) => step.readings)
}

/** The readings that a name means here, as ids. */
export function readingsNamed(name: string, here: Here, facts: Facts): readonly string[] {
  const [base, ...rest] = name.split('.')
  const ids = [
    ...new Set(
      allReadings(facts)
        .filter((reading) => reading.name === base)
        .map((reading) => reading.id),
    ),
  ]
  if (ids.length === 0) return []
  const wanted = [...rest, ...here.positions].map((position) => `${base}@${position}`)
  const exact = wanted.find((id) => ids.includes(id)) ?? (ids.includes(base ?? '') ? base : undefined)
  return exact === undefined ? ids : [exact]
}

/** Ids of the readings that a condition or formula looks at. */
export function readingsLookedAt(text: string, here: Here, facts: Facts): readonly string[] {
  const expression = parsed(text)
  if (expression === null) return []
  return [...new Set(namesIn(expression).flatMap((name) => readingsNamed(name.name, here, facts)))]
}

/** What a reading is worked out of, and what its limit is worked out of. */
export function formulasOf({ expression, workedLimit }: Reading): readonly string[] {
  return [expression, workedLimit?.lower?.expression, workedLimit?.upper?.expression].flatMap((text) => text ?? [])
}

/** Every condition and formula with the place where it stands. */
function everyExpression(facts: Facts): readonly { readonly text: string; readonly here: Here }[] {
  const { procedure } = facts
  return procedure.phases.flatMap((phase) => [
    ...[phase.when, phase.until?.condition ?? null].flatMap((text) =>
      text === null ? [] : [{ text, here: hereOf(null, phase) }],
    ),
    ...flat(phase.steps).flatMap((step) =>
      [
        step.when,
        ...step.readings.flatMap(formulasOf),
        ...(step.decide?.branches.map((branch) => branch.when) ?? []),
      ].flatMap((text) => (text === null ? [] : [{ text, here: hereOf(step, phase) }])),
    ),
  ])
}

/** Readings that some expression looks at. */
export function trackedReadings(facts: Facts): ReadonlySet<string> {
  return new Set(everyExpression(facts).flatMap(({ text, here }) => readingsLookedAt(text, here, facts)))
}

/** A reading of one figure whose line is cut into cells. */
function hasCells(reading: Reading): boolean {
  return (
    ['measure', 'set', 'count'].includes(reading.kind) &&
    reading.positions.length === 0 &&
    reading.workedLimit === undefined
  )
}

/** One point in each cell of a reading's line: the cuts themselves, and one between and beyond them. */
export function cellsOf(reading: Reading, facts: Facts): readonly Rational[] {
  const same = allReadings(facts).filter((other) => other.id === reading.id)
  const bounds = same.flatMap(({ limit }) =>
    [limit?.lower?.exact, limit?.upper?.exact].flatMap((exact) => (exact ? (fromExactText(exact) ?? []) : [])),
  )
  const constants = everyExpression(facts).flatMap(({ text, here }) => {
    const expression = parsed(text)
    return expression === null
      ? []
      : comparisonsIn(expression).flatMap((node) => constantFor(node, reading, here, facts))
  })
  const cuts = [...bounds, ...constants]
    .sort(compare)
    .filter((cut, i, all) => i === 0 || compare(cut, all[i - 1] ?? cut) !== 0)
  const [first] = cuts
  const last = cuts.at(-1)
  if (first === undefined || last === undefined) return []
  return [
    subtract(first, one),
    ...cuts.flatMap((cut, i) => {
      const next = cuts[i + 1]
      return next === undefined ? [cut] : [cut, divide(add(cut, next), rational(2))]
    }),
    add(last, one),
  ]
}

function comparisonsIn(expression: Expression): readonly ComparisonNode[] {
  switch (expression.is) {
    case 'comparison':
      return [expression]
    case 'logic':
      return [...comparisonsIn(expression.left), ...comparisonsIn(expression.right)]
    case 'not':
      return comparisonsIn(expression.of)
    default:
      return []
  }
}

function constantOf(node: Expression): QuantityNode | null {
  if (node.is === 'quantity') return node
  if (node.is === 'negative' && node.of.is === 'quantity') return { ...node.of, value: negate(node.of.value) }
  return null
}

interface AgainstConstant {
  readonly reading: NameNode
  readonly constant: QuantityNode
  /** The constant stands on the left. */
  readonly turned: boolean
}

function againstConstant(node: ComparisonNode): AgainstConstant | null {
  const right = constantOf(node.right)
  if (node.left.is === 'name' && right) return { reading: node.left, constant: right, turned: false }
  const left = constantOf(node.left)
  if (node.right.is === 'name' && left) return { reading: node.right, constant: left, turned: true }
  return null
}

function constantFor(node: ComparisonNode, reading: Reading, here: Here, facts: Facts): readonly Rational[] {
  const plain = againstConstant(node)
  if (plain === null || plain.reading.which !== 'latest') return []
  if (!readingsNamed(plain.reading.name, here, facts).includes(reading.id)) return []
  const value = inUnitOf(reading, plain.constant)
  return value === null ? [] : [value]
}

function inUnitOf(reading: Reading, { value, unit }: QuantityNode): Rational | null {
  const wanted = reading.limit?.unit ?? reading.unit ?? ''
  if (wanted === unit) return value
  const converted = convertValue(value, unit, wanted)
  return converted.ok ? converted.value : null
}

/** Every way in which a condition may be answered here, with what was answered for good. */
export function answersTo(text: string, situation: Situation, here: Here, facts: Facts): readonly Answered[] {
  const expression = parsed(text)
  if (expression === null) return [true, false].map((value) => ({ value, situation }))
  return evaluate(expression, text, situation, here, facts)
}

function evaluate(node: Expression, text: string, s: Situation, here: Here, facts: Facts): readonly Answered[] {
  switch (node.is) {
    case 'not':
      return evaluate(node.of, text, s, here, facts).map((one) => ({ ...one, value: !one.value }))
    case 'logic':
      return evaluate(node.left, text, s, here, facts).flatMap((left) =>
        evaluate(node.right, text, left.situation, here, facts).map((right) => ({
          value: node.operator === 'and' ? left.value && right.value : left.value || right.value,
          situation: right.situation,
        })),
      )
    case 'comparison':
      return decided(ofState(node, s, here, facts) ?? ofCell(node, s, here, facts), node, text, s, here, facts)
    case 'in-limit':
      return decided(inLimit(node.of, s, here, facts), node, text, s, here, facts)
    default:
      return decided(null, node, text, s, here, facts)
  }
}

/** A known answer, or both, the same one again until a reading of the question is taken anew. */
function decided(
  known: boolean | null,
  node: Expression,
  text: string,
  s: Situation,
  here: Here,
  facts: Facts,
): readonly Answered[] {
  if (known !== null) return [{ value: known, situation: s }]
  const ids = [...new Set(namesIn(node).flatMap((name) => readingsNamed(name.name, here, facts)))].sort()
  const question = `${text.slice(node.from, node.to).replace(/\s+/g, ' ').trim()} |${ids.join('|')}|`
  const before = s.answers[question]
  if (before !== undefined) return [{ value: before, situation: s }]
  return [true, false].map((value) => ({ value, situation: { ...s, answers: { ...s.answers, [question]: value } } }))
}

function ofState(node: ComparisonNode, s: Situation, here: Here, facts: Facts): boolean | null {
  if (node.operator !== '=' || node.left.is !== 'name' || (node.right.is !== 'name' && node.right.is !== 'quoted'))
    return null
  const value = s.values[idHere(node.left.name, here.positions, facts.procedure.states)]
  if (value === undefined) return null
  return value === (node.right.is === 'name' ? node.right.name : node.right.text)
}

function readingHere(name: NameNode, here: Here, facts: Facts): Reading | null {
  const ids = name.which === 'latest' ? readingsNamed(name.name, here, facts) : []
  const candidates = allReadings(facts).filter(
    (reading) => reading.id === ids[0] && applies(reading.only, facts.chosen),
  )
  return ids.length === 1 ? (candidates[0] ?? null) : null
}

function ofCell(node: ComparisonNode, s: Situation, here: Here, facts: Facts): boolean | null {
  const plain = againstConstant(node)
  const reading = plain ? readingHere(plain.reading, here, facts) : null
  if (plain === null || reading === null || !hasCells(reading)) return null
  const point = fromExactText(s.readings[reading.id] ?? '')
  const constant = inUnitOf(reading, plain.constant)
  if (point === null || constant === null) return null
  const order = plain.turned ? compare(constant, point) : compare(point, constant)
  switch (node.operator) {
    case '=':
      return order === 0
    case '<':
      return order < 0
    case '>':
      return order > 0
    case '<=':
      return order <= 0
    case '>=':
      return order >= 0
  }
}

function inLimit(name: NameNode, s: Situation, here: Here, facts: Facts): boolean | null {
  const reading = readingHere(name, here, facts)
  if (reading === null) return null
  const taken = s.readings[reading.id] ?? ''
  if (taken === 'in' || taken === 'out') return taken === 'in'
  const point = fromExactText(taken)
  return point === null || reading.limit === null ? null : isWithin(point, reading.limit)
}

/** Whether a reading can be out of limit: it has a limit, or it is a judgement. */
export function canFail(reading: Reading): boolean {
  return reading.kind === 'check' || reading.limit !== null || reading.workedLimit !== undefined
}

export interface Taken {
  readonly situation: Situation
  readonly passes: boolean
}

/** Takes the readings of a step: a cell each, and what `spoils` names is spoiled. */
export function takeReadings(
  step: Step,
  situation: Situation,
  tracked: ReadonlySet<string>,
  facts: Facts,
): readonly Taken[] {
  const taken = step.readings.filter((reading) => applies(reading.only, facts.chosen))
  let ways: readonly Taken[] = [{ situation, passes: true }]
  for (const reading of taken)
    ways = ways.flatMap((way) =>
      outcomesOf(reading, tracked, facts).map(({ mark, passes }) => ({
        passes: way.passes && passes,
        situation: mark === null ? way.situation : withReading(way.situation, reading.id, mark),
      })),
    )
  const spoiled = step.spoils.flatMap((name) => readingsNamed(name, hereOf(step, facts.phaseOf.get(step.id)), facts))
  return ways.map((way) => {
    const readings = { ...way.situation.readings }
    for (const id of spoiled) if (readings[id] !== undefined) readings[id] = 'spoiled'
    return { ...way, situation: { ...way.situation, readings } }
  })
}

function outcomesOf(
  reading: Reading,
  tracked: ReadonlySet<string>,
  facts: Facts,
): readonly { mark: string | null; passes: boolean }[] {
  const fails = canFail(reading)
  const eitherWay = fails ? [true, false] : [true]
  if (!tracked.has(reading.id)) return eitherWay.map((passes) => ({ mark: null, passes }))
  if (reading.kind === 'check' || !hasCells(reading))
    return eitherWay.map((passes) => ({ mark: fails ? (passes ? 'in' : 'out') : 'taken', passes }))
  const cells = cellsOf(reading, facts)
  const { limit } = reading
  if (cells.length === 0) return eitherWay.map((passes) => ({ mark: 'taken', passes }))
  return cells.flatMap((point) =>
    (limit ? [isWithin(point, limit)] : eitherWay).map((passes) => ({ mark: toExactText(point), passes })),
  )
}

function withReading(s: Situation, id: string, mark: string): Situation {
  return {
    ...s,
    readings: { ...s.readings, [id]: mark },
    answers: without(s.answers, (question) => question.includes(`|${id}|`)),
  }
}
