import type { Procedure } from '../model/procedure.ts'
import { type Expression, namesIn } from '../quantities/expression.ts'
import { parseExpression } from '../quantities/parse-expression.ts'
import type { QuantityProblem } from '../quantities/quantity-types.ts'
import { type BlockNode, partOf, type ScalarNode } from '../syntax/block-node.ts'
import type { WrittenProcedure } from '../syntax/written.ts'
import type { Place } from '../text/place.ts'
import { everyStep, everyWrittenStep } from './every-step.ts'
import { everyBlock } from './written-words.ts'

/** A condition or formula that stands somewhere in the procedure. */
export interface Formula {
  readonly text: string
  readonly read: { readonly expression: Expression } | { readonly problem: QuantityProblem }
  /** The place of its letters `from` to `to`. */
  readonly part: (from: number, to: number) => Place
}

/** Every `when`, `until`, `derive` and decided condition, each once; missing values (`??`) are none. */
export function everyFormula(procedure: Procedure, written: WrittenProcedure): readonly Formula[] {
  const scalars = everyBlock(written).flatMap((block) => scalarsIn(block.map))
  const seen = new Set<string>()
  return typedIn(procedure).flatMap(({ text, at }): readonly Formula[] => {
    const scalar = scalarOf(text, at, scalars)
    const place = scalar?.at ?? at
    const key = `${place.file} ${place.start} ${text}`
    if (text.includes('??') || seen.has(key)) return []
    seen.add(key)
    const parsed = parseExpression(text)
    return [
      {
        text,
        read: parsed.ok ? { expression: parsed.value } : { problem: parsed.problem },
        part: (from, to) => (scalar ? partOf(scalar, from, to) : at),
      },
    ]
  })
}

/** The place of a condition that stands in the block of a step, phase or branch; that of the thing itself in a fragment. */
export function placeOfFormula(written: WrittenProcedure, text: string, at: Place): Place {
  return (
    scalarOf(
      text,
      at,
      everyBlock(written).flatMap((block) => scalarsIn(block.map)),
    )?.at ?? at
  )
}

const scalarOf = (text: string, at: Place, scalars: readonly ScalarNode[]): ScalarNode | undefined =>
  scalars.find((candidate) => candidate.text === text && isNear(candidate, at, scalars))

/** Names on which some condition rests, without their positions. */
export function namesInConditions(procedure: Procedure): ReadonlySet<string> {
  return new Set(conditionsIn(procedure).flatMap(({ text }) => baseNamesIn(text)))
}

/** `max(l1.left, l1.right) > 3 mm` → `l1`. A formula that cannot be read names nothing. */
export function baseNamesIn(text: string): readonly string[] {
  const parsed = parseExpression(text)
  return parsed.ok ? namesIn(parsed.value).map(({ name }) => name.split('.')[0] ?? '') : []
}

interface Typed {
  readonly text: string
  /** The step, phase or reading it belongs to. */
  readonly at: Place
}

function typedIn(procedure: Procedure): readonly Typed[] {
  const formulas = everyWrittenStep(procedure).flatMap(({ step }) =>
    step.readings.flatMap(({ expression, at }) => (expression === null ? [] : [{ text: expression, at }])),
  )
  return [...conditionsIn(procedure), ...formulas]
}

function conditionsIn(procedure: Procedure): readonly Typed[] {
  const ofPhases = procedure.phases.flatMap(({ when, until, at }) => [
    { text: when, at },
    { text: until?.condition ?? null, at },
  ])
  const ofSteps = everyStep(procedure).flatMap(({ step }) => [
    { text: step.when, at: step.at },
    ...(step.decide?.branches ?? []).map((branch) => ({ text: branch.when, at: branch.at })),
    ...step.entries.flatMap(({ key, data, at }) => (key === 'repeat' ? [{ text: untilOf(data), at }] : [])),
    ...step.entries.flatMap(({ data, at }) => conditionsOfReadings(data).map((text) => ({ text, at }))),
  ])
  return [...ofPhases, ...ofSteps].flatMap(({ text, at }) => (text === null ? [] : [{ text, at }]))
}

const untilOf = (repeat: unknown): string | null => textUnder(repeat, 'until')

/** `measure: { l1: { limit: …, when: l2 in limit } }`. */
function conditionsOfReadings(data: unknown): readonly string[] {
  if (typeof data !== 'object' || data === null || Array.isArray(data)) return []
  return Object.values(data).flatMap((reading) => textUnder(reading, 'when') ?? [])
}

function textUnder(value: unknown, key: string): string | null {
  if (typeof value !== 'object' || value === null) return null
  const text = (value as { readonly [key: string]: unknown })[key]
  return typeof text === 'string' ? text : null
}

function scalarsIn(node: BlockNode): readonly ScalarNode[] {
  if (node.kind === 'scalar') return [node]
  const below = node.kind === 'list' ? node.items : node.entries.map((entry) => entry.value)
  return below.flatMap(scalarsIn)
}

/** Of scalars with the same text, the first that does not stand before what it belongs to. */
function isNear(scalar: ScalarNode, at: Place, all: readonly ScalarNode[]): boolean {
  const same = all.filter((other) => other.text === scalar.text && other.at.file === at.file)
  const behind = same.filter((other) => other.at.start >= at.start)
  return (behind[0] ?? same.at(-1)) === scalar
}
