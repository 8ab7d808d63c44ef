import { Validator } from '@cfworker/json-schema'
import sarifSchema from '@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json' with { type: 'json' }
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { asJson } from '../../src/findings/as-json.ts'
import { asSarif } from '../../src/findings/as-sarif.ts'
import { asText } from '../../src/findings/as-text.ts'
import type { Finding } from '../../src/findings/finding.ts'
import { type SourceText, sourceText } from '../../src/text/source-text.ts'

const file = 'procedures/belt.md'
const typed = [
  '# Belt',
  '',
  '1. Tighten the bolts.',
  '   ```yaml',
  '   torque: { bolts: 390 Nm }',
  '\tlift:\t3 ton # グリース 30 g, ⚠ e\u0301tau \u001b[2J',
  '   ```',
  '',
].join('\n')

/** A finding at a piece of the text that stands in it once. */
function findingAt(text: string, piece: string, more: Partial<Finding> = {}): Finding {
  const start = text.indexOf(piece)
  if (start < 0) throw new Error(`The text has no ${piece}`)
  return {
    name: 'quantity/unit-unclear',
    severity: 'error',
    at: { file, start, end: start + piece.length },
    message: `“${piece}” can mean several things.`,
    advice: 'Write t, long ton or short ton.',
    ...more,
  }
}

const shown = (text: string, finding: Finding, width?: number) =>
  asText([finding], [sourceText(file, text)], width === undefined ? {} : { width })

describe('findings as text', () => {
  it('shows where, how bad, which fault, the line with the span marked, what is wrong and what to type', () => {
    const start = typed.indexOf('390 Nm')
    const finding = findingAt(typed, '390 Nm', {
      severity: 'warning',
      related: [{ at: { file, start: 2, end: 6 }, message: 'The title stands here.' }],
      edit: {
        title: 'Write the unit with a middle dot.',
        changes: [{ at: { file, start: start + 4, end: start + 6 }, newText: 'N·m' }],
      },
    })
    expect(shown(typed, finding)).toMatchInlineSnapshot(`
      "procedures/belt.md:5:21 warning quantity/unit-unclear
        5 │    torque: { bolts: 390 Nm }
          │                     ^^^^^^
        “390 Nm” can mean several things.
        → Write t, long ton or short ton.
        see procedures/belt.md:1:3 The title stands here.
        1 │ # Belt
          │   ^^^^
        edit Write the unit with a middle dot.
             “Nm” becomes “N·m”

      "
    `)
  })

  it('tells the way that leads to a fault between what is wrong and what to type', () => {
    const story = both[0]?.story ?? []
    expect(shown(typed, findingAt(typed, '# Belt', { story }))).toMatchInlineSnapshot(`
      "procedures/belt.md:1:1 error quantity/unit-unclear
        1 │ # Belt
          │ ^^^^^^
        “# Belt” can mean several things.
        It comes to this by:
          1) 1 Tighten the bolts
          2) 2 answer "no hoist": hoist comes off
        → Write t, long ton or short ton.

      "
    `)
  })

  it('keeps the mark under the span behind tabs, wide letters and accents, and lets nothing steer the terminal', () => {
    const text = shown(typed, findingAt(typed, '3 ton')) + shown(typed, findingAt(typed, 'e\u0301tau'))
    expect(text).not.toContain('\u001b')
    expect(text).toMatchInlineSnapshot(`
      "procedures/belt.md:6:8 error quantity/unit-unclear
        6 │     lift:   3 ton # グリース 30 g, ⚠ étau ␛[2J
          │             ^^^^^
        “3 ton” can mean several things.
        → Write t, long ton or short ton.

      procedures/belt.md:6:29 error quantity/unit-unclear
        6 │     lift:   3 ton # グリース 30 g, ⚠ étau ␛[2J
          │                                     ^^^^
        “étau” can mean several things.
        → Write t, long ton or short ton.

      "
    `)
  })

  it('shows first and last line of a span over lines', () => {
    expect(
      shown(typed, findingAt(typed, typed.slice(typed.indexOf('```yaml'), typed.lastIndexOf('```') + 3))),
    ).toMatchInlineSnapshot(`
      "procedures/belt.md:4:4 error quantity/unit-unclear
        4 │    \`\`\`yaml
          │    ^^^^^^^
        ⋮ │
        7 │    \`\`\`
          │    ^^^
        “\`\`\`yaml
           torque: { bolts: 390 Nm }
        ␉lift:␉3 ton # グリース 30 g, ⚠ étau ␛[2J
           \`\`\`” can mean several things.
        → Write t, long ton or short ton.

      "
    `)
  })

  it('cuts a long line around the span', () => {
    const long = `${'left '.repeat(40)}HERE${' right'.repeat(40)}`
    expect(shown(long, findingAt(long, 'HERE'), 60)).toMatchInlineSnapshot(`
      "procedures/belt.md:1:201 error quantity/unit-unclear
        1 │ …t left left left left left HERE right right right right ri…
          │                             ^^^^
        “HERE” can mean several things.
        → Write t, long ton or short ton.

      "
    `)
  })

  it('points past the end of a line where something is missing, and shows no line of an empty or unreadable file', () => {
    const missing = { ...findingAt(typed, '# Belt'), at: { file, start: 6, end: 6 } }
    expect(shown(typed, missing)).toMatchInlineSnapshot(`
      "procedures/belt.md:1:7 error quantity/unit-unclear
        1 │ # Belt
          │       ^
        “# Belt” can mean several things.
        → Write t, long ton or short ton.

      "
    `)
    expect(asText([{ ...missing, at: { file, start: 0, end: 0 } }], [sourceText(file, '')])).toMatchInlineSnapshot(`
      "procedures/belt.md:1:1 error quantity/unit-unclear
        “# Belt” can mean several things.
        → Write t, long ton or short ton.

      "
    `)
    expect(asText([missing], [])).toMatchInlineSnapshot(`
      "procedures/belt.md error quantity/unit-unclear
        “# Belt” can mean several things.
        → Write t, long ton or short ton.

      "
    `)
  })

  it('shows a place in five megabytes on one line at once', () => {
    const long = `${'x'.repeat(5_000_000)}HERE${'y'.repeat(1000)}`
    const started = performance.now()
    expect(shown(long, findingAt(long, 'HERE'), 60)).toContain('HERE')
    expect(performance.now() - started).toBeLessThan(1000)
  })

  it('marks exactly the span, whatever stands around it', () => {
    const signs = fc.constantFrom('a', 'ä', '\t', '漢', 'e\u0301', '👷🏽', ' ', '\u202e', '\u0007')
    const line = fc.array(signs, { maxLength: 60 }).map((each) => each.join(''))
    fc.assert(
      fc.property(line, line, fc.integer({ min: 20, max: 120 }), (before, after, width) => {
        const text = `${before}#NEEDLE#${after}`
        const lines = shown(text, findingAt(text, '#NEEDLE#'), width).split('\n')
        const source = lines[1]?.slice('  1 │ '.length) ?? ''
        const mark = lines[2]?.slice('    │ '.length) ?? ''
        expect(mark.trimStart()).toBe('^^^^^^^^')
        expect(columnsBefore(source, '#NEEDLE#')).toBe(mark.indexOf('^'))
        expect(columnsBefore(`${source}|`, '|')).toBeLessThanOrEqual(width)
      }),
    )
  })
})

