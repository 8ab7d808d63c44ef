import { itemSchema, type LocatedSchema, propertySchema, schemaNamed } from '../syntax/fit-block-schema.ts'
import { offerInProse } from './completion/offer-in-prose.ts'
import { offerKeys, offerKinds } from './completion/offer-key.ts'
import { offerFromLibrary, offerValue } from './completion/offer-value.ts'
import { type Suggestion, suggestionsFrom } from './completion/suggestion.ts'
import { type BlockAround, blockAround } from './cursor/block-around.ts'
import { type PlaceInYaml, placeInYaml } from './cursor/place-in-yaml.ts'
import type { OpenText } from './open-text.ts'

/**
 * What could be typed at an offset. The text may be half typed: what stands before the cursor decides.
 * Nothing is left out for not fitting what is typed of it so far; whoever shows the list narrows it down.
 */
export function completions(open: OpenText, offset: number): readonly Suggestion[] {
  const block = blockAround(open.text, offset)
  if (block === null) {
    const { offers, replaces } = offerInProse(open, offset)
    return suggestionsFrom(offers, offset - replaces, offset)
  }
  const yaml = placeInYaml(open.text, block, offset)
  return yaml === null ? [] : inBlock(open, block, yaml, offset)
}

function inBlock(open: OpenText, block: BlockAround, yaml: PlaceInYaml, offset: number): readonly Suggestion[] {
  const lineStart = open.text.lastIndexOf('\n', yaml.start - 1) + 1
  const indent = ' '.repeat(Math.max(0, yaml.start - lineStart))
  const where = { indent, isInline: yaml.isInline }
  const suggest = (offers: Parameters<typeof suggestionsFrom>[0], start = yaml.start) =>
    suggestionsFrom(offers, start, offset)
  if (yaml.path.length === 0) return suggest(offerKinds(block.place, yaml, where))
  const located = schemaAt(block, yaml.path)
  if (located === null) return []
  const path = yaml.path.filter((key) => key !== '-')
  const beside = fragmentBeside(open, block, offset)
  const keys = yaml.slot === 'value' ? [] : offerKeys(open, located, path, yaml, where, beside)
  if (yaml.slot === 'key') return suggest([...keys, ...namesOfList(open, located, yaml, path)])
  const isInline = yaml.isInline && yaml.quote === null
  const offered = offerValue({ open, schema: located, path, typed: yaml.typed, beside, isInline })
  return [...suggest(keys), ...suggest(offered.offers, offset - offered.replaces)]
}

/** An item of a list of names, in which each may also be a map: `[hard-hat, …`. */
function namesOfList(open: OpenText, located: LocatedSchema, yaml: PlaceInYaml, path: readonly string[]) {
  return located.schema.short?.list === 'names' && yaml.path.at(-1) === '-' ? offerFromLibrary(open, path[0] ?? '') : []
}

/** The schema of what stands below these keys; null where nothing is known there. */
function schemaAt(block: BlockAround, path: readonly string[]): LocatedSchema | null {
  const [first, ...rest] = path
  const front = block.place === 'front-matter' ? schemaNamed('front-matter') : null
  let located = front === null ? schemaNamed(`blocks/${first ?? ''}`) : propertySchema(front, first ?? '')
  for (const key of rest) {
    if (located === null) return null
    located = below(located, key)
  }
  return located
}

function below(located: LocatedSchema, key: string): LocatedSchema | null {
  const { schema } = located
  if (key === '-') {
    if (schema.type === 'array') return itemSchema(located)
    const list = schema.short?.list
    if (list === 'names' || list === undefined) return located
    const property = propertySchema(located, list)
    return property === null ? located : (itemSchema(property) ?? property)
  }
  // One entry of a list may stand without its dash.
  const items = schema.type === 'array' ? itemSchema(located) : located
  return items === null ? null : propertySchema(items, key)
}

/** The fragment that an `include` around the cursor names. */
function fragmentBeside(open: OpenText, block: BlockAround, offset: number): Readonly<Record<string, string>> {
  const include = open.text.slice(block.start, block.end)
  const match = /\bfragment:\s*([\p{L}\p{N}_-]+)/u.exec(include)
  return match?.[1] === undefined || offset < block.start ? {} : { fragment: match[1] }
}
