import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import type { BlockPlace } from '../../src/syntax/fit-block-schema.ts'
import { fitBlock } from '../../src/syntax/fit-schema.ts'
import { readYamlText } from '../../src/syntax/read-yaml-text.ts'
import { sourceText } from '../../src/text/source-text.ts'

/** The language reference for authors: every key has a heading, the places its schema gives it, and examples that fit. */
const reference = readFileSync('procedures/README.md', 'utf8')
const sections = reference.split(/^(?=#{2,4} )/m).flatMap((section) => {
  const key = /^#### `([a-z-]+)`\n\n\*([A-Z][a-z, ]+)\.\*/.exec(section)
  if (key === null) return []
  const examples = [...section.matchAll(/^```yaml\n([\s\S]*?)^```$/gm)].map((match) => match[1] ?? '')
  return [{ key: key[1] ?? '', places: (key[2] ?? '').toLowerCase().split(', '), examples }]
})

const schemaKeys = readdirSync('schema/blocks').map((name) => name.replace('.schema.json', ''))

test('the reference has each key of the schema exactly once', () => {
  expect(sections.map(({ key }) => key).sort()).toEqual(schemaKeys.sort())
})

describe.each(sections)('$key', ({ key, places, examples }) => {
  test('says where it may stand', () => {
    const schema = JSON.parse(readFileSync(`schema/blocks/${key}.schema.json`, 'utf8'))
    expect(places).toEqual(schema.places)
  })

  test('has an example that fits at each of its places', () => {
    expect(examples).toHaveLength(1)
    const source = sourceText('procedures/README.md', examples[0] ?? '')
    const read = readYamlText(source)
    if (read.value?.kind !== 'map') throw new Error(`the example of ${key} is no map`)
    expect(read.findings).toEqual([])
    for (const place of places)
      expect(fitBlock({ map: read.value, at: read.value.at }, place as BlockPlace).findings).toEqual([])
  })
})
