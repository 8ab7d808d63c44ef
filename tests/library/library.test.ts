import { describe, expect, it } from 'vitest'
import { asText } from '../../src/findings/as-text.ts'
import { readCatalogues } from '../../src/library/read-catalogues.ts'
import { readConfiguration } from '../../src/library/read-configuration.ts'
import { readMachine } from '../../src/library/read-machine.ts'
import { plainValue } from '../../src/syntax/block-node.ts'
import { filesMatching, textOf } from '../house/source-files.ts'
import { mapLibrary } from '../map-library.ts'

const source = 'source: Kestrel Ridge Quarry stores list (fictional)\n'

describe('the catalogues of shared/', () => {
  it('are read over all files of a topic, each item at its place, its short form written out', () => {
    const tools = `${source}items:\n  pry-bar: pry bar, size 600 mm\n`
    const { value, findings } = readCatalogues(
      mapLibrary({
        'shared/tools/a.yaml': tools,
        'shared/tools/b.yaml': `${source}items:\n  mallet: { name: mallet }\n`,
        'shared/roles/site.yaml': `${source}items:\n  fitter: conveyor fitter\n`,
      }),
    )
    expect(findings).toEqual([])
    expect([...value.catalogues.tools.keys()]).toEqual(['pry-bar', 'mallet'])
    const bar = value.catalogues.tools.get('pry-bar')
    expect(bar && { ...(plainValue(bar) as object) }).toEqual({ name: 'pry bar', size: '600 mm' })
    expect(bar && tools.slice(bar.at.start, bar.at.end)).toBe('pry bar, size 600 mm')
    const fitter = value.catalogues.roles.get('fitter')
    expect(fitter && { ...(plainValue(fitter) as object) }).toEqual({ who: 'conveyor fitter' })
    expect(value.catalogues.gear.size).toBe(0)
  })

  it('keep what is right of a file in which something is wrong, and say what', () => {
    const text = `${source}items:
  dust: { hazard: Dust flies., consequence: It gets into the eyes., avoid: Wet it first., severity: minor-injury, likelihood: could }
  rust: { hazard: Rust flies., severity: minor, likelihod: could }
`
    const { value, findings } = readCatalogues(mapLibrary({ 'shared/hazards/site.yaml': text }))
    expect([...value.catalogues.hazards.keys()]).toEqual(['dust'])
    expect(asText(findings, value.sources)).toMatchSnapshot()
  })

  it('report what stands twice, cannot be read, or is not read', () => {
    const { value, findings } = readCatalogues(
      mapLibrary({
        'shared/gear/a.yaml': `${source}items:\n  jack-1: { name: jack, capacity: 10 t }\n`,
        'shared/tools/b.yaml': `${source}items:\n  jack-1: { name: jack handle }\n`,
        'shared/tools/c.yaml': '%PDF-1.7',
        'shared/tools/d.txt': 'spanners',
        'shared/tools/README.md': 'for people',
        'shared/tools/.DS_Store': '',
        'shared/tools/e.yaml': 'items: {}\n',
        'shared/tools/f.yaml': `${source}items:\n  a b: { name: odd }\n`,
      }),
    )
    expect(asText(findings, value.sources)).toMatchSnapshot()
    expect([...value.catalogues.tools.keys()]).toEqual(['jack-1'])
    // Tools are read first; which of the two stays does not matter, as the finding blocks every output.
    expect([...value.catalogues.gear.keys()]).toEqual([])
  })

  it('of the quarry hold nothing wrong', () => {
    const files = Object.fromEntries(filesMatching(['shared/**']).map((path) => [path, textOf(path)]))
    const { value, findings } = readCatalogues(mapLibrary(files))
    expect(asText(findings, value.sources)).toBe('')
    for (const [topic, items] of Object.entries(value.catalogues)) expect(items.size, topic).toBeGreaterThan(0)
  })
})

describe('a machine', () => {
  const path = 'shared/machines/bc-9.yaml'
  const machine = `${source}name: Belt conveyor BC-9
energies:
  drive: electrical, magnitude 400 V, isolated by bc-9-iso
isolation-points:
  bc-9-iso: { what: drive isolator, where: switch room, energy: drive }
masses: { tail-pulley: 640 kg ± 10 % }
`

  it('has energies, isolation points and masses', () => {
    const { value, findings } = readMachine(mapLibrary({ [path]: machine }), 'bc-9')
    expect(findings).toEqual([])
    expect(JSON.parse(JSON.stringify(value.value && plainValue(value.value)))).toMatchObject({
      name: 'Belt conveyor BC-9',
      energies: { drive: { kind: 'electrical', magnitude: '400 V', 'isolated-by': ['bc-9-iso'] } },
      'isolation-points': { 'bc-9-iso': { energy: 'drive' } },
    })
  })

  it('names only energies and isolation points that it has', () => {
    const wrong = machine.replace('by bc-9-iso', 'by bc-9-iso bc-9-iso2').replace('energy: drive', 'energy: belt')
    const { value, findings } = readMachine(mapLibrary({ [path]: wrong }), 'bc-9')
    expect(asText(findings, value.source ? [value.source] : [])).toMatchSnapshot()
  })

  it('that is not there is no value and no finding', () => {
    const { value, findings } = readMachine(mapLibrary({}), 'bc-9')
    expect(value).toEqual({ value: null, source: null })
    expect(findings).toEqual([])
  })
})

describe('witnessmark.yaml', () => {
  const configured = (text: string | null) =>
    readConfiguration(mapLibrary(text === null ? {} : { 'witnessmark.yaml': text }))

  it('is not needed: everything has a default', () => {
    const { value, findings } = configured(null)
    expect(findings).toEqual([])
    expect(value.configuration).toEqual({
      site: null,
      printUnits: ['metric', 'inch'],
      paper: null,
      language: 'en',
      roles: new Map(),
      emergency: null,
      checks: {},
    })
  })

  it('says what holds for every procedure', () => {
    const { value, findings } = configured(
      'site: Kestrel Ridge Quarry\nprint-units: metric\npaper: letter\nlanguage: en-GB\nroles: { fitter: conveyor fitter }\n',
    )
    expect(findings).toEqual([])
    expect(value.configuration).toMatchObject({
      site: 'Kestrel Ridge Quarry',
      printUnits: ['metric'],
      paper: 'letter',
      language: 'en-GB',
    })
    expect([...value.configuration.roles.keys()]).toEqual(['fitter'])
  })

  it('is judged like any other text', () => {
    const { value, findings } = configured(
      'site: Kestrel Ridge Quarry\npaper: a5\nunits: metric\nlanguage: plain English\n',
    )
    expect(asText(findings, value.sources)).toMatchSnapshot()
    expect(value.configuration).toMatchObject({ site: 'Kestrel Ridge Quarry', paper: null, language: 'en' })
  })
})
