import { describe, expect, it } from 'vitest'
import { plainValue, valueAt } from '../../../src/syntax/block-node.ts'
import { plainText } from '../../../src/syntax/prose.ts'
import { readProcedure } from '../../../src/syntax/read-procedure.ts'
import { sourceText } from '../../../src/text/source-text.ts'
import { sample } from './sample.ts'
import { blocksOf, phasesOf, placesIn, scalarsIn, stepsOf } from './walk.ts'

/** The same words as other editors and other people type them. */
const variants: Readonly<Record<string, (text: string) => string>> = {
  'LF line ends': (text) => text,
  'CRLF line ends': (text) => text.replaceAll('\n', '\r\n'),
  'CR line ends': (text) => text.replaceAll('\n', '\r'),
  'a byte order mark': (text) => `\uFEFF${text}`,
  'tabs behind the numbers': (text) =>
    text
      .replace(/^(\d)\. /gm, '$1.\t')
      .replace(/^ {3}(?=\S)/gm, '\t')
      .replace(/^ {6}(?=[\S])/gm, '\t   ')
      .replace(/^ {8}(?=\S)/gm, '\t     ')
      .replace(/^ {10}(?=\S)/gm, '\t       ')
      .replace(/^ {5}(?=\S)/gm, '\t  ')
      .replace(/^ {7}(?=\S)/gm, '\t    ')
      .replaceAll('10. Tighten the bolts.', '10.\tTighten the bolts.'),
  'Greek words': (text) => text.replaceAll('One bearing', 'Ένα έδρανο').replaceAll('Nothing moves', 'Τίποτα'),
  'signs beyond the first plane': (text) =>
    text.replaceAll('The belt stands', '🔧🧰 The belt stands').replaceAll('plant fitter', 'plant 🔩 fitter'),
  'everything at once': (text) =>
    `\uFEFF${text.replaceAll('The belt', '🔧 Ο ιμάντας').replaceAll('Shackle', '🪝 Άγκιστρο').replaceAll('\n', '\r\n')}`,
}

