import { schemas } from '#generated/schemas'

/** Where a key may stand. */
export type BlockPlace = 'front-matter' | 'document' | 'phase' | 'step'

/** The shapes that a piece of a short form is recognised by. */
export type Look = 'limit' | 'unit' | 'fastener' | 'span'

/** How a value may be written short. Every name on the right is a property of the long form. */
export interface ShortForm {
  /** The first piece, unless it begins with one of `words`. */
  readonly head?: string
  /** The first piece, by its look; the first that fits. */
  readonly heads?: readonly { readonly looks: Look; readonly gives: string }[]
  /** The first piece, whatever it begins with. */
  readonly first?: string
  /** Pieces `word value`. */
  readonly words?: Readonly<Record<string, string>>
  /** Pieces that are one fixed phrase, with what they stand for. */
  readonly flags?: Readonly<Record<string, Readonly<Record<string, string>>>>
  /** Pieces without a word, by their look or as one of a list of words. */
  readonly pieces?: readonly { readonly looks?: Look; readonly among?: readonly string[]; readonly gives: string }[]
  /** The whole text is this one property and is never split. */
  readonly whole?: string
  /** Whole texts with a meaning of their own: the long form they stand for. */
  readonly exact?: Readonly<Record<string, Readonly<Record<string, string>> | readonly string[]>>
  /** The whole text has this look, which names its own properties. */
  readonly looks?: 'fastener' | 'span'
  /** `24 × wheel-nut`: a count and a thing. */
  readonly counted?: boolean
  /** What a list stands for: a map from each name to an empty map, a table of rows, or the list of one property. */
  readonly list?: string
  /** A property that is absent is copied from another one. */
  readonly missing?: Readonly<Record<string, string>>
  /** A list of two is written with this between its items. */
  readonly between?: string
}

/** How the text of a list is cut into its items. */
export type Split = 'blanks' | 'commas' | 'amounts' | 'passes' | 'never'

/** The part of JSON Schema that the files under `schema/` use, with the keywords that are ours. */
export interface BlockSchema {
  readonly $id?: string
  readonly $ref?: string
  readonly $defs?: Readonly<Record<string, BlockSchema>>
  readonly title?: string
  readonly description?: string
  readonly examples?: readonly unknown[]
  readonly type?: 'string' | 'array' | 'object'
  readonly properties?: Readonly<Record<string, BlockSchema>>
  readonly additionalProperties?: BlockSchema | false
  readonly items?: BlockSchema
  readonly required?: readonly string[]
  readonly anyOf?: readonly { readonly required: readonly string[] }[]
  readonly enum?: readonly string[]
  /** Where the key may stand. */
  readonly places?: readonly BlockPlace[]
  /** What is wanted here, as a person would say it: "a limit, like max 3 mm". */
  readonly wants?: string
  readonly short?: ShortForm
  readonly split?: Split
  /** What a text stands for: `limit`, `role`, `state`, `sentence` … */
  readonly holds?: string
  /** What the keys of a map refer to. */
  readonly keysHold?: string
  /** What the keys of a map define. */
  readonly keysDefine?: string
}

/** A schema with every reference at its top followed, and the file its own references are relative to. */
export interface LocatedSchema {
  readonly schema: BlockSchema
  /** Path without ending, `blocks/torque`. */
  readonly file: string
}

const byName = schemas as Readonly<Record<string, BlockSchema | undefined>>

/** The schema of a file under `schema/`, by its path without ending; null where there is none. */
export function schemaNamed(name: string): LocatedSchema | null {
  if (!Object.hasOwn(byName, name)) return null
  const schema = byName[name]
  return schema === undefined ? null : followed({ schema, file: name })
}

const keyFolder = 'blocks/'

/** Every key of a block, with the schema of its value. */
export const blockKeys: ReadonlyMap<string, BlockSchema> = new Map(
  Object.entries(byName).flatMap(([name, schema]) =>
    name.startsWith(keyFolder) && schema !== undefined ? [[name.slice(keyFolder.length), schema] as const] : [],
  ),
)

/** The schema of a property of a map, or null where the map does not know it. */
export function propertySchema(located: LocatedSchema, name: string): LocatedSchema | null {
  const { properties, additionalProperties } = located.schema
  const own = properties !== undefined && Object.hasOwn(properties, name) ? properties[name] : undefined
  const schema = own ?? (additionalProperties || undefined)
  return schema === undefined ? null : followed({ schema, file: located.file })
}

/** The schema of the items of a list, or null where the schema is none of a list. */
export function itemSchema(located: LocatedSchema): LocatedSchema | null {
  const { items } = located.schema
  return items === undefined ? null : followed({ schema: items, file: located.file })
}

const known = new WeakMap<BlockSchema, LocatedSchema>()

function followed(located: LocatedSchema): LocatedSchema {
  const { $ref, ...beside } = located.schema
  if ($ref === undefined) return located
  const before = known.get(located.schema)
  if (before !== undefined) return before
  const target = followed(referred($ref, located.file))
  // What stands beside a reference says more about this very place.
  const result = { schema: { ...target.schema, ...beside }, file: target.file }
  known.set(located.schema, result)
  return result
}

function referred(reference: string, from: string): LocatedSchema {
  const [path = '', fragment = ''] = reference.split('#')
  const file = path === '' ? from : resolved(path, from)
  let schema = byName[file]
  const name = /^\/\$defs\/(.+)$/.exec(fragment)?.[1]
  if (name !== undefined) schema = schema?.$defs?.[name]
  if (schema === undefined) throw new Error(`schema/${from}: nothing stands at ${reference}`)
  return { schema, file }
}

/** `../common.schema.json` from `blocks/torque` is `common`. */
function resolved(path: string, from: string): string {
  const parts = from.split('/').slice(0, -1)
  for (const part of path.replace(/\.schema\.json$/, '').split('/')) {
    if (part === '..') parts.pop()
    else parts.push(part)
  }
  return parts.join('/')
}
