import { type Finding, found, type Outcome } from '../findings/finding.ts'
import { type BlockNode, valueAt } from '../syntax/block-node.ts'
import type { Place } from '../text/place.ts'
import type { SourceText } from '../text/source-text.ts'
import { definedTwice } from './faults/faults.ts'
import type { LibraryReader } from './library-reader.ts'
import { readLibraryFile } from './read-library-file.ts'

const TOPICS = ['hazards', 'tools', 'instruments', 'gear', 'fasteners', 'ppe', 'roles'] as const

export type Topic = (typeof TOPICS)[number]

/** What `shared/` holds: the items of each topic by name. */
export type Catalogues = { readonly [topic in Topic]: ReadonlyMap<string, BlockNode> }

export interface ReadCatalogues {
  readonly catalogues: Catalogues
  readonly sources: readonly SourceText[]
}

/** Reads every `shared/<topic>/*.yaml`. */
export function readCatalogues(reader: LibraryReader): Outcome<ReadCatalogues> {
  const findings: Finding[] = []
  const sources: SourceText[] = []
  const readTopic = (topic: Topic): ReadonlyMap<string, BlockNode> => {
    const items = new Map<string, BlockNode>()
    const places = new Map<string, Place>()
    for (const path of reader.listFolder(`shared/${topic}`).filter((file) => /\.ya?ml$/.test(file))) {
      const file = readLibraryFile(reader, path, `library/${topic}`)
      findings.push(...file.findings)
      if (file.value.source) sources.push(file.value.source)
      const list = valueAt(file.value.value ?? undefined, 'items')
      for (const entry of list?.kind === 'map' ? list.entries : []) {
        const first = places.get(entry.key)
        if (first) {
          findings.push(
            found(definedTwice, {
              at: entry.keyAt,
              message: `"${entry.key}" is already defined in ${first.file}.`,
              advice: 'Give one of the two another name, or delete it.',
              related: [{ at: first, message: 'The first one stands here.' }],
            }),
          )
          continue
        }
        places.set(entry.key, entry.keyAt)
        items.set(entry.key, entry.value)
      }
    }
    return items
  }
  const catalogues: Catalogues = {
    hazards: readTopic('hazards'),
    tools: readTopic('tools'),
    instruments: readTopic('instruments'),
    gear: readTopic('gear'),
    fasteners: readTopic('fasteners'),
    ppe: readTopic('ppe'),
    roles: readTopic('roles'),
  }
  return { value: { catalogues, sources }, findings }
}
