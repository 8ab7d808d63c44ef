import { catalogue } from '../../catalogue.ts'
import { readMachine } from '../../library/read-machine.ts'
import { PAIRED_KEYS } from '../../model/passes/declare-states.ts'
import { functionNames } from '../../quantities/expression.ts'
import { type BlockNode, plainValue, valueAt } from '../../syntax/block-node.ts'
import { exampleLine } from '../../syntax/fit-example.ts'
import { readFragment } from '../../syntax/read-fragment.ts'
import { sourceText } from '../../text/source-text.ts'
import { cataloguesOf } from '../names/find-names.ts'
import type { NameMark, NameSort } from '../names/name-mark.ts'
import type { OpenText } from '../open-text.ts'
import { type OutlineEntry, outline } from '../outline.ts'
import type { Offer, SuggestionKind } from './suggestion.ts'

/** Steps, phases and branches that have an id. */
export function offerSteps(open: OpenText): readonly Offer[] {
  const offers = (entries: readonly OutlineEntry[]): readonly Offer[] =>
    entries.flatMap(({ id, detail, name, children }) => [
      ...(id === null ? [] : [{ label: id, kind: 'step' as const, detail: `${detail} ${name}` }]),
      ...offers(children),
    ])
  return offers(outline(open))
}

/** Names of a sort that this text defines. */
export function offerDefined(open: OpenText, sort: NameSort, kind: SuggestionKind): readonly Offer[] {
  return distinct(open.names.filter((mark) => mark.sort === sort && mark.defines)).map(({ name }) => ({
    label: name,
    kind,
  }))
}

/** Values of a state, or of every state where none is named. */
export function offerValues(open: OpenText, state: string | null): readonly Offer[] {
  const name = state?.split('.')[0] ?? null
  const own = open.names.filter(
    (mark) => mark.sort === 'value' && mark.defines && (name === null || mark.owner === name),
  )
  const implied = name === null || own.length > 0 ? [] : impliedValues(open, name)
  return [
    ...distinct(own).map(({ name: label, owner }) => ({ label, kind: 'value' as const, detail: owner ?? '' })),
    ...implied.map((label) => ({ label, kind: 'value' as const, detail: name ?? '' })),
  ]
}

/** A guard that comes off is a state by its name. */
function impliedValues(open: OpenText, name: string): readonly string[] {
  const keys = keysNaming(open, name)
  return [...new Set(keys.flatMap((key) => PAIRED_KEYS[key].values))]
}

type PairedKey = keyof typeof PAIRED_KEYS

function keysNaming(open: OpenText, name: string): readonly PairedKey[] {
  const marks = open.names.filter((mark) => mark.sort === 'thing' && mark.name === name)
  return marks.flatMap(({ key }) => (key !== null && Object.hasOwn(PAIRED_KEYS, key) ? [key as PairedKey] : []))
}

/** Declared states, then what is a state because it comes off, is locked or put on. */
export function offerStates(open: OpenText): readonly Offer[] {
  const implied = distinct(open.names.filter(({ sort, key }) => sort === 'thing' && key !== 'fits'))
  return [
    ...offerDefined(open, 'state', 'state'),
    ...implied.map(({ name }) => ({ label: name, kind: 'state' as const, detail: 'comes off, is locked or put on' })),
  ]
}

export function offerRoles(open: OpenText): readonly Offer[] {
  const declared = declaredNames(open, 'roles')
  const used = distinct(open.names.filter(({ sort }) => sort === 'role')).map(({ name }) => name)
  const configured = [...open.library.configuration.roles.keys()]
  return [...declared, ...configured, ...used].map((label) => ({
    label,
    kind: 'role',
    detail: factOf(open, 'role', label),
  }))
}

/** Keys of a list or map of the document block: what it declares or takes from the library. */
function declaredNames(open: OpenText, key: string): readonly string[] {
  const node = valueAt(open.written.block?.map, key)
  if (node === undefined) return []
  if (node.kind === 'map') return node.entries.map((entry) => entry.key)
  if (node.kind === 'scalar') return node.text.split(/[,\s]+/)
  return node.items.flatMap((item) =>
    item.kind === 'scalar' ? [item.text] : item.kind === 'map' ? item.entries.map((entry) => entry.key) : [],
  )
}

/** What the document names first, then the rest of the library. */
export function offerResources(open: OpenText): readonly Offer[] {
  const named = ['tools', 'gear', 'parts', 'consumables'].flatMap((key) => declaredNames(open, key))
  return [
    ...named.map((label) => ({ label, kind: 'resource' as const, detail: factOf(open, 'resource', label) })),
    ...offerShared(open, 'resource', 'resource'),
  ]
}

/** Everything of a sort that `shared/` has. */
export function offerShared(open: OpenText, sort: NameSort, kind: SuggestionKind): readonly Offer[] {
  return cataloguesOf(open, sort).flatMap((items) => fromCatalogue(items, kind))
}

