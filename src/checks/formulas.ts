import type { Procedure } from '../model/procedure.ts'
import { type Expression, namesIn } from '../quantities/expression.ts'
import { parseExpression } from '../quantities/parse-expression.ts'
import type { QuantityProblem } from '../quantities/quantity-types.ts'
import { type BlockNode, partOf, type ScalarNode } from '../syntax/block-node.ts'
import type { WrittenBlock, WrittenProcedure } from '../syntax/written.ts'
import { oncePer } from '../text/once-per.ts'
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
  const known = formulasKnown.get(procedure)
  if (known?.written === written) return known.formulas
  const formulas = readFormulas(procedure, written)
  formulasKnown.set(procedure, { written, formulas })
  return formulas
}

/** Asked for by many checks, once for each procedure. */
const formulasKnown = new WeakMap<
  Procedure,
  { readonly written: WrittenProcedure; readonly formulas: readonly Formula[] }
>()

function readFormulas(procedure: Procedure, written: WrittenProcedure): readonly Formula[] {
  const seen = new Set<string>()
  return typedIn(procedure).flatMap(({ text, at }): readonly Formula[] => {
    const scalar = scalarOf(text, at, written)
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
  return scalarOf(text, at, written)?.at ?? at
}

/** Of scalars with the same text, the first that does not stand before what it belongs to; else the last. */
function scalarOf(text: string, at: Place, written: WrittenProcedure): ScalarNode | undefined {
  const same = (scalarsByText(written).get(text) ?? []).filter((scalar) => scalar.at.file === at.file)
  return same.find((scalar) => scalar.at.start >= at.start) ?? same.at(-1)
}

const scalarsByText = oncePer((written: WrittenProcedure): ReadonlyMap<string, readonly ScalarNode[]> => {
  const byText = new Map<string, ScalarNode[]>()
  for (const scalar of everyBlock(written).flatMap(scalarsOfBlock)) {
    const same = byText.get(scalar.text)
    if (same === undefined) byText.set(scalar.text, [scalar])
    else same.push(scalar)
  }
  return byText
})

const scalarsOfBlock = oncePer((block: WrittenBlock): readonly ScalarNode[] => scalarsIn(block.map))

/** Names on which some condition rests, without their positions. */
export const namesInConditions = oncePer(
  (procedure: Procedure): ReadonlySet<string> =>
    new Set(conditionsIn(procedure).flatMap(({ text }) => baseNamesIn(text))),
)

/** Names of readings that some value is worked out from. */
export const namesInDerived = oncePer(
  (procedure: Procedure): ReadonlySet<string> =>
    new Set(
      everyStep(procedure).flatMap(({ step }) =>
        step.readings.flatMap(({ expression }) => (expression === null ? [] : baseNamesIn(expression))),
      ),
    ),
)

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

const conditionsIn = oncePer((procedure: Procedure): readonly Typed[] => {
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
})

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
