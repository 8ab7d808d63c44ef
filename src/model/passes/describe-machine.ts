import { type BlockNode, type MapNode, valueAt } from '../../syntax/block-node.ts'
import type { Machine } from '../procedure.ts'
import { inWords } from './entries.ts'
import { entriesOf, textAt, textsAt } from './read-node.ts'

/** What `machine` says: in the front matter, and more of it in the document's block. */
export function machineReference(frontMatter: MapNode | null, block: MapNode | null) {
  const places = [valueAt(block ?? undefined, 'machine'), valueAt(frontMatter ?? undefined, 'machine')]
  const node = places.find((place) => place !== undefined)
  const id = node && valueAt(node, 'id')
  return id?.kind === 'scalar'
    ? { id, energies: valueAt(node, 'energies'), dismissed: valueAt(node, 'dismissed') }
    : null
}

/** A machine file, with what this document makes of each of its energies. */
export function describeMachine(
  id: string,
  file: BlockNode,
  states: readonly string[],
  energies: BlockNode | undefined,
  dismissed: BlockNode | undefined,
): Machine {
  return {
    id,
    name: textAt(file, 'name') ?? id,
    serials: textsAt(file, 'serials'),
    energies: entriesOf(valueAt(file, 'energies')).map((entry) => ({
      id: entry.key,
      kind: textAt(entry.value, 'kind') ?? '',
      magnitude: textAt(entry.value, 'magnitude'),
      // An energy with the name of a state is that state.
      state: textAt(energies, entry.key) ?? (states.includes(entry.key) ? entry.key : null),
      because: textAt(dismissed, entry.key),
    })),
    isolationPoints: entriesOf(valueAt(file, 'isolation-points')).map((entry) => ({
      id: entry.key,
      what: textAt(entry.value, 'what') ?? '',
      where: textAt(entry.value, 'where'),
      energy: textAt(entry.value, 'energy'),
    })),
    masses: entriesOf(valueAt(file, 'masses')).map((entry) => ({ name: entry.key, text: inWords(entry.value) })),
    notes: textAt(file, 'notes'),
  }
}
