import { type SchemaError, validators } from '#generated/schema-validators'
import { type Finding, found } from '../findings/finding.ts'
import type { BlockNode, ListNode, MapEntry, MapNode } from './block-node.ts'
import { itemSchema, type LocatedSchema, propertySchema } from './fit-block-schema.ts'
import { faultOf } from './fit-wording.ts'
import { isLeftOpen } from './short-form-looks.ts'

/** One step down into a value: an entry of a map or an item of a list. */
export interface StepInto {
  /** The key, or null for an item of a list. */
  readonly key: string | null
  /** What would be taken out to be rid of it. */
  readonly taken: MapEntry | BlockNode
  readonly node: BlockNode
  readonly schema: LocatedSchema | null
}

/** One thing the schema does not accept, with the way to it. */
export interface ShapeFault {
  readonly error: SchemaError & { readonly propertyName?: string }
  /** From the value itself down to the part the error is about. */
  readonly way: readonly StepInto[]
  readonly node: BlockNode
  readonly schema: LocatedSchema
}

/** What is left of a value when everything the schema does not accept is taken out: null where nothing can stay. */
export interface FittedShape {
  readonly node: BlockNode | null
  readonly findings: readonly Finding[]
}

/**
 * Judges a value whose short forms are written out.
 *
 * @param name of the schema, `blocks/torque`
 * @param title what a person calls the value: the key, or the name of the file's part
 */
export function fitShape(node: BlockNode, schema: LocatedSchema, name: string, title: string): FittedShape {
  const validate = validators[name]
  if (validate === undefined) throw new Error(`no validator for ${name}`)
  const findings: Finding[] = []
  let current: BlockNode | null = node
  // Taking a part out may leave something else incomplete, which then goes too, without a second report.
  for (let isFirst = true; current !== null; isFirst = false) {
    const value: BlockNode = current
    if (validate(judged(value))) return { node: value, findings }
    const faults: readonly ShapeFault[] = (validate.errors ?? []).flatMap((error) => shapeFault(value, schema, error) ?? [])
    if (faults.length === 0) return { node: value, findings }
    if (isFirst) findings.push(...faults.map((shape) => worded(shape, title)))
    const rejected = new Set(faults.map(partToTakeOut))
    current = rejected.has(value) ? null : without(value, rejected)
  }
  return { node: null, findings }
}

function worded(shape: ShapeFault, title: string): Finding {
  const { kind, fault } = faultOf(shape, title)
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
  return { error, way, node, schema: last?.schema ?? schema }
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
    return item === undefined ? null : { key: null, taken: item, node: item, schema: schema && itemSchema(schema) }
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
