import { convertValue } from '../../quantities/convert.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import type { Bound, Limit } from '../../quantities/quantity-types.ts'
import { toExactText } from '../../quantities/rational.ts'
import { type BlockNode, type MapNode, valueAt } from '../../syntax/block-node.ts'
import type { Exposed, Keep, Permit, Waiting } from '../procedure.ts'
import { entriesOf, itemsOf, scalarsAt, scalarsOf, textAt, textsAt } from './read-node.ts'
import { claimsFrom, roleId, type Scope, zonesFor } from './resolve-claims.ts'

/** `exposed`: one a block. */
export function exposedFrom(block: MapNode | null, scope: Scope): readonly Exposed[] {
  const entry = block?.entries.find((candidate) => candidate.key === 'exposed')
  if (entry === undefined) return []
  const node = entry.value
  return [
    {
      zones: scalarsAt(node, 'zone').flatMap((zone) => zonesFor(zone.text, scope)),
      who: textsAt(node, 'who').map(roleId),
      because: textAt(node, 'because') ?? '',
      controls: textsAt(node, 'controls'),
      agreedBy: entriesOf(valueAt(node, 'hold')).map(({ key, value }) => ({
        name: roleId(key),
        says: sentence(value),
      })),
      at: entry.keyAt,
    },
  ]
}

/** `keep: { isolation: { states: { power: isolated }, by: second, through: close } }`; steps are linked later. */
export function keepsFrom(block: MapNode | null, scope: Scope): readonly Keep[] {
  return entriesOf(valueAt(block ?? undefined, 'keep')).map(({ key, keyAt, value }) => {
    const through = textAt(value, 'through')
    return {
      name: key,
      says: textAt(value, 'says'),
      states: claimsFrom(valueAt(value, 'states'), scope),
      distance: textAt(value, 'distance'),
      by: textsAt(value, 'by').map(roleId),
      every: textAt(value, 'every'),
      through: through === null ? null : { id: through, number: '' },
      at: keyAt,
    }
  })
}

/** `permit: { confined-space: permit-officer, lapses 8 h }`. */
export function permitsFrom(block: MapNode | null, scope: Scope): readonly Permit[] {
  return entriesOf(valueAt(block ?? undefined, 'permit')).map(({ key, keyAt, value }) => {
    const by = textAt(value, 'by')
    return {
      name: key,
      by: by === null ? null : roleId(by),
      zones: scalarsAt(value, 'zone').flatMap((zone) => zonesFor(zone.text, scope)),
      lapses: textAt(value, 'lapses'),
      says: textAt(value, 'says'),
      at: keyAt,
    }
  })
}

/** `wait: 4 h to 24 h` as minutes. What is no time is left out; a check reports it. */
export function waitingFrom(block: MapNode | null): readonly Waiting[] {
  return itemsOf(valueAt(block ?? undefined, 'wait')).flatMap((item): readonly Waiting[] => {
    const parsed = parseLimit(textAt(item, 'limit') ?? '', 'time')
    if (!parsed.ok) return []
    const { earliest, latest } = endsOf(parsed.value)
    return [{ earliest, latest, after: textAt(item, 'after') }]
  })
}

/** A bare time is waited for, no less and no longer. */
function endsOf(limit: Limit) {
  const { lower, upper, aim, unit } = limit
  const minutes = (value: Bound['value'] | null): string | null => {
    const converted = value && convertValue(value, unit, 'min')
    return converted?.ok ? toExactText(converted.value) : null
  }
  const isBare = lower === null && upper === null
  return {
    earliest: minutes(lower?.value ?? (isBare ? aim : null)),
    latest: minutes(upper?.value ?? (isBare ? aim : null)),
  }
}

function sentence(node: BlockNode): string {
  return scalarsOf(node)
    .map((scalar) => scalar.text)
    .join(' ')
}
