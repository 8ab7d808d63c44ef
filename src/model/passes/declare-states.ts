import { type Finding, found } from '../../findings/finding.ts'
import { type BlockNode, type MapNode, valueAt } from '../../syntax/block-node.ts'
import type { Place } from '../../text/place.ts'
import type { DraftPhase } from '../draft.ts'
import { nameIsAState } from '../faults/faults.ts'
import { type Names, namesOf } from '../names.ts'
import type { NeverTogether, State, Zone } from '../states.ts'
import { blocksOf } from './blocks-of-phase.ts'
import { entriesOf, itemsOf, textAt, textsAt } from './read-node.ts'
import { claimsFrom, countedThings, roleId, type Scope } from './resolve-claims.ts'

/** Short keys that are states in disguise: what the key makes of the thing, and what undoes it. */
export const PAIRED_KEYS = {
  removes: { to: 'removed', values: ['fitted', 'removed'] },
  refits: { to: 'fitted', values: ['fitted', 'removed'] },
  locks: { to: 'locked', values: ['unlocked', 'locked'] },
  unlocks: { to: 'unlocked', values: ['unlocked', 'locked'] },
  'puts-on': { to: 'on', values: ['off', 'on'] },
  'takes-off': { to: 'off', values: ['off', 'on'] },
  snug: { to: 'snug', values: ['final', 'snug'] },
} as const

export type PairedKey = keyof typeof PAIRED_KEYS

export const PAIRED_KEY_NAMES = Object.keys(PAIRED_KEYS) as readonly PairedKey[]

export interface Declared {
  readonly states: readonly State[]
  readonly zones: readonly Zone[]
  readonly never: readonly NeverTogether[]
  readonly stateNames: Names
  readonly zoneNames: Names
}

/** States of the document block, those implied by the work, and the zones and bans that rest on them. */
export function declareStates(
  block: MapNode | null,
  phases: readonly DraftPhase[],
  findings: Finding[] = [],
): Declared {
  const written = entriesOf(valueAt(block ?? undefined, 'states')).flatMap((entry) =>
    positionsOf(entry.value).map((position) => ({ ...named(entry.key, position), entry })),
  )
  const implied = impliedStates(phases, new Set(written.map((state) => state.name)))
  const stateNames = namesOf([...written, ...implied])
  const zoneThings = entriesOf(valueAt(block ?? undefined, 'zones')).flatMap((entry) =>
    positionsOf(entry.value).map((position) => ({ ...named(entry.key, position), entry })),
  )
  const zoneNames = namesOf(zoneThings)
  const scopeAt = (position: string | null): Scope => ({
    positions: position === null ? [] : [position],
    states: stateNames,
    zones: zoneNames,
  })
  const states = written.map(({ id, name, position, entry }): State => {
    const values = textsAt(entry.value, 'values')
    const start = textAt(entry.value, 'start') ?? values[0] ?? ''
    const end = textsAt(entry.value, 'end')
    return {
      id,
      name,
      position,
      values,
      start,
      end: end.length > 0 ? end : [start],
      energy: textAt(entry.value, 'energy'),
      safe: textsAt(entry.value, 'safe'),
      provedBy: textsAt(entry.value, 'proved-by').map(roleId),
      lapses: textAt(entry.value, 'lapses'),
      heldBy: itemsOf(valueAt(entry.value, 'held-by')).map((item) => claimsFrom(item, scopeAt(position))),
      implied: false,
      at: entry.keyAt,
    }
  })
  const zones = zoneThings.map(
    ({ id, name, position, entry }): Zone => ({
      id,
      name,
      position,
      what: textAt(entry.value, 'what') ?? '',
      safeWhen: claimsFrom(valueAt(entry.value, 'safe-when'), scopeAt(position)),
      entry: textAt(entry.value, 'entry'),
      at: entry.keyAt,
    }),
  )
  const never = itemsOf(valueAt(block ?? undefined, 'never')).flatMap((item) =>
    positionsNamed(valueAt(item, 'when'), stateNames).map(
      (position): NeverTogether => ({
        when: claimsFrom(valueAt(item, 'when'), scopeAt(position)),
        because: textAt(item, 'because') ?? '',
        at: item.at,
      }),
    ),
  )
  reportTakenNames(phases, states, findings)
  return { states: [...states, ...implied], zones, never, stateNames, zoneNames }
}

