import { type BlockNode, type MapNode, type PlainValue, valueAt } from '../../syntax/block-node.ts'
import { isEqual } from '../../text/is-equal.ts'
import type { Place } from '../../text/place.ts'
import type { ModelMemory } from '../model-memory.ts'
import type { Phase, Step } from '../procedure.ts'
import type { Resource, ResourceGroup, Resources, ResourceUse } from '../resources.ts'
import type { CatalogueItems } from './declare-hazards.ts'
import { inWords } from './entries.ts'
import { entriesOf, scalarsOf, textAt } from './read-node.ts'

export const RESOURCE_GROUPS = ['tools', 'gear', 'parts', 'consumables', 'ppe'] as const

/** What the catalogues know, by topic. */
export interface ResourceCatalogues {
  readonly tools: CatalogueItems
  readonly instruments: CatalogueItems
  readonly gear: CatalogueItems
  readonly ppe: CatalogueItems
}

interface Mention {
  readonly id: string
  readonly at: Place
  readonly use: ResourceUse
  readonly groups: readonly ResourceGroup[]
}

/** Everything that the document lists and everything that its steps use, each once, with where it is used. */
export function rollUpResources(
  document: MapNode | null,
  phaseBlocks: readonly (MapNode | null)[],
  phases: readonly Phase[],
  catalogues: ResourceCatalogues,
): Resources {
  const listed = new Map<string, { group: ResourceGroup; resource: Resource }>()
  for (const block of [document, ...phaseBlocks]) {
    for (const group of RESOURCE_GROUPS) {
      // The `ppe` of a phase is worn there; only the document's is a list to fetch.
      if (group === 'ppe' && block !== document) continue
      for (const { id, node, at } of listedIn(valueAt(block ?? undefined, group))) {
        if (listed.has(id)) continue
        listed.set(id, { group, resource: resourceFrom(id, group, node, at, catalogues, true) })
      }
    }
  }
  const uses = new Map<string, ResourceUse[]>()
  for (const mention of phases.flatMap(mentionsIn)) {
    if (!listed.has(mention.id)) {
      const group = groupOf(mention, catalogues)
      if (group === null) continue
      listed.set(mention.id, {
        group,
        resource: resourceFrom(mention.id, group, undefined, mention.at, catalogues, false),
      })
    }
    const known = uses.get(mention.id) ?? []
    if (!known.some((use) => use.phase === mention.use.phase && use.step === mention.use.step)) known.push(mention.use)
    uses.set(mention.id, known)
  }
  const all = [...listed.values()].map(({ group, resource }) => ({
    group,
    resource: { ...resource, usedIn: uses.get(resource.id) ?? [] },
  }))
  const of = (group: ResourceGroup) => all.filter((item) => item.group === group).map((item) => item.resource)
  return {
    tools: of('tools'),
    gear: of('gear'),
    parts: of('parts'),
    consumables: of('consumables'),
    ppe: of('ppe'),
  }
}

function listedIn(node: BlockNode | undefined) {
  if (node?.kind === 'map')
    return node.entries.map((entry) => ({ id: entry.key, node: entry.value as BlockNode | undefined, at: entry.keyAt }))
  return scalarsOf(node).map((scalar) => ({ id: scalar.text, node: undefined, at: scalar.at }))
}

/** What a tool is said to be before the roll-up: the first list that describes it, else the library. */
export function toolFacts(
  blocks: readonly (MapNode | null)[],
  catalogues: ResourceCatalogues,
  memory: ModelMemory | null = null,
): (tool: string, fact: string) => string | null {
  const written = new Map<string, BlockNode>()
  for (const block of blocks)
    for (const { id, node } of listedIn(valueAt(block ?? undefined, 'tools')))
      if (node && !written.has(id)) written.set(id, node)
  const known = memory?.tools
  const isKnown =
    known?.tools === catalogues.tools && known.instruments === catalogues.instruments && isEqual(known.written, written)
  if (isKnown) return known.fact
  const fact = (tool: string, name: string): string | null =>
    textAt(written.get(tool), name) ?? textAt(catalogues.instruments.get(tool) ?? catalogues.tools.get(tool), name)
  if (memory) memory.tools = { written, tools: catalogues.tools, instruments: catalogues.instruments, fact }
  return fact
}

const OWN_FIELDS = new Set(['name', 'number', 'quantity', 'replace'])

