import { type Finding, found, type Outcome } from '../findings/finding.ts'
import { type BlockNode, type MapEntry, valueAt } from '../syntax/block-node.ts'
import type { Place } from '../text/place.ts'
import type { SourceText } from '../text/source-text.ts'
import { definedTwice, unreadFile } from './faults/faults.ts'
import type { LibraryReader } from './library-reader.ts'
import { readLibraryFile } from './read-library-file.ts'

const TOPICS = ['hazards', 'tools', 'instruments', 'gear', 'fasteners', 'ppe', 'roles'] as const

type Topic = (typeof TOPICS)[number]

/** What `shared/` holds: the items of each topic by name. */
export type Catalogues = { readonly [topic in Topic]: ReadonlyMap<string, BlockNode> }

export interface ReadCatalogues {
  readonly catalogues: Catalogues
  readonly sources: readonly SourceText[]
}

/** Topics whose items a step names in one breath, so that a name may stand in one of them only. */
const SHARE_NAMES: ReadonlySet<Topic> = new Set<Topic>(['tools', 'instruments', 'gear'])

/** Reads every `shared/<topic>/*.yaml`. */
export function readCatalogues(reader: LibraryReader): Outcome<ReadCatalogues> {
  const findings: Finding[] = []
  const sources: SourceText[] = []
  const sharedPlaces = new Map<string, Place>()
  const readTopic = (topic: Topic): ReadonlyMap<string, BlockNode> => {
    const items = new Map<string, BlockNode>()
    const places = SHARE_NAMES.has(topic) ? sharedPlaces : new Map<string, Place>()
    for (const path of reader.listFolder(`shared/${topic}`)) {
      if (!isYaml(path)) {
        if (!isAside(path)) findings.push(unread(path))
        continue
      }
      const file = readLibraryFile(reader, path, `library/${topic}`)
      findings.push(...file.findings)
      if (file.value.source) sources.push(file.value.source)
      const list = valueAt(file.value.value ?? undefined, 'items')
      for (const entry of list?.kind === 'map' ? list.entries : []) {
        const first = places.get(entry.key)
        if (first) {
          findings.push(twice(entry, first))
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

const isYaml = (path: string): boolean => /\.ya?ml$/.test(path)

/** Notes for people, and what computers leave lying about. */
const isAside = (path: string): boolean => /(?:^|\/)(?:README\.md|\.[^/]*|[^/]*~|Thumbs\.db|desktop\.ini)$/.test(path)

function unread(path: string): Finding {
  return found(unreadFile, {
    at: { file: path, start: 0, end: 0 },
    message: `${path} is not read: only files that end in .yaml are.`,
    advice: 'Give it the ending .yaml, or put it somewhere else. A note for people is called README.md.',
  })
}

function twice(entry: MapEntry, first: Place): Finding {
  return found(definedTwice, {
    at: entry.keyAt,
    message: `"${entry.key}" is already defined in ${first.file}.`,
    advice: 'Give one of the two another name, or delete it.',
    related: [{ at: first, message: 'The first one stands here.' }],
  })
}
