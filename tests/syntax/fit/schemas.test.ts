import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, it } from 'vitest'
import { validators } from '#generated/schema-validators'
import { schemas } from '#generated/schemas'
import { type BlockSchema, blockKeys } from '../../../src/syntax/fit-block-schema.ts'
import { fitValue } from '../../../src/syntax/fit-schema.ts'
import { nodeOf } from './node-of.ts'

// Every key that the page of the language names, in its order.
const keysOfTheLanguage = `
  roles states zones never machine tools gear parts consumables ppe hazards by where enters clear exposed needs sets uses
  takes only when together undo hold hold-before witness verify review proves torque measure check set derive count else
  decide repeat redo spoils keep lift support handle pressure wear align rules hot-work permit wait ramp emergency prohibit tables chart include
  reverse extra before after clip removes refits fits locks unlocks puts-on takes-off snug accept`
  .trim()
  .split(/\s+/)

const written = Object.entries(schemas as Record<string, BlockSchema>).filter(
  ([name]) => !['common', 'step-file', 'record'].includes(name),
)

describe('the schemas of the written forms', () => {
  it('has one for every key of the language, and no other', () => {
    expect([...blockKeys.keys()].sort()).toEqual([...keysOfTheLanguage].sort())
  })

  it.each(written)('%s has a title, a description, examples and what it wants', (name, schema) => {
    expect(schema.title).toMatch(/^[A-Z]/)
    expect(schema.description).toMatch(/\.$/)
    expect(schema.examples?.length).toBeGreaterThan(0)
    expect(schema.wants).toBeTruthy()
    if (name.startsWith('blocks/')) expect(schema.places?.length).toBeGreaterThan(0)
  })

  it('are all valid by the meta-schema of JSON Schema 2020-12', () => {
    const ajv = new Ajv2020({ strict: false })
    for (const [name, schema] of Object.entries(schemas)) {
      ajv.validateSchema(schema as object)
      expect(ajv.errors, name).toBeFalsy()
    }
  })

  it('leave no map open: every object says what its entries are', () => {
    for (const [name, schema] of Object.entries(schemas as Record<string, BlockSchema>))
      if (!['step-file', 'record'].includes(name)) expect(openObjects(schema), name).toEqual([])
  })

  it('know text, lists and maps only: nothing is a number or a boolean', () => {
    for (const [name, schema] of written) expect(typesIn(schema), name).toEqual([])
  })

  it('say at every text what stands there', () => {
    for (const [name, schema] of written) expect(unexplainedTexts(schema), name).toEqual([])
  })

  const examples = written.flatMap(([name, schema]) =>
    (schema.examples ?? []).map((example, index) => [name, index, example] as const),
  )
  it.each(examples)('%s: example %i is a valid form', (name, _index, example) => {
    const fitted = fitValue(nodeOf(example), name, name)
    expect(fitted.findings.map((finding) => `${finding.message} ${finding.advice}`)).toEqual([])
    expect(fitted.value).not.toBeNull()
  })

  it('shows a short form of every key that has one', () => {
    const withoutShort = [...blockKeys].filter(
      ([, schema]) =>
        schema.short !== undefined &&
        !schema.examples?.some((example) => typeof example !== 'object' || Array.isArray(example)),
    )
    expect(withoutShort.map(([key]) => key).filter((key) => !namesOnly.has(key))).toEqual([])
  })

  it('refuses what it does not know, also by its validator alone', () => {
    for (const [name, schema] of written.filter(([, schema]) => schema.type === 'object' && schema.properties))
      expect(validators[name]?.({ ...(schema.examples?.at(-1) as object), 'no-such-entry': 'x' }), name).toBe(false)
  })
})

// Their short form is a text or list of tables, shown in the example as a list of rows.
const namesOnly = new Set(['tables'])

function walk(schema: unknown, visit: (part: BlockSchema, path: string) => void, path = '#'): void {
  if (typeof schema !== 'object' || schema === null) return
  if (!Array.isArray(schema)) visit(schema as BlockSchema, path)
  for (const [key, inner] of Object.entries(schema))
    if (!['examples', 'short', 'not', 'if', 'then', 'enum', 'anyOf', 'propertyNames', 'required'].includes(key))
      walk(inner, visit, `${path}/${key}`)
}

function openObjects(schema: BlockSchema): string[] {
  const open: string[] = []
  walk(schema, (part, path) => {
    if (part.type === 'object' && part.additionalProperties === undefined) open.push(path)
  })
  return open
}

function typesIn(schema: BlockSchema): string[] {
  const others: string[] = []
  walk(schema, (part, path) => {
    if (part.type !== undefined && typeof part.type === 'string' && !['string', 'array', 'object'].includes(part.type))
      others.push(path)
  })
  return others
}

function unexplainedTexts(schema: BlockSchema): string[] {
  const texts: string[] = []
  walk(schema, (part, path) => {
    if (part.type === 'string' && part.enum === undefined && part.holds === undefined) texts.push(path)
  })
  return texts
}
