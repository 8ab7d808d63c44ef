import { type Finding, found } from '../../findings/finding.ts'
import { type MapNode, valueAt } from '../../syntax/block-node.ts'
import type { WrittenStep } from '../../syntax/written.ts'
import { nearestName } from '../../text/nearest-name.ts'
import type { DraftPhase } from '../draft.ts'
import type { LookUpTable } from '../entries.ts'
import { reverseTargetUnknown, reverseWithSteps } from '../faults/faults.ts'
import type { ModelMemory } from '../model-memory.ts'
import type { Acceptance, Phase, ReverseOf, Step } from '../procedure.ts'
import type { StateValues } from '../states.ts'
import type { Declared } from './declare-states.ts'
import { entriesFrom, takesInWords } from './entries.ts'
import { type Pass, withSuffix } from './lay-out-phases.ts'
import { itemsOf, keysAt, scalarsAt, scalarsOf, textAt, textsAt } from './read-node.ts'
import { claimsFrom, roleId, type Scope, whereaboutsFrom, zonesFor } from './resolve-claims.ts'
import { consequence, wholeNumber } from './resolve-consequence.ts'
import type { LimitContext } from './resolve-limit.ts'
import { onlyFrom } from './resolve-readings.ts'
import { exposedFrom, keepsFrom, permitsFrom } from './resolve-safeguards.ts'
import { resolveSteps, type StepContext } from './resolve-step.ts'
import { walkStates } from './walk-states.ts'
import { type StepSource, writeRefit } from './write-refit.ts'

export interface PhaseContext extends LimitContext {
  readonly acceptedAtSteps: Acceptance[]
  readonly memory: ModelMemory | null
  readonly declared: Declared
  readonly tables: readonly LookUpTable[]
  /** Who acts where nobody is named anywhere: the only role of the document, or nobody. */
  readonly onlyRole: readonly string[]
}

/**
 * Resolves the phases in the order of the work and follows the states through them: the first way of each decision that
 * does not stop, everything in limit. Each branch starts from the states at its decision.
 */
export function resolvePhases(drafts: readonly DraftPhase[], context: PhaseContext): readonly Phase[] {
  const usedIds = new Set<string>()
  const sources = new Map<string, StepSource>()
  const phases: Phase[] = []
  let states: StateValues = Object.fromEntries(context.declared.states.map((state) => [state.id, state.start]))
  let atDecision = states
  let chosen: string | null = null
  for (const draft of drafts) {
    const before = draft.kind === 'branch' ? atDecision : states
    const phase = resolvePhase(draft, before, { ...context, usedIds, sources, phases })
    phases.push(phase)
    if (draft.kind === 'phase') {
      atDecision = phase.statesAfter
      states = phase.statesAfter
      chosen = straightWay(phase)
    } else if (draft.baseId === chosen) states = phase.statesAfter
  }
  return phases
}

/** Base id of the branch that the straight path takes, or null where it goes on. */
function straightWay(phase: Phase): string | null {
  const decide = phase.steps.at(-1)?.decide
  const way = decide?.branches.find((branch) => branch.action !== 'stop')
  return way?.target?.id ?? null
}

interface Surroundings extends PhaseContext {
  readonly usedIds: Set<string>
  readonly sources: Map<string, StepSource>
  readonly phases: readonly Phase[]
}

