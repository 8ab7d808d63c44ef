import type { ComparisonNode, Expression, NameNode } from '../quantities/expression.ts'
import { namesIn } from '../quantities/expression.ts'
import { compare } from '../quantities/rational.ts'
import { cellOf, cellsInLimit, cutAt, inUnit, type ReadingTable, readExpression, readingNamed } from './readings.ts'
import { type Subjects, statesNamed, valuesAmong } from './subjects.ts'

/**
 * A condition, ready to be answered. States decide by their value, readings by their cell; what neither decides is a
 * question: answered freely, and remembered until one of its readings is taken anew.
 */
export type Condition =
  | { readonly is: 'and' | 'or'; readonly left: Condition; readonly right: Condition }
  | { readonly is: 'not'; readonly of: Condition }
  | { readonly is: 'state'; readonly state: number; readonly ok: Uint8Array }
  | { readonly is: 'cell'; readonly reading: number; readonly ok: Uint8Array; readonly question: number }
  | { readonly is: 'question'; readonly question: number }

export interface ReadCondition {
  readonly condition: Condition
  /** Readings it looks at. */
  readonly reads: readonly number[]
}

/** Something answered freely. */
export interface Question {
  readonly key: string
  /** Readings that make the answer void when they are taken anew. */
  readonly readings: readonly number[]
}

/** Where names are looked up, and where questions are collected. */
export interface ConditionContext {
  readonly subjects: Subjects
  readonly readings: ReadingTable
  readonly questions: Question[]
}

/** Where a condition stands: what names mean there. */
export interface Standpoint {
  readonly suffix: string
  readonly positions: readonly string[]
}

/** Cuts the lines of readings at the constants of a condition; before any condition is compiled. */
export function cutReadings(text: string, here: Standpoint, readings: ReadingTable): void {
  const visit = (node: Expression): void => {
    if (node.is === 'comparison') {
      const found = readingAndConstant(node, here, readings)
      const reading = found && readings.tracked[found.reading]
      if (found && reading) cutAt(reading, found.value)
    }
    for (const below of inside(node)) visit(below)
  }
  const expression = readExpression(text)
  if (expression) visit(expression)
}

export function compileCondition(text: string, here: Standpoint, context: ConditionContext): ReadCondition {
  const expression = readExpression(text)
  if (expression === null) return { condition: question(`? ${text}`, [], context), reads: [] }
  return {
    condition: compile(text, expression, here, context),
    reads: readingsRead(expression, here, context.readings),
  }
}

/** The readings that an expression looks at. */
export function readingsRead(expression: Expression, here: Standpoint, readings: ReadingTable): readonly number[] {
  return [
    ...new Set(namesIn(expression).flatMap(({ name }) => readingNamed(name, here.suffix, readings)?.readings ?? [])),
  ]
}

function compile(text: string, node: Expression, here: Standpoint, context: ConditionContext): Condition {
  switch (node.is) {
    case 'logic':
      return {
        is: node.operator,
        left: compile(text, node.left, here, context),
        right: compile(text, node.right, here, context),
      }
    case 'not':
      return { is: 'not', of: compile(text, node.of, here, context) }
    case 'in-limit':
      return inLimit(text, node, node.of, here, context)
    case 'comparison':
      return comparison(text, node, here, context)
    default:
      return questionOf(text, node, here, context)
  }
}

function inLimit(text: string, node: Expression, of: NameNode, here: Standpoint, context: ConditionContext): Condition {
  const named = readingNamed(of.name, here.suffix, context.readings)
  const [only] = named?.readings ?? []
  const reading = only === undefined ? undefined : context.readings.tracked[only]
  const isDecided = named?.isWhole && named.readings.length === 1 && (of.which === 'latest' || of.which === 'all')
  if (!isDecided || only === undefined || reading === undefined) return questionOf(text, node, here, context)
  const [first, ...others] = reading.entries.map((entry) => cellsInLimit(reading, entry))
  const ok = (first ?? new Uint8Array()).map((cell, index) => (others.every((other) => other[index]) ? cell : 0))
  return cell(only, ok, text, node, here, context)
}

