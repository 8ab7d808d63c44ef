import { describe, expect, it } from 'vitest'
import { openLibrary } from '../../../src/compile.ts'
import type { BlockPlace } from '../../../src/syntax/fit-block-schema.ts'
import { blockKeys, schemaNamed } from '../../../src/syntax/fit-block-schema.ts'
import { readYamlText } from '../../../src/syntax/read-yaml-text.ts'
import { sourceText } from '../../../src/text/source-text.ts'
import type { Form, FormTarget, FormValue } from '../../../src/writing/forms/form.ts'
import { formMenu } from '../../../src/writing/forms/form-menu.ts'
import { openForm, targetAt } from '../../../src/writing/forms/open-form.ts'
import { longForm } from '../../../src/writing/forms/values.ts'
import { removeForm, writeForm } from '../../../src/writing/forms/write-form.ts'
import { type OpenText, openText } from '../../../src/writing/open-text.ts'
import { dustFan } from '../../doors/desk/a-desk.ts'
import { mapLibrary } from '../../map-library.ts'

const machine = `source: Invented.
name: Dust fan
energies:
  power: { kind: electrical, magnitude: 400 V }
  rotor: { kind: motion, magnitude: 180 kg at 960 rpm }
`
const hazards = `source: Invented.
items:
  nip: { hazard: A belt draws fingers in., consequence: They are cut off., avoid: Keep off., severity: serious-injury, likelihood: could, energy: motion }
`
const library = openLibrary(
  mapLibrary({ 'shared/machines/dust-fan.yaml': machine, 'shared/hazards/all.yaml': hazards }),
)
const read = (text: string): OpenText => openText('procedures/a/a.md', text, library)

/** The text with a form filled in and written; what is refused throws its reason. */
function filled(text: string, target: FormTarget, name: string | null, value: FormValue): string {
  const written = writeForm(read(text), target, name, value)
  if (written.kind === 'refused') throw new Error(written.because)
  return written.changes
    .toSorted((a, b) => b.start - a.start)
    .reduce((all, { start, end, newText }) => all.slice(0, start) + newText + all.slice(end), text)
}

const formOf = (text: string, target: FormTarget): Form => {
  const form = openForm(read(text), target)
  if (form === null) throw new Error(`no form of ${target.key}`)
  return form
}

/** The line with a mark in it, in the text without the mark. */
function at(text: string, words: string): number {
  const offset = text.indexOf(words)
  if (offset < 0) throw new Error(`no ${words}`)
  return offset
}

const bare = '---\nnumber: A-1\n---\n\n# Bare\n\n## Work {#work}\n\n1. Do it. {#do}\n   - A detail.\n2. Do more.\n'
const offsets: Readonly<Record<BlockPlace, string>> = {
  step: 'Do it.',
  phase: '## Work',
  document: '# Bare',
  'front-matter': 'number',
}

/** Every example of every schema: what the language has is what the forms can write. */
const examples = [...blockKeys].flatMap(([key, schema]) =>
  (schema.examples ?? []).flatMap((example) =>
    (schema.places ?? []).map((place) => ({
      key,
      place,
      example,
      title: `${key} in a ${place}: ${JSON.stringify(example)}`,
    })),
  ),
)