function resolvePhase(draft: DraftPhase, before: StateValues, context: Surroundings): Phase {
  const { block, written } = draft
  const positions = (draft.position?.values ?? []).map((value) => value.text)
  const { declared } = context
  const scope: Scope = { positions, states: declared.stateNames, zones: declared.zoneNames }
  const ownBy = textsAt(block ?? undefined, 'by').map(roleId)
  const by = ownBy.length > 0 ? ownBy : (inherited(draft, context, (phase) => phase.by) ?? context.onlyRole)
  const writtenOf = new Map<string, WrittenStep>()
  const pass: Pass = { suffix: draft.suffix, position: draft.position, parameters: draft.parameters }
  const stepContext: StepContext = { ...context, phase: draft, scope, by, writtenOf }
  const where = whereaboutsFrom(valueAt(block ?? undefined, 'where'), scope)
  const refit = refitOf(draft, where, context)
  const toResolve = refit ? refit.steps : written.steps
  const resolved = resolveSteps(toResolve, (index) => `${draft.number}.${index + 1}`, pass, stepContext)
  const undone = refit
    ? resolved.map((step) => {
        const source = writtenOf.get(step.id)
        return { ...step, undoes: (source && refit.undoes.get(source)) ?? null }
      })
    : resolved
  const phaseHazards = keysAt(block ?? undefined, 'hazards')
  const table = { ...declared.stateNames, values: new Map(declared.states.map((state) => [state.id, state.values])) }
  const walked = walkStates(withPhaseHazards(undone, phaseHazards), before, positions, table)
  remember(walked.steps, writtenOf, context.sources)
  return {
    id: draft.id,
    baseId: draft.baseId,
    number: draft.number,
    title: written.title,
    kind: draft.kind,
    under: draft.under,
    position: draft.position,
    until: draft.loop && {
      first: draft.loop.first,
      condition: draft.loop.condition,
      atMost: wholeNumber(draft.loop.atMost),
      otherwise: otherwiseOf(draft.loop.repeat, scope),
    },
    prose: written.prose,
    by,
    where: where.length > 0 ? where : (inherited(draft, context, (phase) => phase.where) ?? refit?.where ?? []),
    clear: scalarsAt(valueAt(block ?? undefined, 'clear'), 'zones').flatMap((zone) => zonesFor(zone.text, scope)),
    clearedBy: textsAt(valueAt(block ?? undefined, 'clear'), 'by').map(roleId),
    needs: claimsFrom(valueAt(block ?? undefined, 'needs'), scope),
    exposed: exposedFrom(block, scope),
    keeps: keepsFrom(block, scope),
    permits: permitsFrom(block, scope),
    ppe: keysAt(block ?? undefined, 'ppe'),
    hazards: phaseHazards,
    only: onlyFrom(valueAt(block ?? undefined, 'only')),
    when: textAt(block ?? undefined, 'when'),
    together: valueAt(block ?? undefined, 'together') !== undefined,
    takes: takesInWords(valueAt(block ?? undefined, 'takes')),
    reverseOf: refit?.reverseOf ?? null,
    entries: entriesFrom(block),
    steps: walked.steps,
    statesBefore: before,
    statesAfter: walked.after,
    at: written.at,
  }
}

/** A branch takes over what its phase says of people and places. */
function inherited<Value extends readonly unknown[]>(
  draft: DraftPhase,
  context: Surroundings,
  pick: (phase: Phase) => Value,
): Value | null {
  const parent = context.phases.find((phase) => phase.id === draft.under)
  return parent ? pick(parent) : null
}

function otherwiseOf(repeat: MapNode, scope: Scope) {
  const node = valueAt(repeat, 'else')
  return node ? consequence('out', node, null, scope) : null
}

/** The messages of the phase stand before its first step. */
function withPhaseHazards(steps: readonly Step[], hazards: readonly string[]): readonly Step[] {
  return steps.map((step, index) =>
    index === 0 ? { ...step, hazards: [...new Set([...hazards, ...step.hazards])] } : step,
  )
}

function remember(
  steps: readonly Step[],
  writtenOf: ReadonlyMap<string, WrittenStep>,
  sources: Map<string, StepSource>,
): void {
  for (const step of steps) {
    const written = writtenOf.get(step.id)
    if (written) sources.set(step.id, { step, written })
    remember(step.steps, writtenOf, sources)
  }
}

interface PlacedRefit {
  readonly steps: readonly WrittenStep[]
  readonly undoes: ReadonlyMap<WrittenStep, string>
  readonly reverseOf: ReverseOf
  readonly where: Phase['where']
}