function comparison(text: string, node: ComparisonNode, here: Standpoint, context: ConditionContext): Condition {
  const { subjects, readings } = context
  const { left, right } = node
  if (left.is === 'name' && node.operator === '=' && readingNamed(left.name, here.suffix, readings) === null) {
    const states = statesNamed(left.name, here.positions, subjects)
    const value = right.is === 'name' ? right.name : right.is === 'quoted' ? right.text : null
    const [state] = states
    if (states.length === 1 && state !== undefined && value !== null)
      return { is: 'state', state, ok: valuesAmong(state, [value], subjects) }
  }
  const found = readingAndConstant(node, here, readings)
  const reading = found && readings.tracked[found.reading]
  if (!found || !reading || reading.cuts === null) return questionOf(text, node, here, context)
  const at = cellOf(reading, found.value)
  const ok = Uint8Array.from({ length: 2 * reading.cuts.length + 1 }, (_, index) =>
    fulfils(index - at, found.operator) ? 1 : 0,
  )
  return cell(found.reading, ok, text, node, here, context)
}

function fulfils(difference: number, operator: ComparisonNode['operator']): boolean {
  switch (operator) {
    case '=':
      return difference === 0
    case '<':
      return difference < 0
    case '>':
      return difference > 0
    case '<=':
      return difference <= 0
    case '>=':
      return difference >= 0
  }
}

const FLIPPED = { '=': '=', '<': '>', '>': '<', '<=': '>=', '>=': '<=' } as const

/** `studs-bad > 0`: one whole reading beside one constant. */
function readingAndConstant(node: ComparisonNode, here: Standpoint, readings: ReadingTable) {
  const isTurned = node.left.is === 'quantity'
  const [name, constant] = isTurned ? [node.right, node.left] : [node.left, node.right]
  if (name.is !== 'name' || name.which !== 'latest' || constant.is !== 'quantity') return null
  const named = readingNamed(name.name, here.suffix, readings)
  const [only] = named?.readings ?? []
  const reading = only === undefined ? undefined : readings.tracked[only]
  if (!named?.isWhole || named.readings.length !== 1 || only === undefined || !reading || reading.cuts === null)
    return null
  const value = inUnit(constant.value, constant.unit, reading.unit)
  if (value === null) return null
  const known = reading.cuts.find((cut) => compare(cut, value) === 0)
  return { reading: only, value: known ?? value, operator: isTurned ? FLIPPED[node.operator] : node.operator }
}

function cell(
  reading: number,
  ok: Uint8Array,
  text: string,
  node: Expression,
  here: Standpoint,
  context: ConditionContext,
): Condition {
  const asked = questionOf(text, node, here, context)
  return { is: 'cell', reading, ok, question: asked.is === 'question' ? asked.question : 0 }
}

function questionOf(text: string, node: Expression, here: Standpoint, context: ConditionContext): Condition {
  const readings = readingsRead(node, here, context.readings)
  const words = text.slice(node.from, node.to).replaceAll(/\s+/g, ' ')
  return question(`${words} of ${readings.join()}`, readings, context)
}

function question(key: string, readings: readonly number[], { questions }: ConditionContext): Condition {
  const known = questions.findIndex((asked) => asked.key === key)
  if (known >= 0) return { is: 'question', question: known }
  questions.push({ key, readings })
  return { is: 'question', question: questions.length - 1 }
}

function inside(node: Expression): readonly Expression[] {
  switch (node.is) {
    case 'logic':
    case 'comparison':
    case 'arithmetic':
      return [node.left, node.right]
    case 'not':
    case 'negative':
    case 'in-limit':
      return [node.of]
    case 'call':
      return node.of
    default:
      return []
  }
}
