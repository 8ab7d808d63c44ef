import {
  type BlockPlace,
  type BlockSchema,
  blockKeys,
  itemSchema,
  type LocatedSchema,
  propertySchema,
  schemaNamed,
} from '../../syntax/fit-block-schema.ts'
import type { PlaceInYaml } from '../cursor/place-in-yaml.ts'
import { schemaAsMarkdown } from '../explain-in-markdown.ts'
import type { OpenText } from '../open-text.ts'
import * as names from './offer-names.ts'
import { offerFromLibrary } from './offer-value.ts'
import type { Offer } from './suggestion.ts'

/** Where a new key goes: its blanks, and whether it stands between braces. */
export interface KeyPlace {
  readonly indent: string
  readonly isInline: boolean
}

/** Kinds of a block that may stand at a place, without those that stand there already. */
export function offerKinds(place: BlockPlace, yaml: PlaceInYaml, where: KeyPlace): readonly Offer[] {
  if (place === 'front-matter') {
    const front = schemaNamed('front-matter')
    return front === null ? [] : offerProperties(front, yaml, where)
  }
  return [...blockKeys]
    .filter(([key, schema]) => schema.places?.includes(place) && !yaml.siblings.includes(key))
    .map(([key, schema]) => keyOffer(key, followed(key) ?? { schema, file: `blocks/${key}` }, where))
}

const followed = (key: string): LocatedSchema | null => schemaNamed(`blocks/${key}`)

/** Keys of a map, by its schema: fixed properties, or names of what is there. */
export function offerKeys(
  open: OpenText,
  located: LocatedSchema,
  path: readonly string[],
  yaml: PlaceInYaml,
  where: KeyPlace,
  beside: Readonly<Record<string, string>>,
): readonly Offer[] {
  const { schema } = located
  if (schema.type === 'array') {
    const items = itemSchema(located)
    return items === null ? [] : offerKeys(open, items, path, yaml, where, beside)
  }
  if (schema.properties !== undefined) return offerProperties(located, yaml, where)
  const fresh = (offers: readonly Offer[]): readonly Offer[] =>
    offers
      .filter(({ label }) => !yaml.siblings.includes(label))
      .map((offer) => ({ ...offer, insert: `${offer.label}: ` }))
  switch (schema.keysHold ?? schema.keysDefine) {
    case 'state':
      return fresh(
        schema.keysHold === undefined ? names.offerOfMachine(open, 'energies', 'state') : names.offerStates(open),
      )
    case 'role':
      return fresh(schema.keysHold === undefined ? offerFromLibrary(open, 'roles') : names.offerRoles(open))
    case 'variant-value':
      return fresh(names.offerDefined(open, 'variant-value', 'value'))
    case 'machine-energy':
      return fresh(names.offerOfMachine(open, 'energies', 'state'))
    case 'load':
      return fresh(names.offerOfMachine(open, 'masses', 'thing'))
    case 'parameter':
      return fresh(names.offerParameters(open, beside.fragment ?? null))
    case 'torque':
      return fresh(
        names
          .distinct(open.names.filter(({ sort, key }) => sort === 'thing' && key === 'snug'))
          .map(({ name }) => ({ label: name, kind: 'torque' })),
      )
    default:
      return fresh(offerFromLibrary(open, path[0] ?? ''))
  }
}

function offerProperties(located: LocatedSchema, yaml: PlaceInYaml, where: KeyPlace): readonly Offer[] {
  return Object.keys(located.schema.properties ?? {})
    .filter((key) => !yaml.siblings.includes(key))
    .flatMap((key) => {
      const property = propertySchema(located, key)
      return property === null ? [] : [keyOffer(key, property, where)]
    })
}

function keyOffer(key: string, located: LocatedSchema, where: KeyPlace): Offer {
  const { schema } = located
  return {
    label: key,
    kind: 'key',
    detail: schema.title ?? schema.wants ?? '',
    documentation: schemaAsMarkdown(key, schema, schema.places ?? []),
    insert: `${key}:${behindKey(schema, where)}`,
  }
}

/** What follows a key: nothing but a blank, brackets, braces, or a line of its own below it. */
function behindKey(schema: BlockSchema, { indent, isInline }: KeyPlace): string {
  const isNames = schema.short?.list !== undefined && schema.short.whole === undefined
  if (isNames || (schema.type === 'array' && schema.items?.type !== 'object')) return ' [¦]'
  if (schema.type !== 'object' || schema.short !== undefined) return ' '
  const isMapOfWords = schema.keysHold !== undefined && schema.keysHold !== 'role'
  if (isInline || isMapOfWords) return ' { ¦ }'
  return `\n${indent}  `
}