/** Columns a terminal takes for what stands before a piece: counted here by the few signs the property uses. */
function columnsBefore(line: string, piece: string): number {
  return [...line.slice(0, line.lastIndexOf(piece)).replaceAll('👷🏽', '漢')].reduce(
    (sum, sign) => sum + (sign === '漢' ? 2 : sign === '\u0301' ? 0 : 1),
    0,
  )
}

const both: readonly Finding[] = [
  findingAt(typed, '3 ton', {
    related: [{ at: { file: 'shared/machines/bc 3.yaml', start: 0, end: 4 }, message: 'The machine says 1 200 kg.' }],
    story: [
      { at: { file, start: typed.indexOf('1. '), end: typed.indexOf('1. ') + 23 }, text: '1 Tighten the bolts' },
      { at: { file: 'shared/machines/bc 3.yaml', start: 0, end: 4 }, text: '2 answer "no hoist": hoist comes off' },
    ],
    edit: { title: 'Take it out.', changes: [{ at: { file, start: 0, end: 2 }, newText: '' }] },
  }),
  {
    ...findingAt(typed, 'Belt', { severity: 'advice', name: 'wording/no-verb' }),
    at: { file: 'gone.md', start: 0, end: 0 },
  },
]
const sources: readonly SourceText[] = [sourceText(file, typed), sourceText('shared/machines/bc 3.yaml', 'name: 3\n')]

describe('findings for programs', () => {
  it('gives JSON of a fixed shape', () => {
    expect(asJson(both, sources, [file])).toMatchSnapshot()
  })

  it('gives a SARIF log that the published schema accepts', () => {
    const pages = { 'wording/no-verb': '# wording/no-verb\n\nA step begins\nwith a verb.\n\n## Reported\n\nMore.\n' }
    const log = asSarif(both, sources, { version: '0.1.0', pages })
    // Source: OASIS SARIF 2.1.0 JSON schema (rtm.5) as carried by the package @microsoft/jest-sarif.
    const judged = new Validator(sarifSchema as object, '4', false).validate(JSON.parse(log))
    expect(judged.errors).toEqual([])
    expect(log).toMatchSnapshot()
  })

  it('is refused by the same schema when a line counts from 0', () => {
    const log = asSarif(both, sources, { version: '0.1.0', pages: {} }).replace('"startLine": 6', '"startLine": 0')
    expect(new Validator(sarifSchema as object, '4', false).validate(JSON.parse(log)).valid).toBe(false)
  })
})