function refitOf(draft: DraftPhase, where: Phase['where'], context: Surroundings): PlacedRefit | null {
  const reverse = valueAt(draft.block ?? undefined, 'reverse')
  if (reverse === undefined) return null
  const known = [...new Set(context.phases.map((phase) => phase.baseId))]
  const named = scalarsOf(reverse)
  const phases = named.flatMap((name) => {
    const all = context.phases.filter((phase) => phase.baseId === name.text)
    const here = all.filter((phase) => phase.id === withSuffix(name.text, draft.suffix))
    if (all.length > 0) return here.length > 0 ? here : all
    const near = nearestName(name.text, known)
    context.findings.push(
      found(reverseTargetUnknown, {
        at: name.at,
        message: `This refit reverses "${name.text}", but no phase before it has that id.`,
        advice: near ? `Did you mean "${near}"?` : 'Name a phase that comes before this one.',
      }),
    )
    return []
  })
  const inOrder = context.phases.filter((phase) => phases.includes(phase))
  const told = where.length > 0 ? where : (inOrder[0]?.where ?? [])
  const refit = writeRefit(inOrder, context.sources, told, context.findings)
  return {
    ...refit,
    steps: placeExtras(refit.steps, refit.undoes, [...extrasOf(draft), ...draft.written.steps], context),
    reverseOf: { phases: inOrder.map((phase) => phase.id), dropped: refit.dropped },
    where: told,
  }
}

/** Steps written in the phase's block under `extra`. */
function extrasOf(draft: DraftPhase): readonly WrittenStep[] {
  return itemsOf(valueAt(draft.block ?? undefined, 'extra')).flatMap((item) => {
    if (item.kind !== 'map') return []
    const sentence = textAt(item, 'do') ?? ''
    const id = textAt(item, 'id')
    const entries = item.entries.filter((entry) => entry.key !== 'do' && entry.key !== 'id')
    return {
      typedNumber: '',
      id: id === null ? null : { id, at: item.at },
      at: item.at,
      roles: [],
      text: [{ kind: 'text' as const, text: sentence }],
      markdown: sentence,
      acts: [],
      details: [],
      block: { map: { ...item, entries }, at: item.at },
      steps: [],
    }
  })
}

/** Puts the hand-written steps of a refit before or after the step that undoes the one they name. */
function placeExtras(
  steps: readonly WrittenStep[],
  undoes: ReadonlyMap<WrittenStep, string>,
  extras: readonly WrittenStep[],
  context: Surroundings,
): readonly WrittenStep[] {
  const placed = [...steps]
  for (const extra of extras) {
    const block = extra.block?.map
    const before = textAt(block, 'before')
    const after = textAt(block, 'after')
    const named = before ?? after
    const index = placed.findIndex((step) => (undoes.get(step) ?? '').split('@')[0] === named)
    if (named === null || index < 0) {
      context.findings.push(extraWithoutPlace(extra, named, [...undoes.values()]))
      placed.push(extra)
      continue
    }
    let at = index
    if (after !== null) {
      at = index + 1
      // Several extras after the same step keep the order written.
      while (placed[at] && extras.includes(placed[at] as WrittenStep)) at++
    }
    placed.splice(at, 0, extra)
  }
  return placed
}

function extraWithoutPlace(extra: WrittenStep, named: string | null, undone: readonly string[]): Finding {
  const known = [...new Set(undone.map((id) => id.split('@')[0] ?? ''))]
  if (named === null)
    return found(reverseWithSteps, {
      at: extra.at,
      message: 'This phase is a refit by `reverse`, and this step does not say where in it it belongs.',
      advice: 'Add `before: id` or `after: id` with the id of a step that is reversed, or drop `reverse`.',
    })
  const near = nearestName(named, known)
  return found(reverseWithSteps, {
    at: extra.at,
    message: `This step belongs next to the refit of "${named}", but nothing reversed here has that id.`,
    advice: near ? `Did you mean "${near}"?` : 'Give the removal step that id, `{#id}`, or name another one.',
  })
}
