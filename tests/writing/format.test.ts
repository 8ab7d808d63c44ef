import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { libraryOnDisk } from '../../src/devices/library-on-disk.ts'
import { withTexts } from '../../src/library/with-texts.ts'
import { readProcedure } from '../../src/syntax/read-procedure.ts'
import { sourceText } from '../../src/text/source-text.ts'
import { formatProcedure } from '../../src/writing/format/format-procedure.ts'
import { readPage } from '../fault-pages.ts'
import { filesMatching, root, textOf } from '../house/source-files.ts'

const fences = (text: string): readonly string[] =>
  [...text.matchAll(/^(`{3,})(?:md)\n([\s\S]*?)^\1$/gm)].map((match) => match[2] ?? '')

/** Procedures of the tree, from printed manuals and from the lesson. */
const procedures: readonly (readonly [name: string, text: string])[] = [
  ...filesMatching(['procedures/*/*.md', 'tests/corpus/*.md']).map((path) => [path, textOf(path)] as const),
  ...fences(textOf('procedures/README.md')).map((text, index) => [`README ${index + 1}`, text] as const),
]

/** Small texts, most of them with something wrong: the examples of the pages, and fragments. */
const examples: readonly string[] = [
  ...filesMatching('shared/fragments/*.md').map(textOf),
  ...filesMatching(['src/**/*.md', '!src/doors/faults/*.md'])
    .filter((path) => textOf(path).includes('\n## Reported\n'))
    .flatMap((path) => readPage(path).examples)
    .flatMap(({ files }) => Object.entries(files).flatMap(([file, text]) => (file.endsWith('.md') ? [text] : []))),
]

const isLong = process.env.WITNESSMARK_LONG === '1'

const library = openLibrary(libraryOnDisk(root))

function digestOf(text: string): string | null {
  const file = 'procedures/formatted/formatted.md'
  const reader = withTexts(library.reader, new Map([[file, text]]))
  return compileProcedure(file, { ...library, reader }).stepFile?.digest ?? null
}

/** What is no block: prose with its fences. */
function prose(text: string): string {
  return text.replace(/^([ \t]*)```yaml[\s\S]*?^\1```/gm, '$1```yaml\n$1```').replace(/^---\r?\n[\s\S]*?\n---/, '---')
}

describe('the layout of blocks', () => {
  it('is as shown', () => {
    const before = `---
number:   KRQ-TX-001
title: "Change a return idler"
variants: {wheel-stud: [ m22 ,m24 ] }
---

# Change a return idler


\`\`\`yaml
roles: [ fitter,supervisor ]


# What safety rests on.
states:
    power: {values: [live, isolated], start: live, end: live}
    take-up:   { values: [tensioned, slack], start: "tensioned", end: 'tensioned' }
never:
- {when: {power: live, take-up: slack}, because: "It pulls fingers in, and nothing stops it."}
prohibit: [ "Nobody works alone." ]
\`\`\`

## Measure

1. Measure.
   \`\`\`yaml

   measure:
       gap:    "max 3 mm, with steel-rule"
       # both sides
       skew:
            limit: max 3 mm
            at: [left,right]
   hold: {supervisor: "Seen: both sides."}
   \`\`\`
`
    expect(formatProcedure(before)).toBe(`---
number: KRQ-TX-001
title: Change a return idler
variants: { wheel-stud: [m22, m24] }
---

# Change a return idler


\`\`\`yaml
roles: [fitter, supervisor]

# What safety rests on.
states:
  power:   { values: [live, isolated], start: live, end: live }
  take-up: { values: [tensioned, slack], start: tensioned, end: tensioned }
never:
  - { when: { power: live, take-up: slack }, because: "It pulls fingers in, and nothing stops it." }
prohibit: [Nobody works alone.]
\`\`\`

## Measure

1. Measure.
   \`\`\`yaml
   measure:
     gap: max 3 mm, with steel-rule
     # both sides
     skew:
       limit: max 3 mm
       at: [left, right]
   hold: { supervisor: "Seen: both sides." }
   \`\`\`
`)
  })

  it('leaves what it cannot read, and what runs over several lines', () => {
    for (const block of ['a: [', 'a: &x 1', 'a: 1 # cut off', '\ta: 1', 'just words', ''])
      expect(formatProcedure(`## A\n\n\`\`\`yaml\n${block}\n\`\`\`\n`)).toBe(`## A\n\n\`\`\`yaml\n${block}\n\`\`\`\n`)
    const lines =
      '## A\n\n```yaml\nkeep:\n    watch: |\n        One.\n          Two.\n    fire: { says:\n              "Look." }\n```\n'
    expect(formatProcedure(lines)).toBe(
      '## A\n\n```yaml\nkeep:\n  watch: |\n      One.\n        Two.\n  fire: { says:\n            "Look." }\n```\n',
    )
  })

  it('keeps the line ends of the file', () => {
    const text = '## A\r\n\r\n```yaml\r\nby:   fitter\r\nwhere:  out\r\n```\r\n'
    expect(formatProcedure(text)).toBe('## A\r\n\r\n```yaml\r\nby: fitter\r\nwhere: out\r\n```\r\n')
  })

  it('is that of the first procedure of the tree, but for quotes', () => {
    const withoutQuotes = (text: string) => text.replaceAll('"', '')
    const text = textOf('procedures/haul-truck-front-wheel-hub/haul-truck-front-wheel-hub.md')
    expect(withoutQuotes(formatProcedure(text))).toBe(withoutQuotes(text))
  })
})