export function fromCatalogue(items: ReadonlyMap<string, BlockNode>, kind: SuggestionKind): readonly Offer[] {
  return [...items].map(([label, node]) => ({
    label,
    kind,
    detail: headOf(node),
    documentation: `\`\`\`yaml\n${label}: ${exampleLine(plainValue(node))}\n\`\`\``,
  }))
}

function factOf(open: OpenText, sort: NameSort, name: string): string {
  for (const items of cataloguesOf(open, sort)) {
    const node = items.get(name)
    if (node !== undefined) return headOf(node)
  }
  return ''
}

/** The words that tell most about an entry of a catalogue. */
function headOf(node: BlockNode): string {
  const fact = ['name', 'hazard', 'who', 'what']
    .map((key) => valueAt(node, key))
    .find((value) => value?.kind === 'scalar')
  return fact?.kind === 'scalar' ? fact.text : ''
}

/** Things for `removes`, `locks`, `snug` and their opposites: the other half of the pair first. */
export function offerThings(open: OpenText, key: string): readonly Offer[] {
  const half = otherHalf[key]
  const things = distinct(open.names.filter((mark) => mark.sort === 'thing' && mark.key === half))
  const offers: Offer[] = things.map(({ name }) => ({ label: name, kind: 'thing', detail: half ?? '' }))
  if (key === 'locks' || key === 'unlocks') offers.push(...offerOfMachine(open, 'isolation-points', 'thing'))
  if (key === 'snug') offers.push(...offerDefined(open, 'torque', 'torque'))
  if (key === 'fits')
    offers.push(...declaredNames(open, 'parts').map((label) => ({ label, kind: 'resource' as const })))
  return offers
}

const otherHalf: Readonly<Record<string, string>> = {
  refits: 'removes',
  removes: 'refits',
  unlocks: 'locks',
  locks: 'unlocks',
  'takes-off': 'puts-on',
  'puts-on': 'takes-off',
}

/** Entries of the machine file of this document. */
export function offerOfMachine(
  open: OpenText,
  list: 'energies' | 'isolation-points' | 'masses',
  kind: SuggestionKind,
): readonly Offer[] {
  const machine = open.names.find(({ sort }) => sort === 'machine')
  if (machine === undefined) return []
  const node = valueAt(readMachine(open.library.reader, machine.name).value.value ?? undefined, list)
  if (node?.kind !== 'map') return []
  return node.entries.map(({ key, value }) => ({
    label: key,
    kind,
    detail:
      value.kind === 'scalar'
        ? value.text
        : (['what', 'magnitude', 'kind'].map((name) => textOf(valueAt(value, name))).find((text) => text !== '') ?? ''),
  }))
}

const textOf = (node: BlockNode | undefined): string => (node?.kind === 'scalar' ? node.text : '')

export function offerFiles(open: OpenText, folder: 'fragments' | 'machines'): readonly Offer[] {
  const ending = folder === 'fragments' ? '.md' : '.yaml'
  return open.library.reader
    .listFolder(`shared/${folder}`)
    .filter((path) => path.endsWith(ending) && !path.endsWith('/README.md'))
    .map((path) => ({
      label: path.slice(`shared/${folder}/`.length, -ending.length),
      kind: folder === 'fragments' ? 'fragment' : 'machine',
    }))
}

/** Parameters of the fragment that an `include` names. */
export function offerParameters(open: OpenText, fragment: string | null): readonly Offer[] {
  if (fragment === null) return []
  const path = `shared/fragments/${fragment}.md`
  const answer = open.library.reader.readText(path)
  if (answer.kind !== 'text') return []
  const { frontMatter } = readFragment(sourceText(path, answer.text)).value
  const parameters = valueAt(frontMatter?.map, 'parameters')
  if (parameters?.kind !== 'map') return []
  return parameters.entries.map(({ key, value }) => ({
    label: key,
    kind: 'parameter',
    detail: textOf(value),
    insert: `${key}: `,
  }))
}

/** What a formula may name, then its functions and words. */
export function offerFormula(open: OpenText): readonly Offer[] {
  return [
    ...offerDefined(open, 'reading', 'reading'),
    ...offerDefined(open, 'torque', 'torque'),
    ...offerStates(open),
    ...offerDefined(open, 'variant', 'variant'),
    ...['in limit', 'and', 'or', 'not'].map((label) => ({ label, kind: 'word' as const })),
    ...functionNames.map((label) => ({ label, kind: 'word' as const, detail: 'function', insert: `${label}(¦)` })),
  ]
}

/** Kinds of findings that can be accepted. */
export function offerFindings(): readonly Offer[] {
  return catalogue.map(({ name, title, severity }) => ({
    label: name,
    kind: 'finding',
    detail: severity,
    documentation: title,
  }))
}

export function distinct(marks: readonly NameMark[]): readonly NameMark[] {
  const first = new Map<string, NameMark>()
  for (const mark of marks) if (!first.has(mark.name)) first.set(mark.name, mark)
  return [...first.values()]
}
