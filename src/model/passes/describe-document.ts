import { type BlockNode, type MapNode, valueAt } from '../../syntax/block-node.ts'
import type { Place } from '../../text/place.ts'
import type { LookUpTable, NamedSentence } from '../entries.ts'
import type { Acceptance, DocumentInfo, Role } from '../procedure.ts'
import { entriesOf, itemsOf, scalarsOf, textAt, textsAt } from './read-node.ts'
import { roleId } from './resolve-claims.ts'

const STATUSES = ['draft', 'for-review', 'issued', 'withdrawn'] as const

/** What the library says where the document does not. */
export interface DocumentDefaults {
  readonly site: string | null
  readonly printUnits: readonly ('metric' | 'inch')[]
  readonly language: string
  /** What the site asks of its procedures, as far as figures rest on it. */
  readonly checks?: { readonly ruleSet?: string }
}

export function documentInfo(frontMatter: MapNode | null, defaults: DocumentDefaults, at: Place): DocumentInfo {
  const front = frontMatter ?? undefined
  const typedUnits = textsAt(front, 'print-units')
  const systems = (['metric', 'inch'] as const).filter((system) => typedUnits.includes(system))
  return {
    number: textAt(front, 'number') ?? '',
    title: textAt(front, 'title') ?? '',
    revision: textAt(front, 'revision') ?? '',
    status: STATUSES.find((status) => status === textAt(front, 'status')) ?? 'draft',
    date: textAt(front, 'date') ?? '',
    site: textAt(front, 'site') ?? defaults.site,
    author: textAt(front, 'author'),
    supersedes: textAt(front, 'supersedes'),
    reviewBy: textAt(front, 'review-by'),
    language: textAt(front, 'language') ?? defaults.language,
    printUnits: typedUnits.length > 0 ? inOrderTyped(systems, typedUnits) : defaults.printUnits,
    variants: entriesOf(valueAt(front, 'variants')).map((entry) => ({
      name: entry.key,
      values: scalarsOf(entry.value).map((scalar) => scalar.text),
    })),
    approvals: itemsOf(valueAt(front, 'approvals')).map((item) => ({
      role: roleId(textAt(item, 'role') ?? ''),
      name: textAt(item, 'name'),
      date: textAt(item, 'date'),
    })),
    at,
  }
}

/** The unit named first is printed first. */
function inOrderTyped<System extends string>(systems: readonly System[], typed: readonly string[]): readonly System[] {
  return [...systems].sort((a, b) => typed.indexOf(a) - typed.indexOf(b))
}

/** Roles of the document, each with what the library knows of it. */
export function declareRoles(block: MapNode | null, library: ReadonlyMap<string, BlockNode>): readonly Role[] {
  return entriesOf(valueAt(block ?? undefined, 'roles')).map((entry): Role => {
    const known = library.get(entry.key)
    const listAt = (key: string) => {
      const own = textsAt(entry.value, key)
      return own.length > 0 ? own : textsAt(known, key)
    }
    return {
      id: roleId(entry.key),
      who: textAt(entry.value, 'who') ?? textAt(known, 'who') ?? entry.key,
      qualifications: listAt('qualification'),
      differentFrom: listAt('different-from').map(roleId),
      at: entry.keyAt,
    }
  })
}

export function declareTables(block: MapNode | null): readonly LookUpTable[] {
  return entriesOf(valueAt(block ?? undefined, 'tables')).map((entry) => ({
    id: entry.key,
    columns: textsAt(entry.value, 'columns'),
    rows: itemsOf(valueAt(entry.value, 'rows')).map((row) => scalarsOf(row).map((cell) => cell.text)),
    at: entry.keyAt,
  }))
}

export function namedSentences(node: BlockNode | undefined): readonly NamedSentence[] {
  return entriesOf(node).map((entry) => ({
    name: entry.key,
    says: entry.value.kind === 'scalar' ? entry.value.text : '',
  }))
}

/** `accept` of the front matter, of a phase or of a step. */
export function acceptancesFrom(node: BlockNode | undefined, step: string | null): readonly Acceptance[] {
  return itemsOf(node).map((item) => ({
    finding: textAt(item, 'finding') ?? '',
    step: textAt(item, 'step') ?? step,
    because: textAt(item, 'because') ?? '',
    role: roleId(textAt(item, 'role') ?? ''),
    at: item.at,
  }))
}
