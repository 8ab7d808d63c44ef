import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Finding } from '../../../src/findings/finding.ts'
import { parseMarkdown } from '../../../src/syntax/markdown/parse-markdown.ts'
import type { ReadingCache } from '../../../src/syntax/markdown/read-chunk.ts'
import { readFragment } from '../../../src/syntax/read-fragment.ts'
import { readProcedure } from '../../../src/syntax/read-procedure.ts'
import { readYamlText } from '../../../src/syntax/read-yaml-text.ts'
import type { WrittenProcedure } from '../../../src/syntax/written.ts'
import { sourceText } from '../../../src/text/source-text.ts'
import { sample } from './sample.ts'
import { blocksOf, phasesOf, placesIn, scalarsIn, textsIn } from './walk.ts'

/** Set higher by hand for a long search. */
const thoroughness = 1

/** Most of a changed sample was read before; that this changes nothing has a test of its own. */
const kept: ReadingCache = new Map()

const morsels = [
  ...['\n', '\n\n', ' ', '  ', '   ', '    ', '\t', '\r', '\r\n', '\n   ', '\n    '],
  ...[
    '```',
    '```yaml\n',
    '\n```yaml\nby: x\n```\n',
    '~~~',
    '- ',
    '1. ',
    '12. ',
    '\n2. X\n',
    '## ',
    '#',
    ' #',
    '\n## Y\n',
    '---\n',
  ],
  ...[
    ': ',
    ':',
    ', ',
    '"',
    "'",
    '{',
    '}',
    '[',
    ']',
    '&a ',
    '*a',
    '!b ',
    '|',
    '>',
    '? ',
    '%',
    '@',
    '<<: ',
    '__proto__: x',
    '??',
  ],
  ...[
    '<!--',
    '-->',
    '<b>',
    '{#x}',
    '[=x]',
    '[a](#b)',
    '![a](b.png)',
    '[c]: d\n',
    '**',
    '*',
    '_',
    '`',
    '\\',
    '&amp;',
    '|a|\n|-|\n',
  ],
  ...['\uFEFF', '\0', '\uD83D', '🔧', 'Ω', '\u00A0', '\u2028', 'word'],
]

const changed = fc
  .array(
    fc.record({
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      remove: fc.oneof(fc.constant(0), fc.nat({ max: 4 }), fc.nat({ max: 80 })),
      insert: fc.oneof(fc.constant(''), fc.constantFrom(...morsels)),
    }),
    { minLength: 1, maxLength: 6 },
  )
  .map((changes) =>
    changes.reduce((text, { at, remove, insert }) => {
      const start = Math.floor(at * text.length)
      return text.slice(0, start) + insert + text.slice(start + remove)
    }, sample),
  )

/** What a hand does that slips: a line lost, moved, doubled, or a few blanks more or fewer before it. */
const slipped = fc
  .array(
    fc.record({
      line: fc.double({ min: 0, max: 1, noNaN: true }),
      to: fc.double({ min: 0, max: 1, noNaN: true }),
      act: fc.constantFrom('lose', 'double', 'move', 'indent', 'outdent', 'part'),
      by: fc.integer({ min: 1, max: 4 }),
    }),
    { minLength: 1, maxLength: 2 },
  )
  .map((slips) => {
    const lines = sample.split('\n')
    for (const { line, to, act, by } of slips) {
      const from = Math.floor(line * lines.length)
      const words = lines[from] ?? ''
      const target = Math.floor(to * lines.length)
      if (act === 'lose') lines.splice(from, 1)
      else if (act === 'double') lines.splice(target, 0, words)
      else if (act === 'move') lines.splice(target, 0, ...lines.splice(from, 1))
      else if (act === 'part') lines.splice(from, 0, '')
      else lines[from] = act === 'indent' ? ' '.repeat(by) + words : words.replace(new RegExp(`^ {0,${by}}`), '')
    }
    return lines.join('\n')
  })

const scraps = fc.array(fc.constantFrom(...morsels, 'by: fitter', 'Tighten the bolts.'), { maxLength: 60 })

function placesOf(findings: readonly Finding[]) {
  return findings.flatMap(({ at, related = [], edit }) => [
    at,
    ...related.map((other) => other.at),
    ...(edit?.changes ?? []).map((change) => change.at),
  ])
}