function judge(text: string): string {
  const formatted = formatProcedure(text)
  expect(formatProcedure(formatted)).toBe(formatted)
  expect(prose(formatted)).toBe(prose(text))
  return formatted
}

describe('formatting touches no prose, changes nothing the second time and means the same', () => {
  it.each(procedures)('%s', (_, text) => {
    const formatted = judge(text)
    if (formatted !== text) expect(digestOf(formatted)).toBe(digestOf(text))
  })

  it('in the examples of the pages', () => {
    let changed = 0
    for (const text of isLong ? examples : examples.filter((_, index) => index % 4 === 0))
      if (judge(text) !== text) changed++
    expect(examples.length).toBeGreaterThan(500)
    expect(changed).toBeGreaterThan(5)
  })
})

const isReadable = (text: string): boolean => readProcedure(sourceText('procedure.md', text)).findings.length === 0

describe('formatting a text that somebody is typing', () => {
  const some = examples.filter((text) => text.length < 2000)

  it('never fails, and changes nothing the second time', () => {
    const edit = fc.record({
      text: fc.constantFrom(...some),
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      cut: fc.nat({ max: 12 }),
      typed: fc.constantFrom(
        '',
        ' ',
        '  ',
        '\n',
        '\n  ',
        '"',
        "'",
        '{',
        '}',
        '[',
        ']',
        ',',
        ': ',
        '#',
        ' # a',
        '- ',
        '|',
        '```',
        'a: 1',
        '??',
        '\t',
        '&',
        '\r\n',
      ),
    })
    fc.assert(
      fc.property(edit, ({ text, at, cut, typed }) => {
        const offset = Math.floor(at * text.length)
        const changed = text.slice(0, offset) + typed + text.slice(offset + cut)
        const formatted = formatProcedure(changed)
        expect(formatProcedure(formatted)).toBe(formatted)
      }),
      { numRuns: isLong ? 2000 : 60, seed: 7 },
    )
  })

  it('comes to the same layout from any indentation', () => {
    const loosened = fc.record({
      text: fc.constantFrom(...some.filter(isReadable)),
      by: fc.integer({ min: 1, max: 4 }),
      blanks: fc.integer({ min: 1, max: 3 }),
    })
    fc.assert(
      fc.property(loosened, ({ text, by, blanks }) => {
        const formatted = formatProcedure(text)
        // Only lines of blocks at the left edge: every level gets wider, and so does the blank behind each colon.
        const wider = formatted.replace(/^```yaml\n([\s\S]*?)^```/gm, (block) =>
          /[|>]|\n[^\n]*[{[][^}\]]*\n/.test(block)
            ? block
            : block
                .replace(/^((?: {2})+)/gm, (indent) => ' '.repeat((indent.length / 2) * (1 + by)))
                .replace(/^([ ]*[a-z-]+:) /gm, `$1${' '.repeat(blanks)}`),
        )
        expect(formatProcedure(wider)).toBe(formatted)
      }),
      { numRuns: isLong ? 500 : 20, seed: 7 },
    )
  })
})
