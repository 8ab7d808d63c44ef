import { type MapNode, valueAt } from '../../syntax/block-node.ts'
import { type Inline, plainText } from '../../syntax/prose.ts'
import type { WrittenRole, WrittenStep } from '../../syntax/written.ts'
import { identifierFrom } from '../../text/identifier.ts'
import type { DraftPhase } from '../draft.ts'
import type { LookUpTable } from '../entries.ts'
import { keepStep, type ModelMemory } from '../model-memory.ts'
import type { Acceptance, Act, Hold, Step, StepText } from '../procedure.ts'
import { PAIRED_KEY_NAMES } from './declare-states.ts'
import { acceptancesFrom } from './describe-document.ts'
import { entriesFrom, inWords, takesInWords } from './entries.ts'
import { type Pass, passesOf, passWithin, withSuffix } from './lay-out-phases.ts'
import { entriesOf, itemsOf, keysAt, scalarsAt, scalarsOf, textAt, textsAt } from './read-node.ts'
import { reportUnfilled } from './report-unfilled.ts'
import {
  changesFrom,
  claimsFrom,
  countedThings,
  roleId,
  type Scope,
  whereaboutsFrom,
  zonesFor,
} from './resolve-claims.ts'
import { consequencesFrom, decideFrom, targetsFrom } from './resolve-consequence.ts'
import type { LimitContext } from './resolve-limit.ts'
import { onlyFrom, readingsFrom, torquesFrom } from './resolve-readings.ts'
import { exposedFrom, keepsFrom, permitsFrom, waitingFrom } from './resolve-safeguards.ts'
import { substituteStep } from './substitute.ts'

/** What a step needs to know of its surroundings. */
export interface StepContext extends LimitContext {
  readonly phase: DraftPhase
  readonly scope: Scope
  readonly tables: readonly LookUpTable[]
  /** Who acts where the step names nobody. */
  readonly by: readonly string[]
  /** Ids given out so far. */
  readonly usedIds: Set<string>
  readonly memory: ModelMemory | null
  /** Filled with what steps accept. */
  readonly acceptedAtSteps: Acceptance[]
  /** Filled with what each step was written as, for the refits that are made from it. */
  readonly writtenOf: Map<string, WrittenStep>
}

/** The steps of a phase or of a step, repeats written out and numbered. */
export function resolveSteps(
  written: readonly WrittenStep[],
  numberOf: (index: number) => string,
  outer: Pass,
  context: StepContext,
): readonly Step[] {
  return written.flatMap((step, index) => {
    const repeat = step.block ? valueAt(step.block.map, 'repeat') : undefined
    return passesOf(repeat, context.tables, context.findings).map((inner) => {
      const pass = passWithin(outer, inner)
      return resolveAgain(substituteStep(step, inner.parameters), numberOf(index), inner, pass, context)
    })
  })
}

/** A step is taken from the memory where it was written, numbered and placed as before, and no other step has taken its id. */
function resolveAgain(written: WrittenStep, number: string, inner: Pass, pass: Pass, context: StepContext): Step {
  const { memory, usedIds, findings, acceptedAtSteps } = context
  if (memory === null) return resolveStep(written, number, inner, pass, context)
  const { scope, by, phase } = context
  const key = JSON.stringify([
    number,
    phase.baseId,
    by,
    scope.positions,
    inner.suffix,
    inner.position,
    pass.suffix,
    pass.position,
  ])
  const known = memory.steps.get(written)?.get(key)
  if (known?.ids.every((id) => !usedIds.has(id))) {
    for (const id of known.ids) usedIds.add(id)
    findings.push(...known.findings)
    acceptedAtSteps.push(...known.accepted)
    for (const [id, step] of known.writtenOf) context.writtenOf.set(id, step)
    return known.step
  }
  const [told, accepted] = [findings.length, acceptedAtSteps.length]
  const writtenOf = new Map<string, WrittenStep>()
  const step = resolveStep(written, number, inner, pass, { ...context, writtenOf })
  for (const [id, one] of writtenOf) context.writtenOf.set(id, one)
  // An id that had to be told apart rests on the steps before.
  if ([...writtenOf].every(([id, one]) => id.split('@')[0] === wantedId(one, phase)))
    keepStep(memory, written, key, {
      step,
      ids: [...writtenOf.keys()],
      findings: findings.slice(told),
      accepted: acceptedAtSteps.slice(accepted),
      writtenOf: [...writtenOf],
    })
  return step
}

