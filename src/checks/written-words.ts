import { type BlockNode, type MapEntry, type MapNode, partOf, valueAt } from '../syntax/block-node.ts'
import type { WrittenBlock, WrittenPhase, WrittenProcedure, WrittenRole, WrittenStep } from '../syntax/written.ts'
import type { Place } from '../text/place.ts'

/** A phase, branch or step as written: what the search for a word goes through. */
export type WrittenPart = WrittenPhase | WrittenStep

/** Every phase, branch, step and sub-step as written, in the order of the text. */
export function everyWrittenPart(written: WrittenProcedure): readonly WrittenPart[] {
  const known = partsOf.get(written) ?? written.phases.flatMap(partsOfPhase)
  partsOf.set(written, known)
  return known
}

/** The parts are asked for once for each step: they are laid out once for each procedure. */
const partsOf = new WeakMap<WrittenProcedure, readonly WrittenPart[]>()

function partsOfPhase(phase: WrittenPhase): readonly WrittenPart[] {
  return [phase, ...phase.steps.flatMap(partsOfStep), ...phase.branches.flatMap(partsOfPhase)]
}

function partsOfStep(step: WrittenStep): readonly WrittenPart[] {
  return [step, ...step.steps.flatMap(partsOfStep)]
}

/** Every block: front matter, document, phases, steps. */
export function everyBlock(written: WrittenProcedure): readonly WrittenBlock[] {
  const blocks = [written.frontMatter, written.block, ...everyWrittenPart(written).map((part) => part.block)]
  return blocks.filter((block) => block !== null)
}

/** What was written where a resolved phase or step says it comes from; undefined for fragments and written-out refits. */
export function writtenAt(written: WrittenProcedure, at: Place): WrittenPart | undefined {
  return everyWrittenPart(written).find((part) => part.at.file === at.file && part.at.start === at.start)
}

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
  return firstOf(everyBlock(written), (block) => entryAt(block.map, keyAt))
}

function entryAt(node: BlockNode, keyAt: Place): MapEntry | null {
  if (node.kind === 'scalar') return null
  if (node.kind === 'list') return firstOf(node.items, (item) => entryAt(item, keyAt))
  return firstOf(node.entries, (entry) =>
    entry.keyAt.start === keyAt.start && entry.keyAt.file === keyAt.file ? entry : entryAt(entry.value, keyAt),
  )
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
