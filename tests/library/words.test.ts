import { describe, expect, it } from 'vitest'
import { asText } from '../../src/findings/as-text.ts'
import { readWords, wordsBuiltIn } from '../../src/library/read-words.ts'
import { compileText } from '../compile-text.ts'
import { filesMatching, textOf } from '../house/source-files.ts'
import { mapLibrary } from '../map-library.ts'

const house = (text: string) => ({
  'shared/words/house.yaml': `source: Kestrel Ridge Quarry, word list of the shop trainer (fictional)\n${text}`,
})

const namesIn = (body: string, words = '', front = '') =>
  compileText(`## Blade {#blade}\n\n${body}\n`, words === '' ? {} : house(words), front)
    .findings.map(({ name }) => name)
    .filter((name) => name.startsWith('wording/'))

describe('words of the house', () => {
  it('are built in where a library has none: the very words of shared/words', () => {
    expect(readWords(mapLibrary({})).value.words).toBe(wordsBuiltIn)
    const files = Object.fromEntries(filesMatching('shared/words/*.yaml').map((path) => [path, textOf(path)]))
    expect(Object.keys(files).length).toBeGreaterThan(2)
    const { value, findings } = readWords(mapLibrary(files))
    expect(findings).toEqual([])
    expect(value.words).toEqual(wordsBuiltIn)
  })

  it('are in alphabetical order and stand once, so that a trainer finds them', () => {
    const text = textOf('shared/words/verbs.yaml')
    const verbs = (/\[([\s\S]*)\]/.exec(text)?.[1] ?? '').split(',').map((verb) => verb.trim())
    expect(verbs.length).toBeGreaterThan(500)
    expect(verbs).toEqual([...new Set(verbs)].sort())
  })

  it.each([
    ['verbs', '1. Spag rings softly.', 'verbs: [spag]\n', 'wording/verb-not-first'],
    ['allowed', '1. Turn it slightly.', 'allowed: { slightly: It is taught with the feeler. }\n', 'wording/vague-word'],
    [
      'abbreviations',
      '1. Call the CRO.',
      'abbreviations: { CRO: control room operator }\n',
      'wording/abbreviation-undeclared',
    ],
  ])('take a finding away: %s', (_, body, words, name) => {
    expect(namesIn(body)).toContain(name)
    expect(namesIn(body, words)).not.toContain(name)
  })

  it.each([
    ['vague', '1. Pull it nice and tight.', 'vague: { Nice and tight: the torque }\n', 'wording/vague-word'],
    [
      'unclear',
      '1. Service the blade.',
      'verbs: [service]\nunclear: { service: "clean, grease or change" }\n',
      'wording/unclear-verb',
    ],
    ['names', '1. Lift the bottom roller out.', 'names: { return idler: [bottom roller] }\n', 'wording/two-names'],
  ])('bring one: %s', (_, body, words, name) => {
    expect(namesIn(body)).not.toContain(name)
    expect(namesIn(body, words)).toContain(name)
  })

  it('are no business of a document in another language', () => {
    const bare = '1. Die Schrauben are to be tightened securely and/or otherwise, ensure it is not undone.'
    expect(namesIn(bare).length).toBeGreaterThan(2)
    expect(namesIn(bare, '', 'language: de\n')).toEqual([])
  })

  it('are judged like any other file', () => {
    const { findings, value } = readWords(
      mapLibrary(house('verbs: [Spag]\nvague: { nice, and: x }\nname: { idler: roller }\nnames: { idler: roller }\n')),
    )
    expect(asText(findings, value.sources)).toMatchSnapshot()
  })
})
