import { type Finding, found, type Outcome } from '../findings/finding.ts'
import type { LibraryReader } from '../library/library-reader.ts'
import { type BlockNode, type MapNode, valueAt } from '../syntax/block-node.ts'
import type { WrittenProcedure } from '../syntax/written.ts'
import { sameAsBefore } from '../text/same-as-before.ts'
import { machineMissing } from './faults/faults.ts'
import { enterWorld, type ModelMemory } from './model-memory.ts'
import type { Names } from './names.ts'
import { blocksOf } from './passes/blocks-of-phase.ts'
import { collectFigures } from './passes/collect-figures.ts'
import { countTries } from './passes/count-tries.ts'
import { type CatalogueItems, declareHazards } from './passes/declare-hazards.ts'
import { declareStates } from './passes/declare-states.ts'
import {
  acceptancesFrom,
  type DocumentDefaults,
  declareRoles,
  declareTables,
  documentInfo,
  namedSentences,
} from './passes/describe-document.ts'
import { describeMachine, machineReference } from './passes/describe-machine.ts'
import { entriesFrom } from './passes/entries.ts'
import { type FragmentShelf, includeFragments } from './passes/include-fragments.ts'
import { layOutPhases } from './passes/lay-out-phases.ts'
import { linkTargets } from './passes/link-targets.ts'
import { entriesOf, textsAt } from './passes/read-node.ts'
import { unitsOfReadings } from './passes/resolve-bench-limit.ts'
import { resolvePhases } from './passes/resolve-phases.ts'
import { type ResourceCatalogues, rollUpResources, toolFacts } from './passes/roll-up-resources.ts'
import { summariseHolds } from './passes/summarise-holds.ts'
import { workOutFigures } from './passes/work-out-figures.ts'
import type { Acceptance, Machine, Phase, Procedure } from './procedure.ts'
import type { Schedule } from './schedule/schedule.ts'
import { idsOfSteps, scheduleKey, waitsForWords } from './schedule/timed-work.ts'
import { workOutSchedule } from './schedule/work-out-schedule.ts'
import type { Variant } from './variants.ts'

/** What the passes need beside the text: the library, as plain tables. */
export interface ModelSurroundings {
  readonly library: LibraryReader
  readonly defaults: DocumentDefaults
  readonly catalogues: ResourceCatalogues & {
    readonly hazards: CatalogueItems
    readonly roles: CatalogueItems
    readonly fasteners?: CatalogueItems
  }
  readonly fragments: FragmentShelf
  readonly machine: (id: string) => Outcome<BlockNode | null>
}

/** A procedure without the graph, which the next floor draws. */
export type LinkedProcedure = Omit<Procedure, 'graph'>

const READING_KEYS = ['measure', 'check', 'set', 'derive', 'count']

/**
 * From what was written to what is meant, pass by pass:
 * include fragments → write out repeats → declare → resolve steps and write refits → link → count tries → roll up.
 */