/** A thing may have the name of a state only where it means that state: `locks: [valve]` wants one with `locked`. */
function reportTakenNames(phases: readonly DraftPhase[], states: readonly State[], findings: Finding[]): void {
  for (const block of phases.flatMap(blocksOf))
    for (const key of PAIRED_KEY_NAMES)
      for (const thing of countedThings(valueAt(block, key))) {
        const state = states.find(({ id, name }) => id === thing.id || name === thing.id)
        const { to } = PAIRED_KEYS[key]
        if (state === undefined || state.values.includes(to)) continue
        findings.push(
          found(nameIsAState, {
            at: thing.at,
            message: `"${thing.id}" is a state here, with the values ${state.values.join(', ')}; \`${key}\` would make it ${to}.`,
            advice: `Give the thing a name of its own, like \`${thing.id}-${SUFFIX[key]}\`, or write what happens to the state under \`sets\`.`,
            related: [{ at: state.at, message: `The state ${state.name} is declared here.` }],
          }),
        )
      }
}

const SUFFIX: Readonly<Record<PairedKey, string>> = {
  removes: 'cover',
  refits: 'cover',
  locks: 'isolator',
  unlocks: 'isolator',
  'puts-on': 'clamp',
  'takes-off': 'clamp',
  snug: 'bolts',
}

/** A ban on states that exist once a position holds for each position by itself. */
function positionsNamed(when: BlockNode | undefined, states: Names): readonly (string | null)[] {
  const positions = entriesOf(when).flatMap((entry) =>
    (states.byName.get(entry.key) ?? []).flatMap((state) => state.position ?? []),
  )
  return positions.length > 0 ? [...new Set(positions)] : [null]
}

function positionsOf(node: BlockNode): readonly (string | null)[] {
  const each = textsAt(node, 'each')
  return each.length > 0 ? each : [null]
}

function named(name: string, position: string | null) {
  return { id: position === null ? name : `${name}.${position}`, name, position }
}

/**
 * Things removed, locked, put on or snugged without a state of that name. A thing named outside a repeat is one thing;
 * a thing named only inside repeats is one a position.
 */
function impliedStates(phases: readonly DraftPhase[], declared: ReadonlySet<string>): readonly State[] {
  const mentions = new Map<string, { values: readonly string[]; positions: Set<string | null>; at: Place }>()
  for (const phase of phases) {
    const position = phase.position?.values[0]?.text ?? null
    for (const block of blocksOf(phase)) {
      for (const key of PAIRED_KEY_NAMES) {
        for (const thing of countedThings(valueAt(block, key))) {
          if (declared.has(thing.id) || declared.has(thing.id.split('.')[0] ?? '')) continue
          const mention = mentions.get(thing.id) ?? {
            values: PAIRED_KEYS[key].values,
            positions: new Set(),
            at: thing.at,
          }
          mention.positions.add(position)
          mentions.set(thing.id, mention)
        }
      }
    }
  }
  const namesPosition = (name: string): boolean => {
    const dot = name.lastIndexOf('.')
    const positions = mentions.get(name.slice(0, Math.max(dot, 0)))?.positions
    return (
      positions !== undefined && !positions.has(null) && (positions.has(name.slice(dot + 1)) || name.endsWith('.all'))
    )
  }
  return [...mentions].flatMap(([name, mention]) => {
    // `cover.left` and `cover.all` mean the things of that name in a repeat.
    if (namesPosition(name)) return []
    const positions = mention.positions.has(null) ? [null] : [...mention.positions]
    const start = mention.values[0] ?? ''
    return positions.map(
      (position): State => ({
        ...named(name, position),
        position,
        values: mention.values,
        start,
        end: [start],
        energy: null,
        safe: [],
        provedBy: [],
        lapses: null,
        heldBy: [],
        implied: true,
        at: mention.at,
      }),
    )
  })
}
