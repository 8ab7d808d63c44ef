import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { openLibrary } from '../../src/compile.ts'
import { completions } from '../../src/writing/completions.ts'
import { fixesAt } from '../../src/writing/fixes.ts'
import { foldings } from '../../src/writing/foldings.ts'
import { hoverAt } from '../../src/writing/hover.ts'
import { definitionOf, referencesOf } from '../../src/writing/names/find-names.ts'
import { renameableAt } from '../../src/writing/names/rename.ts'
import { openText } from '../../src/writing/open-text.ts'
import { outline } from '../../src/writing/outline.ts'
import { semanticMarks } from '../../src/writing/semantic-marks.ts'
import { mapLibrary } from '../map-library.ts'
import { file, openJob, sharedFiles } from './marked-text.ts'

const library = openLibrary(mapLibrary(sharedFiles))
const whole = openJob({
  step: 'decide:\n  ask: Which?\n  branches:\n    - { answer: a, go: stop }\n    - { otherwise: tighten }',
}).open.text

describe('a text that is half typed', () => {
  it('never makes anything fail, and what is marked lies in it', () => {
    const runs = process.env.WITNESSMARK_LONG === '1' ? 3000 : 150
    const typed = fc.record({
      at: fc.nat({ max: whole.length }),
      cut: fc.nat({ max: 40 }),
      words: fc.constantFrom(
        '',
        '\n',
        '   ',
        '{',
        '[',
        '"',
        "'",
        ': ',
        '- ',
        '```',
        '```yaml\n',
        '#',
        '[=',
        '](#',
        '{#',
        '**',
        '??',
        '\r\n',
        '\t',
        'torque:\n',
        '𝄞',
      ),
      look: fc.integer({ min: -30, max: 30 }),
    })
    fc.assert(
      fc.property(typed, ({ at, cut, words, look }) => {
        const text = whole.slice(0, at) + words + whole.slice(at + cut)
        const open = openText(file, text, library)
        const offset = Math.min(text.length, Math.max(0, at + words.length + look))
        for (const { start, end, caret, insert } of completions(open, offset)) {
          expect(start).toBeLessThanOrEqual(end)
          expect(end).toBe(offset)
          expect(start).toBeGreaterThanOrEqual(0)
          expect(caret).toBeLessThanOrEqual(insert.length)
        }
        hoverAt(open, offset)
        definitionOf(open, offset)
        renameableAt(open, offset)
        for (const place of referencesOf(open, offset)) expect(place.end).toBeLessThanOrEqual(text.length)
        let end = 0
        for (const mark of semanticMarks(open)) {
          expect(mark.start).toBeGreaterThanOrEqual(end)
          end = mark.end
        }
        expect(end).toBeLessThanOrEqual(text.length)
        for (const folding of foldings(open)) expect(folding.end).toBeLessThanOrEqual(text.length)
        for (const entry of outline(open)) expect(entry.end).toBeGreaterThanOrEqual(entry.nameEnd)
        fixesAt(open.findings, file, 0, text.length)
        // What was read before changes nothing.
        const again = openText(file, text, library, openText(file, whole, library))
        expect(again.names).toEqual(open.names)
      }),
      { numRuns: runs, seed: 11 },
    )
  })
})

describe('what is shown at the edge of a text', () => {
  it('marks keys, names, figures and units', () => {
    const { open } = openJob({ step: 'needs: { power: isolated }\nlift: { idler: "??, legs 2" }' })
    const marks = semanticMarks(open).map(({ start, end, kind }) => `${kind} ${open.text.slice(start, end)}`)
    expect(marks).toEqual(
      expect.arrayContaining([
        'key torque',
        'definition housing-bolts',
        'number 350',
        'unit N·m',
        'state power',
        'value isolated',
        'role Fitter',
        'definition tighten',
        'reading housing-bolts',
        'resource belt-guard',
        'missing ??',
      ]),
    )
  })

  it('numbers phases, branches and steps', () => {
    const { open } = openJob()
    expect(outline(open)).toMatchObject([
      {
        detail: '1',
        name: 'Isolate',
        id: 'isolate',
        children: [
          { detail: '1.1', id: 'turn-off' },
          { detail: '1.2', id: 'tighten', name: 'Take the guard off and tighten the bolts.' },
          { detail: '1.3', id: 'guard-on' },
        ],
      },
    ])
  })

  it('shows a figure as the print does', () => {
    const { open } = openJob()
    const hover = hoverAt(open, open.text.indexOf('350 to') + 1)
    expect(hover?.markdown).toMatch(/^\*\*350 to 430 N·m \(2\d\d to 3\d\d lbf·ft\)\*\*/)
    expect(hoverAt(open, open.text.indexOf('safe-when'))?.markdown).toContain('Every state named must have')
    expect(hoverAt(open, open.text.indexOf('with torque-wrench') + 1)?.markdown).toContain('The tool.')
  })
})
