import { readMachine } from '../../library/read-machine.ts'
import { type BlockNode, plainValue, valueAt } from '../../syntax/block-node.ts'
import { type BlockPlace, type LocatedSchema, propertySchema, schemaNamed } from '../../syntax/fit-block-schema.ts'
import { offerThings } from '../completion/offer-names.ts'
import { offerFromLibrary } from '../completion/offer-value.ts'
import type { OpenText } from '../open-text.ts'
import type { Form, FormShape, FormTarget, FormValue, NamePick } from './form.ts'
import { type FormPlace, placesAround } from './form-place.ts'
import { distinctPicks, formShape, inWords } from './form-shape.ts'
import { isMap, longForm } from './values.ts'

/** The form of a key at a place of the text, filled with what stands there; null where the key may not stand there. */
export function openForm(open: OpenText, target: FormTarget): Form | null {
  const here = placeOfTarget(open, target)
  const key = keySchema(target)
  if (here === null || key === null) return null
  const isNamed = key.schema.keysDefine !== undefined && target.place !== 'front-matter'
  const node = nodeOf(here, target)
  const located = isNamed ? propertySchema(key, '') : key
  if (located === null) return null
  const path = isNamed ? [target.key, target.name ?? ''] : [target.key]
  const shape = withThings(open, target, formShape(open, located, target.place === 'front-matter' ? [] : path))
  const value = valueIn(node, key, isNamed ? target.name : null)
  return {
    target,
    title: target.place === 'front-matter' ? 'Heading of the sheet' : (key.schema.title ?? inWords(target.key)),
    help: key.schema.description ?? '',
    isNamed,
    names: isNamed ? namePicks(open, target.key) : [],
    shape,
    value: value ?? emptyValue(shape),
    isThere: value !== null,
  }
}

export function placeOfTarget(open: OpenText, { place, offset }: FormTarget): FormPlace | null {
  return placesAround(open, offset).find((one) => one.place === place) ?? null
}

/** The schema of a key; the front matter is one form of all its keys. */
export function keySchema({ place, key }: FormTarget): LocatedSchema | null {
  if (place === 'front-matter') return schemaNamed('front-matter')
  const schema = schemaNamed(`blocks/${key}`)
  return schema?.schema.places?.includes(place) ? schema : null
}

export function nodeOf({ block, place }: FormPlace, { key }: FormTarget): BlockNode | null {
  if (block === null) return null
  return place === 'front-matter' ? block.map : (valueAt(block.map, key) ?? null)
}

function valueIn(node: BlockNode | null, key: LocatedSchema, name: string | null): FormValue | null {
  if (node === null) return null
  const whole = longForm(node, key)
  if (key.schema.keysDefine === undefined || key.file === 'front-matter') return whole
  if (name === null || !isMap(whole)) return null
  return Object.hasOwn(whole, name) ? (whole[name] ?? null) : null
}

function emptyValue(shape: FormShape): FormValue {
  return shape.kind === 'text' ? '' : shape.kind === 'list' ? [] : {}
}

/** What comes off, is locked or goes on is picked from its other half. */
function withThings(open: OpenText, { key }: FormTarget, shape: FormShape): FormShape {
  if (shape.kind !== 'list' || shape.of.kind !== 'group') return shape
  const things = distinctPicks(offerThings(open, key))
  const fields = shape.of.fields.map((field) =>
    field.name === 'thing' && field.shape.kind === 'text' && things.length > 0
      ? { ...field, shape: { ...field.shape, picks: [...things, ...field.shape.picks] } }
      : field,
  )
  return { kind: 'list', of: { kind: 'group', fields } }
}

/** Entries that the library or the machine file knows, by name. */
function namePicks(open: OpenText, key: string): readonly NamePick[] {
  if (key === 'states') return statesOfMachine(open)
  return distinctPicks(offerFromLibrary(open, key)).map((pick) => ({ ...pick, value: null }))
}

/**
 * The two values that an energy of this kind usually has, safe one last, and which of them stands at the start.
 * Common practice, no published source.
 */
const usualValues: Readonly<Record<string, readonly [dangerous: string, safe: string]>> = {
  electrical: ['live', 'isolated'],
  hydraulic: ['charged', 'bled'],
  pneumatic: ['charged', 'bled'],
  motion: ['running', 'stopped'],
  gravity: ['up', 'down'],
  spring: ['tensioned', 'slack'],
  thermal: ['hot', 'cool'],
  chemical: ['filled', 'drained'],
}

/** A new state begins from what the machine file says of its energy. */
function statesOfMachine(open: OpenText): readonly NamePick[] {
  const machine = open.names.find(({ sort }) => sort === 'machine')
  if (machine === undefined) return []
  const energies = valueAt(readMachine(open.library.reader, machine.name).value.value ?? undefined, 'energies')
  if (energies?.kind !== 'map') return []
  return energies.entries.map(({ key, value }) => {
    const facts = plainValue(value)
    const fact = (name: string): string => {
      const said = isMap(facts) ? facts[name] : undefined
      return typeof said === 'string' ? said : ''
    }
    const values = usualValues[fact('kind')]
    const filled =
      values === undefined
        ? { energy: fact('kind') }
        : { values: [...values], start: values[0], end: [values[0]], energy: fact('kind'), safe: [values[1]] }
    return { name: key, about: fact('magnitude') || fact('kind'), value: filled }
  })
}

/** The key under an offset, to open what stands there as a form; null in prose. */
export function targetAt(open: OpenText, offset: number): FormTarget | null {
  for (const { place, block } of placesAround(open, offset)) {
    if (block === null || offset < block.at.start || offset > block.at.end) continue
    if (place === 'front-matter') return { place, offset, key: 'front-matter', name: null }
    const entry = block.map.entries.filter(({ keyAt }) => keyAt.start <= offset).at(-1) ?? block.map.entries[0]
    if (entry === undefined) return null
    const target = { place: place as BlockPlace, offset, key: entry.key, name: null }
    const key = keySchema(target)
    if (key === null) return null
    if (key.schema.keysDefine === undefined) return target
    const name = entryAt(entry.value, offset)
    return { ...target, name }
  }
  return null
}

function entryAt(node: BlockNode, offset: number): string | null {
  if (node.kind === 'scalar') return node.text
  if (node.kind === 'map')
    return (node.entries.filter(({ keyAt }) => keyAt.start <= offset).at(-1) ?? node.entries[0])?.key ?? null
  const item = node.items.filter(({ at }) => at.start <= offset).at(-1) ?? node.items[0]
  return item?.kind === 'scalar' ? item.text : item?.kind === 'map' ? (item.entries[0]?.key ?? null) : null
}