function expectSound(text: string): void {
  const { value, findings } = readProcedure(sourceText('p.md', text), kept)
  const places = [...placesIn(value), ...placesOf(findings)]
  for (const { file, start, end } of places) {
    if (file !== 'p.md' || start < 0 || end < start || end > text.length)
      throw new Error(`${file} ${start} to ${end} is no place in a text of ${text.length} letters`)
  }
  for (const { map } of blocksOf(value)) {
    for (const { text: letters, contentStart } of scalarsIn(map))
      if (contentStart !== null) expect(text.slice(contentStart, contentStart + letters.length)).toBe(letters)
  }
}

describe('whatever stands in the file', () => {
  it('is read without breaking, and every place lies in it', () => {
    fc.assert(fc.property(fc.oneof(changed, slipped), expectSound), { numRuns: 300 * thoroughness })
    fc.assert(
      fc.property(scraps, (parts) => expectSound(`---\na: b\n---\n\n## A\n\n${parts.join('')}`)),
      { numRuns: 300 * thoroughness },
    )
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 200 }), expectSound), { numRuns: 100 * thoroughness })
  })

  it('is read as a fragment and as YAML without breaking', () => {
    const read = (text: string) => {
      const source = sourceText('p.md', text)
      for (const { value, findings } of [readFragment(source), readYamlText(source)])
        for (const { start, end } of [...placesIn(value), ...placesOf(findings)])
          expect(start >= 0 && end >= start && end <= text.length).toBe(true)
    }
    fc.assert(fc.property(changed, read), { numRuns: 100 * thoroughness })
    fc.assert(
      fc.property(scraps, (parts) => read(parts.join(''))),
      { numRuns: 300 * thoroughness },
    )
  })

  it('reads the same with what was kept from an earlier reading', () => {
    const cache: ReadingCache = new Map()
    fc.assert(
      fc.property(changed, (text) => {
        const source = sourceText('p.md', text)
        expect(readProcedure(source, cache)).toEqual(readProcedure(source))
      }),
      { numRuns: 100 * thoroughness },
    )
    expect(cache.size).toBeGreaterThan(50)
  })
})

describe('where nothing is reported', () => {
  /** Readings of changed samples that have nothing to report. */
  function quiet(property: (text: string, value: WrittenProcedure) => void): number {
    let count = 0
    fc.assert(
      fc.property(fc.oneof(changed, slipped, slipped), (text) => {
        const { value, findings } = readProcedure(sourceText('p.md', text), kept)
        if (findings.some(({ severity }) => severity !== 'warning')) return
        count++
        property(text, value)
      }),
      { numRuns: 600 * thoroughness },
    )
    return count
  }

  it('nothing an author wrote is dropped', () => {
    const count = quiet((text, value) => {
      const kept = countWords(textsIn(value).join(' '))
      const lost = [...countWords(withoutMarks(text))].filter(([word, times]) => times > (kept.get(word) ?? 0))
      if (lost.length > 0) throw new Error(`lost: ${lost.join('; ')} in\n${text}`)
    })
    expect(count).toBeGreaterThan(60)
  })

  it('phases and steps are those that a reading in one go finds', () => {
    const count = quiet((text, value) => {
      const body = text.slice(value.frontMatter?.at.end ?? 0)
      const nodes = parseMarkdown(body).children
      const headings = nodes.filter((node) => node.type === 'heading' && (node.depth === 2 || node.depth === 3))
      const items = nodes.flatMap((node) => (node.type === 'list' && node.ordered ? node.children : []))
      expect(phasesOf(value)).toHaveLength(headings.length)
      expect(phasesOf(value).flatMap((phase) => phase.steps)).toHaveLength(items.length)
    })
    expect(count).toBeGreaterThan(60)
  })
})

/** Without what is no word of the author's: fences, remarks of YAML, and the "and" between roles. */
function withoutMarks(text: string): string {
  return text
    .replace(/(```|~~~)[ \t]*yaml/gi, ' ')
    .replace(/^[ \t]*#[ \t#]?(?!Conveyor).*$/gm, ' ')
    .replace(/\band\b/g, ' ')
    .replace(/&amp;/g, ' ')
}

function countWords(text: string): ReadonlyMap<string, number> {
  const counts = new Map<string, number>()
  for (const [word] of text.matchAll(/[\p{L}\p{N}]{2,}/gu)) counts.set(word, (counts.get(word) ?? 0) + 1)
  return counts
}