describe('forms', () => {
  it('have every example of the language to be tried with', () => {
    expect(examples.length).toBeGreaterThan(100)
  })

  it.each(examples)('write and read back $title', ({ key, place, example }) => {
    const source = sourceText('', `${key}: ${JSON.stringify(example)}`)
    const node = readYamlText(source).value
    const located = schemaNamed(`blocks/${key}`)
    const own = node?.kind === 'map' ? node.entries[0]?.value : undefined
    if (!own || !located) throw new Error('no such example')
    const whole = longForm(own, located)
    const offset = at(bare, offsets[place])
    const entries: readonly (readonly [string | null, FormValue])[] =
      located.schema.keysDefine === undefined ? [[null, whole]] : Object.entries(whole as object)
    let text = bare
    for (const [name, value] of entries) text = filled(text, { place, offset, key, name: null }, name, value)
    for (const [name, value] of entries) {
      const target = { place, offset, key, name }
      const form = formOf(text, target)
      expect(form.isThere).toBe(true)
      expect(form.value).toEqual(value)
      expect(filled(text, target, name, form.value)).toBe(text)
    }
    // What was not asked for stands as it stood.
    expect(text.replace(/[ ]*```yaml\n[\s\S]*?```\n?/g, '').replace(/\s+/g, ' ')).toBe(bare.replace(/\s+/g, ' '))
  })

  it('write the short form', () => {
    const torque = {
      limit: '78 to 96 N·m',
      fastener: { count: '4', size: 'M14', grade: '8.8' },
      lubrication: 'dry',
      pattern: 'cross',
      passes: ['50 %', '100 %'],
      with: 'torque-wrench-a',
    }
    const offset = at(bare, 'Do it.')
    const step = (key: string) => ({ place: 'step' as const, offset, key, name: null })
    let text = filled(bare, step('torque'), 'motor-bolts', torque)
    text = filled(text, step('hold'), null, { supervisor: 'I saw it.' })
    text = filled(text, step('sets'), null, { power: ['isolated'] })
    text = filled(text, step('removes'), null, [{ thing: 'belt-guard' }, { thing: 'bolt', count: '4' }])
    text = filled(text, step('else'), null, { redo: ['this'], 'at-most': '3', then: { stop: '' } })
    text = filled(text, step('wait'), null, [{ limit: 'min 5 min' }])
    text = filled(text, { ...step('where'), place: 'phase' }, null, { everyone: ['out'] })
    expect(text).toMatchInlineSnapshot(`
      "---
      number: A-1
      ---

      # Bare

      ## Work {#work}

      \`\`\`yaml
      where: out
      \`\`\`

      1. Do it. {#do}
         \`\`\`yaml
         torque:
           motor-bolts: 78 to 96 N·m, 4 × M14 8.8, dry, cross, passes 50 100 %, with torque-wrench-a
         hold:
           supervisor: I saw it.
         sets: { power: isolated }
         removes: [belt-guard, 4 × bolt]
         else: { redo: this, at-most: 3, then: stop }
         wait: min 5 min
         \`\`\`
         - A detail.
      2. Do more.
      "
    `)
  })

  it('change only what was changed, and keep comments and what the language does not know', () => {
    const text = bare.replace(
      '1. Do it. {#do}\n',
      `1. Do it. {#do}
   \`\`\`yaml
   # from the maker's book, page 12
   torque:
     bolts: # all four
       limit: 80 N·m   # the book says 80
       colour: red
       with: wrench
   wait: min 5 min # to cool
   \`\`\`
`,
    )
    const target: FormTarget = { place: 'step', offset: at(text, 'Do it.'), key: 'torque', name: 'bolts' }
    const after = filled(text, target, 'bolts', { limit: '90 N·m', lubrication: 'dry' })
    expect(after).toBe(
      text.replace('80 N·m   #', '90 N·m   #').replace('       with: wrench\n', '       lubrication: dry\n'),
    )
  })

  it('open what stands under the cursor, in whatever form it was typed', () => {
    const text = dustFan
    expect(targetAt(read(text), at(text, '4 × M14'))).toMatchObject({
      place: 'step',
      key: 'torque',
      name: 'motor-bolts',
    })
    expect(targetAt(read(text), at(text, 'values: [turning'))).toMatchObject({
      place: 'document',
      key: 'states',
      name: 'rotor',
    })
    expect(targetAt(read(text), at(text, 'revision: A'))).toMatchObject({ key: 'front-matter' })
    expect(targetAt(read(text), at(text, 'Press start'))).toBeNull()
    const form = formOf(text, { place: 'step', offset: at(text, '4 × M14'), key: 'torque', name: 'motor-bolts' })
    expect(form.value).toMatchObject({ limit: '78 to 96 N·m', fastener: { count: '4', size: 'M14', grade: '8.8' } })
    const thinner = { ...(form.value as object), limit: '70 to 80 N·m' }
    expect(filled(text, form.target, 'motor-bolts', thinner)).toBe(text.replace('78 to 96 N·m', '70 to 80 N·m'))
  })

  it('rename a thing wherever it is named', () => {
    const target: FormTarget = { place: 'document', offset: 0, key: 'states', name: 'rotor' }
    const form = formOf(dustFan, target)
    const after = filled(dustFan, target, 'impeller', form.value)
    expect(after).toBe(dustFan.replace(/\brotor(?=:)/g, 'impeller'))
  })

  it('let states and zones be picked, and offer what the machine file knows', () => {
    const text = bare.replace('number: A-1', 'number: A-1\nmachine: dust-fan')
    const withBlock = text.replace('# Bare\n', '# Bare\n\n```yaml\nmachine: dust-fan\n```\n')
    const names = formOf(withBlock, { place: 'document', offset: 0, key: 'states', name: null }).names
    expect(names).toEqual([
      {
        name: 'power',
        about: '400 V',
        value: { values: ['live', 'isolated'], start: 'live', end: ['live'], energy: 'electrical', safe: ['isolated'] },
      },
      {
        name: 'rotor',
        about: '180 kg at 960 rpm',
        value: {
          values: ['running', 'stopped'],
          start: 'running',
          end: ['running'],
          energy: 'motion',
          safe: ['stopped'],
        },
      },
    ])
    const sets = formOf(dustFan, { place: 'step', offset: at(dustFan, 'Press start'), key: 'sets', name: null })
    expect(sets.shape).toMatchObject({
      kind: 'claims',
      states: expect.arrayContaining([{ name: 'power', values: ['live', 'isolated'] }]),
    })
    const where = formOf(dustFan, { place: 'phase', offset: at(dustFan, 'Press start'), key: 'where', name: null })
    expect(JSON.stringify(where.shape)).toContain('belt-drive')
    const hazard = formOf(dustFan, { place: 'phase', offset: at(dustFan, 'Press start'), key: 'hazards', name: null })
    expect(hazard.names.map(({ name }) => name)).toContain('nip')
  })

  it('take a thing out, and the block with the last one', () => {
    const offset = at(dustFan, 'Tighten the four')
    const removed = removeForm(read(dustFan), { place: 'step', offset, key: 'torque', name: 'motor-bolts' })
    if (removed.kind === 'refused') throw new Error(removed.because)
    const [{ start, end } = { start: 0, end: 0 }] = removed.changes
    const after = dustFan.slice(0, start) + dustFan.slice(end)
    expect(after).toContain('2. Tighten the four motor bolts. {#motor-bolts}\n3. Fit the belt guard.')
  })

  it('refuse what would not mean what was filled in, and say why', () => {
    const broken = bare.replace('{#do}\n', '{#do}\n   ```yaml\n   torque: [\n   ```\n')
    const target: FormTarget = { place: 'step', offset: at(broken, 'Do it.'), key: 'wait', name: null }
    expect(writeForm(read(broken), target, null, [{ limit: 'min 5 min' }])).toMatchObject({ kind: 'refused' })
    const twice: FormTarget = { place: 'document', offset: 0, key: 'states', name: null }
    expect(writeForm(read(dustFan), twice, 'power', { values: ['a', 'b'], start: 'a', end: ['a'] })).toEqual({
      kind: 'refused',
      because: 'There is already one called power here.',
    })
    expect(writeForm(read(dustFan), twice, 'two words', {})).toMatchObject({ kind: 'refused' })
  })

  it('are offered for every key of the language, where it may stand', () => {
    const offered = formMenu(read(bare), at(bare, 'Do it.')).groups.flatMap(({ items }) => items.map(({ key }) => key))
    expect([...blockKeys.keys()].filter((key) => !offered.includes(key))).toEqual([])
    const titles = formMenu(read(bare), at(bare, 'Do it.')).places.map(({ title }) => title)
    expect(titles).toEqual(['step “Do it.”', 'phase “Work”', 'the whole procedure', 'the heading of the sheet'])
  })
})