function resolveStep(written: WrittenStep, number: string, inner: Pass, pass: Pass, context: StepContext): Step {
  reportUnfilled(written, pass.position, context)
  const block = written.block?.map ?? null
  const scope = scopeWithin(context.scope, inner)
  const wanted = wantedId(written, context.phase)
  const baseId = freshId(wanted, pass.suffix, context.usedIds)
  const id = withSuffix(baseId, pass.suffix)
  const at = (key: string) => valueAt(block ?? undefined, key)
  const { readings, consequences } = readingsFrom(block, pass.suffix, scope, context)
  const by = rolesOf(written.roles, block, context.by)
  const paired = Object.fromEntries(PAIRED_KEY_NAMES.map((key) => [key, countedThings(at(key))]))
  context.writtenOf.set(id, written)
  context.acceptedAtSteps.push(...acceptancesFrom(at('accept'), baseId))
  return {
    id,
    baseId,
    number: inner.position === null ? number : `${number} ${inner.position.label}`,
    text: stepText(written.text, written.markdown),
    by,
    acts: written.acts.map(
      (act): Act => ({
        by: act.roles.map((role) => roleId(role.name)),
        text: stepText(act.text, act.markdown),
        at: act.at,
      }),
    ),
    details: written.details,
    where: whereaboutsFrom(at('where'), scope),
    enters: whereaboutsFrom(at('enters'), scope),
    clear: scalarsAt(at('clear'), 'zones').flatMap((zone) => zonesFor(zone.text, scope)),
    clearedBy: textsAt(at('clear'), 'by').map(roleId),
    needs: claimsFrom(at('needs'), scope),
    exposed: exposedFrom(block, scope),
    keeps: keepsFrom(block, scope),
    permits: permitsFrom(block, scope),
    sets: changesFrom(at('sets'), scope),
    proves: claimsFrom(at('proves'), scope),
    hazards: keysAt(block ?? undefined, 'hazards'),
    ppe: keysAt(block ?? undefined, 'ppe'),
    uses: countedThings(at('uses')).map((thing) => thing.id),
    only: onlyFrom(at('only')),
    when: textAt(block ?? undefined, 'when'),
    holds: holdsFrom(block, id),
    torques: torquesFrom(block, pass.suffix, context),
    readings,
    consequences: [...consequencesFrom(at('else'), null, scope), ...consequences],
    decide: decideFrom(at('decide'), scope),
    waits: itemsOf(at('wait')).map(inWords),
    waiting: waitingFrom(block),
    takes: takesInWords(at('takes')),
    removes: paired.removes ?? [],
    refits: paired.refits ?? [],
    locks: paired.locks ?? [],
    unlocks: paired.unlocks ?? [],
    putsOn: paired['puts-on'] ?? [],
    takesOff: paired['takes-off'] ?? [],
    fits: countedThings(at('fits')),
    snug: paired.snug ?? [],
    redoes: targetsFrom(valueAt(at('redo'), 'steps')),
    spoils: textsAt(block ?? undefined, 'spoils'),
    tries: 1,
    undoes: null,
    workings: [],
    entries: entriesFrom(block),
    steps: resolveSteps(written.steps, (index) => subNumber(number, index), pass, { ...context, scope, by }),
    statesBefore: {},
    statesAfter: {},
    at: written.at,
  }
}

export function stepText(inlines: readonly Inline[], markdown: string): StepText {
  return { markdown, plain: plainText(inlines), inlines }
}

/** Who acts: the roles before the step, else its `by`, else the phase's. */
function rolesOf(
  prefix: readonly WrittenRole[],
  block: MapNode | null,
  inherited: readonly string[],
): readonly string[] {
  if (prefix.length > 0) return prefix.map((role) => roleId(role.name))
  const by = textsAt(block ?? undefined, 'by').map(roleId)
  return by.length > 0 ? by : inherited
}

const HOLD_KEYS = ['hold-before', 'hold', 'witness', 'verify', 'review'] as const

function holdsFrom(block: MapNode | null, stepId: string): readonly Hold[] {
  return HOLD_KEYS.flatMap((key) =>
    entriesOf(valueAt(block ?? undefined, key)).map(
      (entry): Hold => ({
        id: `${stepId}#${key}-${roleId(entry.key)}`,
        kind: key === 'hold-before' ? 'hold' : key,
        timing: key === 'hold-before' ? 'before' : 'after',
        role: roleId(entry.key),
        says: scalarsOf(entry.value)
          .map((scalar) => scalar.text)
          .join(' '),
        at: entry.keyAt,
      }),
    ),
  )
}

function scopeWithin(scope: Scope, inner: Pass): Scope {
  const positions = (inner.position?.values ?? []).map((value) => value.text)
  return positions.length === 0 ? scope : { ...scope, positions: [...positions, ...scope.positions] }
}

/** Two steps of a phase with the same words still have ids of their own. */
function wantedId(written: WrittenStep, phase: DraftPhase): string {
  return written.id?.id ?? `${phase.baseId}/${identifierFrom(plainText(written.text))}`
}

function freshId(wanted: string, suffix: string, used: Set<string>): string {
  let baseId = wanted
  for (let count = 2; used.has(withSuffix(baseId, suffix)); count++) baseId = `${wanted}-${count}`
  used.add(withSuffix(baseId, suffix))
  return baseId
}

/** `3.1` → `3.1a`, `3.1b`; one deeper `3.1a.1`. */
function subNumber(number: string, index: number): string {
  return /[a-z]$/.test(number) ? `${number}.${index + 1}` : number + String.fromCharCode(97 + (index % 26))
}
