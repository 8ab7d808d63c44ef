import { type SchemaError, validators } from '#generated/schema-validators'
import { type Finding, found } from '../findings/finding.ts'
import { nearestName } from '../text/nearest-name.ts'
import type { BlockNode, ListNode, MapEntry, MapNode } from './block-node.ts'
import { itemSchema, type LocatedSchema, propertySchema } from './fit-block-schema.ts'
import type { Gaps } from './fit-gaps.ts'
import type { FittedWhole, ShapeFault, StepInto } from './fit-shape-fault.ts'
import { faultOf } from './fit-wording.ts'
import { isLeftOpen } from './short-form-looks.ts'

/** What is left of a value when everything the schema does not accept is taken out: null where nothing can stay. */
export interface FittedShape {
  readonly node: BlockNode | null
  readonly findings: readonly Finding[]
}

/**
 * Judges a value whose short forms are written out.
 *
 * @param gaps what was taken out before, with a report
 */
export function fitShape(node: BlockNode, schema: LocatedSchema, whole: FittedWhole, gaps: Gaps): FittedShape {
  const validate = validators[whole.name]
  if (validate === undefined) throw new Error(`no validator for ${whole.name}`)
  const findings: Finding[] = []
  let current: BlockNode | null = node
  // Taking a part out may leave something else incomplete, which then goes too, without a second report.
  for (let isFirst = true; current !== null; isFirst = false) {
    const value: BlockNode = current
    if (validate(judged(value))) return { node: value, findings }
    const faults: readonly ShapeFault[] = (validate.errors ?? []).flatMap(
      (error) => shapeFault(value, schema, error) ?? [],
    )
    if (faults.length === 0) return { node: value, findings }
    if (isFirst) findings.push(...reported(faults, gaps).map((shape) => worded(shape, whole)))
    const rejected = new Set(faults.map(partToTakeOut))
    current = rejected.has(value) ? null : without(value, rejected)
  }
  return { node: null, findings }
}

const absences = ['required', 'dependentRequired', 'anyOf', 'minProperties', 'minItems']

/** Without what an earlier finding explains; everything that one value misses is said in one finding. */
function reported(faults: readonly ShapeFault[], gaps: Gaps): readonly ShapeFault[] {
  for (const { error, node, schema } of faults)
    if (error.keyword === 'additionalProperties') {
      // `likelihod` is a slip for `likelihood`, which is then not missing as well.
      const meant = nearestName(String(error.params.additionalProperty), Object.keys(schema.schema.properties ?? {}))
      if (meant !== null) gaps.leave(node.at, meant)
    }
  const missing = new Map<BlockNode, string[]>()
  const kept: ShapeFault[] = []
  for (const fault of faults) {
    const { error, node, schema } = fault
    const alternatives =
      error.keyword === 'anyOf' ? schema.schema.anyOf?.flatMap(({ required }) => required) : undefined
    const names = typeof error.params.missingProperty === 'string' ? [error.params.missingProperty] : alternatives
    if (absences.includes(error.keyword) && gaps.explain(node.at, names)) continue
    if (error.keyword !== 'required' || names === undefined) {
      kept.push({ ...fault, missing: names ?? [] })
      continue
    }
    const before = missing.get(node)
    if (before !== undefined) {
      before.push(...names)
      continue
    }
    missing.set(node, names)
    kept.push({ ...fault, missing: names })
  }
  return kept
}

function worded(shape: ShapeFault, whole: FittedWhole): Finding {
  const { kind, fault } = faultOf(shape, whole)
  return found(kind, fault)
}

/** Plain JSON of ordinary objects: what is compared inside a validator must answer as every object does. */
function judged(node: BlockNode): unknown {
  if (node.kind === 'scalar') return node.text
  if (node.kind === 'list') return node.items.map(judged)
  return Object.fromEntries(node.entries.map(({ key, value }) => [key, judged(value)]))
}

/** Errors that only repeat what another error says, or that a value left open (`??`) need not answer: null. */
function shapeFault(root: BlockNode, schema: LocatedSchema, error: SchemaError): ShapeFault | null {
  if (error.keyword === 'if' || error.keyword === 'propertyNames') return null
  // Each alternative of an `anyOf` reports its own missing part; the `anyOf` itself says it once.
  if (error.keyword === 'required' && /\/anyOf\/\d+\/required$/.test(error.schemaPath)) return null
  const way = wayTo(root, schema, error.instancePath)
  const last = way.at(-1)
  const node = last?.node ?? root
  const nameAtFault = (error as ShapeFault['error']).propertyName
  const text = nameAtFault ?? (node.kind === 'scalar' ? node.text : null)
  const judgesText = error.keyword === 'enum' || error.keyword === 'pattern' || error.keyword === 'not'
  if (judgesText && text !== null && isLeftOpen(text)) return null
  return { error, way, node, schema: last?.schema ?? schema, missing: [] }
}

function wayTo(root: BlockNode, schema: LocatedSchema, instancePath: string): StepInto[] {
  const way: StepInto[] = []
  let node = root
  let located: LocatedSchema | null = schema
  for (const part of instancePath.split('/').slice(1)) {
    const step = stepInto(node, located, part.replaceAll('~1', '/').replaceAll('~0', '~'))
    if (step === null) return way
    way.push(step)
    node = step.node
    located = step.schema
  }
  return way
}

function stepInto(node: BlockNode, schema: LocatedSchema | null, part: string): StepInto | null {
  if (node.kind === 'list') {
    const item = node.items[Number(part)]
    return item === undefined
      ? null
      : { key: Number(part) + 1, taken: item, node: item, schema: schema && itemSchema(schema) }
  }
  if (node.kind !== 'map') return null
  const entry = node.entries.find(({ key }) => key === part)
  if (entry === undefined) return null
  return { key: part, taken: entry, node: entry.value, schema: schema && propertySchema(schema, part) }
}

/** The smallest part whose absence removes the fault. */
function partToTakeOut({ error, way, node }: ShapeFault): MapEntry | BlockNode {
  const name = error.propertyName ?? error.params.additionalProperty
  if (typeof name === 'string' && node.kind === 'map') {
    const entry = node.entries.find(({ key }) => key === name)
    if (entry !== undefined) return entry
  }
  if (error.keyword === 'uniqueItems' && node.kind === 'list') {
    const later = node.items[Math.max(Number(error.params.i), Number(error.params.j))]
    if (later !== undefined) return later
  }
  return way.at(-1)?.taken ?? node
}

function without(node: BlockNode, rejected: ReadonlySet<MapEntry | BlockNode>): BlockNode {
  if (node.kind === 'scalar') return node
  if (node.kind === 'list') return withoutItems(node, rejected)
  return withoutEntries(node, rejected)
}

function withoutItems(list: ListNode, rejected: ReadonlySet<MapEntry | BlockNode>): ListNode {
  return { ...list, items: list.items.filter((item) => !rejected.has(item)).map((item) => without(item, rejected)) }
}

function withoutEntries(map: MapNode, rejected: ReadonlySet<MapEntry | BlockNode>): MapNode {
  const kept = map.entries.filter((entry) => !rejected.has(entry))
  return { ...map, entries: kept.map((entry) => ({ ...entry, value: without(entry.value, rejected) })) }
}
