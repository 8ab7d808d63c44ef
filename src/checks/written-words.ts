import { type BlockNode, type MapEntry, type MapNode, partOf, valueAt } from '../syntax/block-node.ts'
import type { WrittenBlock, WrittenPhase, WrittenProcedure, WrittenRole, WrittenStep } from '../syntax/written.ts'
import { oncePer } from '../text/once-per.ts'
import type { Place } from '../text/place.ts'

/** A phase, branch or step as written: what the search for a word goes through. */
export type WrittenPart = WrittenPhase | WrittenStep

/** Every phase, branch, step and sub-step as written, in the order of the text. */
export const everyWrittenPart = oncePer((written: WrittenProcedure): readonly WrittenPart[] =>
  written.phases.flatMap(partsOfPhase),
)

const partsOfPhase = oncePer((phase: WrittenPhase): readonly WrittenPart[] => [
  phase,
  ...phase.steps.flatMap(partsOfStep),
  ...phase.branches.flatMap(partsOfPhase),
])

function partsOfStep(step: WrittenStep): readonly WrittenPart[] {
  return [step, ...step.steps.flatMap(partsOfStep)]
}

/** Every block: front matter, document, phases, steps. */
export const everyBlock = oncePer((written: WrittenProcedure): readonly WrittenBlock[] => {
  const blocks = [written.frontMatter, written.block, ...everyWrittenPart(written).map((part) => part.block)]
  return blocks.filter((block) => block !== null)
})

/** What was written where a resolved phase or step says it comes from; undefined for fragments and written-out refits. */
export function writtenAt(written: WrittenProcedure, at: Place): WrittenPart | undefined {
  return partsByPlace(written).get(placeKey(at))
}

const partsByPlace = oncePer((written: WrittenProcedure) => firstByPlace(everyWrittenPart(written), (part) => part.at))

/** The first thing at each place. */
function firstByPlace<Thing>(things: readonly Thing[], placeOf: (thing: Thing) => Place): ReadonlyMap<string, Thing> {
  const found = new Map<string, Thing>()
  for (const thing of things) {
    const key = placeKey(placeOf(thing))
    if (!found.has(key)) found.set(key, thing)
  }
  return found
}

const placeKey = ({ file, start }: Place): string => `${start} ${file}`

/** The place of a role typed in bold before a step or a bullet, or null. */
export function placeOfRole(part: WrittenPart | undefined, isMeant: (name: string) => boolean): Place | null {
  if (part === undefined || !('roles' in part)) return null
  const roles: readonly WrittenRole[] = [...part.roles, ...part.acts.flatMap((act) => act.roles)]
  return roles.find((role) => isMeant(role.name))?.at ?? null
}

/** The place of a word under any of these keys of a block, as a whole word; null where it does not stand there. */
export function placeOfWord(
  block: WrittenBlock | MapNode | null | undefined,
  keys: readonly string[],
  word: string,
): Place | null {
  if (!block) return null
  const map = 'map' in block ? block.map : block
  for (const key of keys) {
    const value = valueAt(map, key)
    const place = value && placeIn(value, word)
    if (place) return place
  }
  return null
}

function placeIn(node: BlockNode, word: string): Place | null {
  if (node.kind === 'scalar') {
    const from = wordStart(node.text, word)
    return from === -1 ? null : partOf(node, from, from + word.length)
  }
  if (node.kind === 'list') return firstOf(node.items, (item) => placeIn(item, word))
  return firstOf(node.entries, (entry) => (entry.key === word ? entry.keyAt : placeIn(entry.value, word)))
}

function firstOf<Item, Answer>(items: readonly Item[], ask: (item: Item) => Answer | null): Answer | null {
  for (const item of items) {
    const answer = ask(item)
    if (answer !== null) return answer
  }
  return null
}

/** The place of a value that stands under the key at `keyAt`; the key itself where the value is not found there. */
export function placeOfValue(written: WrittenProcedure, keyAt: Place, value: string): Place {
  const entry = entryOf(written, keyAt)
  return (entry && placeIn(entry.value, value)) ?? keyAt
}

/** The entry of a block whose key stands at this place; null for entries of fragments. */
function entryOf(written: WrittenProcedure, keyAt: Place): MapEntry | null {
  return entriesByPlace(written).get(placeKey(keyAt)) ?? null
}

const entriesByPlace = oncePer((written: WrittenProcedure) =>
  firstByPlace(everyBlock(written).flatMap(entriesOfBlock), (entry) => entry.keyAt),
)

const entriesOfBlock = oncePer((block: WrittenBlock): readonly MapEntry[] => entriesIn(block.map))

function entriesIn(node: BlockNode): readonly MapEntry[] {
  if (node.kind === 'scalar') return []
  if (node.kind === 'list') return node.items.flatMap(entriesIn)
  return node.entries.flatMap((entry) => [entry, ...entriesIn(entry.value)])
}

const partOfWord = /[\p{L}\p{N}_-]/u

/** Where a text holds the word with no letter, digit or hyphen against it, or -1. */
function wordStart(text: string, word: string): number {
  for (let from = text.indexOf(word); from !== -1; from = text.indexOf(word, from + 1)) {
    const before = from === 0 ? '' : text.charAt(from - 1)
    if (!partOfWord.test(before) && !partOfWord.test(text.charAt(from + word.length))) return from
  }
  return -1
}