describe.each(Object.entries(variants))('with %s', (_, change) => {
  const text = change(sample)
  const { value: procedure, findings } = readProcedure(sourceText('procedures/cv/cv.md', text))
  const words = (place: { start: number; end: number } | undefined | null) =>
    place ? text.slice(place.start, place.end).replace(/\r\n?/g, '\n') : place
  const step = (id: string) => stepsOf(procedure).find((candidate) => candidate.id?.id === id)

  it('finds nothing wrong', () => {
    expect(findings.map(({ name, message }) => `${name} ${message}`)).toEqual([])
  })

  it('places headings, ids, steps and roles', () => {
    expect(words(procedure.title?.at)).toBe('# Conveyor 3: change the tail pulley bearing')
    expect(phasesOf(procedure).map(({ at }) => words(at))).toEqual([
      '## Isolate {#isolate}',
      '## Raise the pulley',
      '### Worn seat {#worn}',
      '## Fit',
    ])
    expect(phasesOf(procedure).map(({ id }) => words(id?.at) ?? '')).toEqual(['{#isolate}', '', '{#worn}', ''])
    expect(words(step('off')?.at)).toMatch(/^1\.[ \t]\*\*Fitter and second:\*\* Turn the isolator off\. \{#off\}$/)
    expect(words(step('weight')?.id?.at)).toBe('{#weight}')
    expect(step('off')?.roles.map(({ name, at }) => [name, words(at)])).toEqual([
      ['Fitter', 'Fitter'],
      ['second', 'second'],
    ])
    const acts = stepsOf(procedure).flatMap((candidate) => candidate.acts)
    expect(acts.map(({ at, roles }) => [words(at), words(roles[0]?.at)])).toEqual([
      ['**Rigger:** Watch the *tail* end.', 'Rigger'],
      ['**Fitter:** Press start at [=panel].', 'Fitter'],
    ])
  })

  it('places marks in prose', () => {
    const marked = JSON.stringify(procedure).matchAll(/"kind":"(reference|value|figure)".*?"at":(\{.*?\})/g)
    expect([...marked].map(([, kind, at]) => [kind, words(JSON.parse(at ?? ''))])).toEqual([
      ['reference', '[the isolation](#isolate)'],
      ['value', '[=height]'],
      ['value', '[=panel]'],
      ['figure', '![The start button](figures/start.svg "Start button, bottom row")'],
      ['reference', '[](#weight)'],
    ])
  })

  it('places every word of a block', () => {
    expect(blocksOf(procedure)).toHaveLength(7)
    for (const { at } of blocksOf(procedure))
      expect(words(at)).toMatch(/^(---|```yaml|```YAML|~~~yaml)\n[\s\S]*(---|```|~~~)$/)
    for (const { map } of blocksOf(procedure)) {
      for (const { key, keyAt } of map.entries) expect(words(keyAt)).toBe(key)
      for (const scalar of scalarsIn(map)) {
        const typed = words(scalar.at) ?? ''
        if (!/^["'|>]/.test(typed)) expect(typed).toBe(scalar.text)
        if (/^["']/.test(typed)) expect(typed.slice(1, -1)).toBe(scalar.text)
      }
    }
    const verbatim = blocksOf(procedure)
      .flatMap(({ map }) => scalarsIn(map))
      .filter((scalar) => scalar.contentStart !== null)
    for (const { contentStart, text: letters } of verbatim)
      expect(text.startsWith(letters, contentStart ?? 0)).toBe(true)
    expect(verbatim.map((scalar) => scalar.text)).toContain('slinger, "basic" rigging')
  })

  it('knows no place outside the text', () => {
    const places = placesIn(procedure)
    expect(places.length).toBeGreaterThan(100)
    expect(places.filter(({ start, end }) => start < 0 || end < start || end > text.length)).toEqual([])
    expect([...new Set(places.map(({ file }) => file))]).toEqual(['procedures/cv/cv.md'])
  })
})

describe('the sample', () => {
  const { value: procedure } = readProcedure(sourceText('cv.md', sample))

  it('keeps every value as it was typed', () => {
    const values = blocksOf(procedure).map(({ map }) => plainValue(map))
    expect(values).toMatchObject([
      { number: 'KRQ-CV-021', revision: '0012', parts: ['0451E2', '3/8 in', '1.10'] },
      { roles: { rigger: { who: 'slinger, "basic" rigging' } } },
      { by: 'fitter', where: 'out' },
      { locks: ['bc-3-iso'], sets: { belt: 'slack' } },
      { hold: { supervisor: 'Shackle seated.\nPin moused.\n' } },
      {
        decide: { branches: [{ answer: 'yes', go: 'worn' }, { otherwise: 'no' }] },
        measure: { gap: '0.10 to 0.20 mm\n', load: '??', note: 'a # sign: kept' },
      },
      { torque: { housing: '390 N·m ± 5 %, 4 × M20 8.8' } },
    ])
  })

  it('keeps places where a value is no copy of its source', () => {
    const gap = scalarsIn(
      blocksOf(procedure)[5]?.map ?? { kind: 'list', items: [], at: placesIn(procedure)[0] as never },
    )
    expect(gap.filter(({ contentStart }) => contentStart === null).map(({ text }) => text)).toEqual([
      '0.10 to 0.20 mm\n',
    ])
    expect(valueAt(blocksOf(procedure)[4]?.map, 'hold')?.kind).toBe('map')
  })

  it('keeps order, numbers and nesting', () => {
    const outline = phasesOf(procedure).map((phase) => [
      phase.level,
      phase.title,
      phase.steps.map((step) => [step.typedNumber, plainText(step.text), step.details.length, step.steps.length]),
    ])
    expect(outline).toEqual([
      [
        2,
        'Isolate',
        [
          ['1', 'Turn the isolator off.', 0, 0],
          ['2', 'Try to start the belt.', 2, 0],
        ],
      ],
      [
        2,
        'Raise the pulley',
        [
          ['1', 'Sling the pulley.', 0, 2],
          ['2', 'Decide.', 0, 0],
        ],
      ],
      [3, 'Worn seat', [['1', 'Stop, see .', 0, 0]]],
      [
        2,
        'Fit',
        [
          ...['A.', 'B.', 'C.', 'D.', 'E.', 'F.', 'G.', 'H.', 'I.'].map((text, index) => [`${index + 1}`, text, 0, 0]),
          ['10', 'Tighten the bolts.', 1, 0],
        ],
      ],
    ])
    expect(stepsOf(procedure)[0]?.markdown).toBe('Turn the isolator off.')
  })
})