function resourceFrom(
  id: string,
  group: ResourceGroup,
  written: BlockNode | undefined,
  at: Place,
  catalogues: ResourceCatalogues,
  listed: boolean,
): Resource {
  const instrument = catalogues.instruments.get(id)
  const item = group === 'tools' ? (instrument ?? catalogues.tools.get(id)) : catalogueOf(group, catalogues)?.get(id)
  const field = (name: string) => textAt(written, name) ?? textAt(item, name)
  const facts = [...entriesOf(written), ...entriesOf(item).filter((entry) => !valueAt(written, entry.key))]
    .filter((entry) => !OWN_FIELDS.has(entry.key))
    .map((entry) => ({ name: entry.key.replaceAll('-', ' '), text: inWords(entry.value) }))
  return {
    id,
    name: field('name') ?? id.replaceAll('-', ' '),
    number: field('number'),
    quantity: field('quantity'),
    replace: field('replace'),
    facts,
    isInstrument: instrument !== undefined || facts.some((fact) => fact.name === 'resolution'),
    usedIn: [],
    listed,
    at,
  }
}

function catalogueOf(group: ResourceGroup, catalogues: ResourceCatalogues): CatalogueItems | null {
  return group === 'gear' ? catalogues.gear : group === 'ppe' ? catalogues.ppe : null
}

/** The list that a thing used without being listed would belong to. */
function groupOf(mention: Mention, catalogues: ResourceCatalogues): ResourceGroup | null {
  if (mention.groups.includes('gear') && catalogues.gear.has(mention.id)) return 'gear'
  return mention.groups[0] ?? null
}

function mentionsIn(phase: Phase): readonly Mention[] {
  const worn = phase.ppe.map(
    (id): Mention => ({ id, at: phase.at, use: { phase: phase.id, step: null }, groups: ['ppe'] }),
  )
  const used = phase.entries
    .filter(({ key }) => key === 'uses')
    .flatMap(({ data, at }) =>
      thingsIn(data).map((id): Mention => ({ id, at, use: { phase: phase.id, step: null }, groups: ['tools'] })),
    )
  return [...worn, ...used, ...phase.steps.flatMap((step) => mentionsOf(step, phase.id))]
}

/** Names in a list of things, counted or not, or one name. */
function thingsIn(data: PlainValue): readonly string[] {
  if (typeof data === 'string') return [data]
  return (Array.isArray(data) ? data : [data]).flatMap((item) =>
    typeof item === 'string' ? [item] : wordsAt(item, ['thing']),
  )
}

/** Keys whose `with` and `on` name tools and lifting gear. */
const GEAR_KEYS = ['lift', 'support', 'handle']

function mentionsOf(step: Step, phase: string): readonly Mention[] {
  const use = { phase, step: step.id }
  const mention = (ids: readonly string[], groups: readonly ResourceGroup[]): readonly Mention[] =>
    ids.map((id) => ({ id, at: step.at, use, groups }))
  const names = (text: string | null) => (text === null ? [] : text.split(/,\s*/))
  const gear = step.entries
    .filter((entry) => GEAR_KEYS.includes(entry.key))
    .flatMap((entry) => Object.values(typeof entry.data === 'object' ? entry.data : {}))
    .flatMap((item) => (typeof item === 'object' && !Array.isArray(item) ? wordsAt(item, ['with', 'on']) : []))
  return [
    ...mention(step.uses, ['tools']),
    ...mention(
      step.torques.flatMap((torque) => names(torque.tool)),
      ['tools'],
    ),
    ...mention(
      step.readings.flatMap((reading) => names(reading.instrument)),
      ['tools'],
    ),
    ...mention(gear, ['gear', 'tools']),
    ...mention(step.ppe, ['ppe']),
    ...mention(
      step.fits.map((thing) => thing.id),
      ['parts'],
    ),
    ...[...step.removes, ...step.refits].map((thing): Mention => ({ id: thing.id, at: thing.at, use, groups: [] })),
    ...step.steps.flatMap((sub) => mentionsOf(sub, phase)),
  ]
}

function wordsAt(item: object, keys: readonly string[]): readonly string[] {
  return Object.entries(item).flatMap(([key, value]): readonly string[] => {
    if (!keys.includes(key)) return []
    return typeof value === 'string'
      ? [value]
      : Array.isArray(value)
        ? value.filter((word) => typeof word === 'string')
        : []
  })
}