export function resolveProcedure(
  written: WrittenProcedure,
  surroundings: ModelSurroundings,
  memory: ModelMemory | null = null,
): Outcome<LinkedProcedure> {
  const findings: Finding[] = []
  const take = <Value>(outcome: Outcome<Value>): Value => {
    findings.push(...outcome.findings)
    return outcome.value
  }
  const block = written.block?.map ?? null
  const frontMatter = written.frontMatter?.map ?? null
  const start = { file: written.file, start: 0, end: 0 }
  const document = documentInfo(frontMatter, surroundings.defaults, written.frontMatter?.at ?? start)
  const titled = { ...document, title: document.title || (written.title?.text ?? '') }

  const included = take(includeFragments(written.phases, surroundings.fragments))
  const tables = declareTables(block)
  const drafts = take(layOutPhases(included, tables))
  const roles = declareRoles(block, surroundings.catalogues.roles)
  const declared = declareStates(block, drafts, findings)
  const hazards = declareHazards(block, drafts, surroundings.catalogues.hazards)
  const machine = take(
    machineOf(
      frontMatter,
      block,
      declared.states.map((state) => state.name),
      surroundings,
    ),
  )

  const readingUnits = unitsOfReadings(
    drafts
      .flatMap(blocksOf)
      .flatMap((map) => READING_KEYS.flatMap((key) => entriesOf(valueAt(map, key))))
      .map(({ key, value }) => [key, value]),
  )
  const toolFact = toolFacts([block, ...drafts.map((draft) => draft.block)], surroundings.catalogues, memory)
  const acceptedAtSteps: Acceptance[] = []
  const context = {
    acceptedAtSteps,
    systems: titled.printUnits,
    findings,
    readingUnits,
    variants: titled.variants,
    toolFact,
    fasteners: surroundings.catalogues.fasteners ?? new Map(),
  }
  const onlyRole = roles.length === 1 ? roles.map((role) => role.id) : []
  if (memory !== null) {
    const { findings: _, acceptedAtSteps: __, ...others } = context
    enterWorld(memory, {
      ...others,
      tables,
      states: namesKey(declared.stateNames),
      zones: namesKey(declared.zoneNames),
    })
  }
  const resolved = resolvePhases(drafts, { ...context, declared, tables, onlyRole, memory })

  const linked = linkTargets({ purpose: written.prose, phases: resolved }, titled.variants, findings)
  const { purpose, phases, figures } = collectFigures(
    linked.purpose,
    countTries(linked.phases),
    surroundings.library,
    findings,
  )
  const resources = rollUpResources(
    block,
    drafts.map((draft) => draft.block),
    phases,
    surroundings.catalogues,
  )
  const fresh: LinkedProcedure = {
    file: written.file,
    document: titled,
    purpose,
    roles,
    machine,
    states: declared.states,
    zones: declared.zones,
    never: declared.never,
    hazards,
    resources,
    tables,
    emergency: namedSentences(valueAt(block ?? undefined, 'emergency')),
    prohibit: textsAt(block ?? undefined, 'prohibit'),
    entries: entriesFrom(block),
    phases: workOutFigures(phases, { resources, tables, ruleSet: surroundings.defaults.checks?.ruleSet ?? null }),
    holds: summariseHolds(phases, declared.zones),
    schedule: scheduleOf(phases, titled.variants, memory),
    figures,
    accepted: eachPlaceOnce([
      ...acceptancesFrom(valueAt(frontMatter ?? undefined, 'accept'), null),
      ...acceptedInside(drafts),
      ...acceptedAtSteps,
    ]),
  }
  if (memory === null) return { value: fresh, findings: withoutDoubles(findings) }
  const value = sameAsBefore(memory.last, fresh)
  memory.last = value
  return { value, findings: withoutDoubles(findings) }
}

/** Names as steps look them up. */
function namesKey({ byId }: Names): string {
  return JSON.stringify([...byId.values()].map(({ id, name, position }) => [id, name, position]))
}

/** Works the schedule out again only where something has changed that it rests on. */
function scheduleOf(
  phases: readonly Phase[],
  variants: readonly Variant[],
  memory: ModelMemory | null,
): Schedule | null {
  if (memory === null) return workOutSchedule(phases, variants)
  const key = scheduleKey(phases, variants)
  const ids = phases.flatMap(idsOfSteps)
  const { scheduled } = memory
  if (scheduled?.key !== key || phases.some(waitsForWords)) {
    memory.scheduled = { key, ids, schedule: workOutSchedule(phases, variants) }
    return memory.scheduled.schedule
  }
  const renamed = new Map(scheduled.ids.map((id, index) => [id, ids[index] ?? id]))
  const { schedule } = scheduled
  return schedule && { ...schedule, critical: schedule.critical.map((id) => renamed.get(id) ?? id) }
}

function machineOf(
  frontMatter: MapNode | null,
  block: MapNode | null,
  states: readonly string[],
  surroundings: ModelSurroundings,
): Outcome<Machine | null> {
  const reference = machineReference(frontMatter, block)
  if (reference === null) return { value: null, findings: [] }
  const { id, energies, dismissed } = reference
  const file = surroundings.machine(id.text)
  if (file.value !== null)
    return { value: describeMachine(id.text, file.value, states, energies, dismissed), findings: file.findings }
  if (file.findings.length > 0) return { value: null, findings: file.findings }
  const missing = found(machineMissing, {
    at: id.at,
    message: `There is no machine file for "${id.text}".`,
    advice: `Write shared/machines/${id.text}.yaml with its energies and isolation points, or correct the name.`,
  })
  return { value: null, findings: [missing] }
}

/** An acceptance in a repeated phase is one. */
function eachPlaceOnce(accepted: readonly Acceptance[]): readonly Acceptance[] {
  return [...new Map(accepted.map((one) => [`${one.at.file}:${one.at.start}:${one.step}`, one])).values()]
}

/** `accept` in the blocks of phases: for the phase and its steps. */
function acceptedInside(drafts: Parameters<typeof declareStates>[1]): readonly Acceptance[] {
  return drafts.flatMap((draft) => acceptancesFrom(valueAt(draft.block ?? undefined, 'accept'), draft.baseId))
}

/** A fault in a repeated phase is one fault. */
function withoutDoubles(findings: readonly Finding[]): readonly Finding[] {
  const seen = new Set<string>()
  return findings.filter((finding) => {
    const key = [finding.name, finding.at.file, finding.at.start, finding.at.end, finding.message].join('\n')
    if (seen.has(key)) return false
    seen.add(key)
    return true
  })
}
