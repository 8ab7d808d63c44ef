import { itemSchema, type LocatedSchema, propertySchema } from '../../syntax/fit-block-schema.ts'
import { offerStates, offerValues } from '../completion/offer-names.ts'
import { offerUnits } from '../completion/offer-units.ts'
import { offerValue } from '../completion/offer-value.ts'
import type { Offer } from '../completion/suggestion.ts'
import type { OpenText } from '../open-text.ts'
import type { FormField, FormShape, Pick, StatePick } from './form.ts'

/** What is not asked for deeper than this: a consequence may have a consequence of its own, without end. */
const deepest = 5

/** How a value is asked for, from its schema; what can be picked comes from the text and the library. */
export function formShape(open: OpenText, located: LocatedSchema, path: readonly string[]): FormShape {
  const { schema } = located
  if (schema.type === 'array') {
    const items = itemSchema(located)
    return { kind: 'list', of: items === null ? plainText : formShape(open, items, path) }
  }
  if (schema.type !== 'object') return textShape(open, located, path)
  if (schema.properties !== undefined) return { kind: 'group', fields: fieldsOf(open, located, path) }
  if (schema.keysHold === 'state') return { kind: 'claims', states: statePicks(open) }
  return namedShape(open, located, path)
}

const plainText: FormShape = {
  kind: 'text',
  picks: [],
  closed: false,
  figure: null,
  units: [],
  long: false,
  from: null,
}

/** Words that the language has and the form says by itself. */
const asCheckbox = new Set(['stop', 'continue'])

function fieldsOf(open: OpenText, located: LocatedSchema, path: readonly string[]): readonly FormField[] {
  const { schema } = located
  const usual = usualNames(located)
  return Object.keys(schema.properties ?? {}).flatMap((name): readonly FormField[] => {
    const property = propertySchema(located, name)
    if (property === null || path.length >= deepest) return []
    const holdsOne = asCheckbox.has(name) && located.file === 'blocks/else'
    return [
      {
        name,
        label: inWords(name),
        help: property.schema.description ?? '',
        wants: property.schema.wants ?? '',
        required: schema.required?.includes(name) ?? false,
        usual: usual.has(name),
        shape: holdsOne ? { kind: 'said' } : formShape(open, property, [...path, name]),
      },
    ]
  })
}

/** What must be there, and what the examples of the schema show. */
function usualNames({ schema, file }: LocatedSchema): ReadonlySet<string> {
  const own = usualOf[file] ?? []
  return new Set([...(schema.required ?? []), ...own])
}

/** What people fill in most, by the schema. */
const usualOf: Readonly<Record<string, readonly string[]>> = {
  'blocks/torque': ['limit', 'fastener', 'count', 'size', 'grade', 'lubrication', 'pattern', 'passes', 'with'],
  'blocks/measure': ['limit', 'unit', 'at', 'with'],
  'blocks/check': ['asks', 'pass', 'fail'],
  'blocks/else': ['stop', 'redo', 'at-most', 'then', 'go'],
  'blocks/states': ['energy', 'safe', 'proved-by'],
  'blocks/hazards': ['hazard', 'consequence', 'avoid', 'severity', 'likelihood', 'energy'],
  'blocks/roles': ['who', 'qualification', 'different-from'],
  'blocks/lift': ['weight', 'load', 'legs', 'angle', 'with'],
  'blocks/support': ['load', 'on'],
  'blocks/handle': ['load', 'weight', 'by'],
  'blocks/decide': ['when', 'answer', 'go', 'otherwise'],
  'blocks/repeat': ['each', 'until', 'at-most'],
  'blocks/include': ['with'],
  'blocks/redo': ['steps', 'because'],
  'blocks/count': ['limit'],
  'blocks/tools': ['name', 'measures', 'range', 'resolution', 'accuracy'],
  'blocks/gear': ['name', 'capacity'],
  'blocks/parts': ['name', 'number', 'quantity', 'replace'],
  'blocks/consumables': ['name', 'number', 'quantity'],
  'blocks/ppe': ['name'],
  'blocks/takes': ['least', 'likely', 'most'],
  'blocks/wait': ['limit', 'after'],
  common: ['thing', 'count', 'values', 'everyone'],
}

function namedShape(open: OpenText, located: LocatedSchema, path: readonly string[]): FormShape {
  const { additionalProperties } = located.schema
  const inner = additionalProperties ? propertySchema(located, '') : null
  const of = inner === null ? plainText : formShape(open, inner, [...path, ''])
  return { kind: 'named', names: keyPicks(open, located), of }
}

/** What the names of a map refer to. */
function keyPicks(open: OpenText, { file, schema }: LocatedSchema): readonly Pick[] {
  if (schema.keysHold === undefined) return []
  const asText: LocatedSchema = { file, schema: { type: 'string', holds: schema.keysHold } }
  return picksFor(open, asText, [])
}

function textShape(open: OpenText, located: LocatedSchema, path: readonly string[]): FormShape {
  const { holds = '', enum: choices } = located.schema
  const figure =
    holds === 'limit' ? 'limit' : holds === 'quantity' || holds === 'amount' || holds === 'angle' ? 'quantity' : null
  return {
    kind: 'text',
    picks: figure === null ? picksFor(open, located, path) : [],
    closed: choices !== undefined,
    figure,
    units: figure === null ? [] : unitsFor(path),
    long: holds === 'sentence',
    from: isOneOfItsValues(holds, path) ? 'values' : null,
  }
}

/** `start`, `end` and `safe` of a state. */
function isOneOfItsValues(holds: string, path: readonly string[]): boolean {
  return holds === 'state-value' && path[0] === 'states' && path.length === 3 && path[2] !== 'values'
}

const unitsOfPath = new Map<string, readonly string[]>()

function unitsFor(path: readonly string[]): readonly string[] {
  const about = path.filter((_, index) => index !== 1).join()
  const units =
    unitsOfPath.get(about) ??
    offerUnits(path)
      .map(({ label }) => label)
      .slice(0, 40)
  unitsOfPath.set(about, units)
  return units
}

const picked = new WeakMap<OpenText, Map<string, readonly Pick[]>>()

/** The same is picked from in many fields of a form, and looked up once. */
function picksFor(open: OpenText, schema: LocatedSchema, path: readonly string[]): readonly Pick[] {
  const byHold = picked.get(open) ?? new Map<string, readonly Pick[]>()
  picked.set(open, byHold)
  const { holds = '', enum: choices = [] } = schema.schema
  const about = `${holds} ${choices.join()} ${holds === 'state-value' ? path.join() : ''}`
  const before = byHold.get(about)
  if (before !== undefined) return before
  const picks = distinctPicks(offerValue({ open, schema, path, typed: '', beside: {}, isInline: true }).offers)
  byHold.set(about, picks)
  return picks
}

export function distinctPicks(offers: readonly Offer[]): readonly Pick[] {
  const first = new Map<string, Pick>()
  for (const { label, detail = '' } of offers) if (!first.has(label)) first.set(label, { name: label, about: detail })
  return [...first.values()]
}

/** Every state with its values; one of each side where it has sides. */
function statePicks(open: OpenText): readonly StatePick[] {
  return distinctPicks(offerStates(open)).map(({ name }) => ({
    name,
    values: distinctPicks(offerValues(open, name)).map((value) => value.name),
  }))
}

/** `at-most` → `At most`. */
export function inWords(name: string): string {
  const words = name.replaceAll('-', ' ')
  return words.charAt(0).toUpperCase() + words.slice(1)
}
