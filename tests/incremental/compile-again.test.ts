import { isDeepStrictEqual } from 'node:util'
import { describe, expect, it } from 'vitest'
import { type Compiled, type CompileMemory, compileProcedure, newMemory, openLibrary } from '../../src/compile.ts'
import { newReadingMemory } from '../../src/syntax/markdown/reading-memory.ts'
import { readProcedureAgain } from '../../src/syntax/read-procedure.ts'
import { sourceText } from '../../src/text/source-text.ts'
import { madeProcedure } from '../bench/made-procedures.ts'
import { procedureText } from '../compile-text.ts'
import { textOf } from '../house/source-files.ts'
import { mapLibrary } from '../map-library.ts'
import { typist } from './typist.ts'

const FILE = 'procedures/example/example.md'
const SEED = Number(process.env.WITNESSMARK_SEED ?? 20260302)
const EDITS = process.env.WITNESSMARK_LONG === '1' ? 10_000 : 300
/** After so many edits the text is as at first, or nothing but errors would be left of it. */
const BEFORE_AFRESH = 14

const SHARED = {
  'shared/fragments/greet.md': [
    '---',
    'parameters: { who: who is told }',
    'source: house rule',
    '---',
    '1. Tell the (=who) that work begins.',
    '2. Read the gap. {#greet-gap}',
    '   ```yaml',
    '   measure: { greet-gap: max 3 mm }',
    '   else: stop',
    '   ```',
  ].join('\n'),
  'shared/machines/conveyor.yaml':
    'name: conveyor 3\nenergies:\n  power: { kind: electrical, magnitude: 400 V, isolated-by: main }\nisolation-points:\n  main: { what: isolator, where: at the drive, energy: power }\nsource: invented',
  'procedures/example/figures/a.svg': '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"/>',
}

const WITH_SHARED = procedureText(
  [
    'What it is for, with [=greet-gap].',
    '',
    '![A belt seen from the side.](figures/a.svg "The belt")',
    '',
    '```yaml',
    'roles: [fitter, second]',
    'states:',
    '  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated }',
    'zones:',
    '  belt: { what: at the belt, safe-when: { power: isolated } }',
    '```',
    '',
    '## Greet {#greet}',
    '',
    '```yaml',
    'by: fitter',
    'where: out',
    'include: { fragment: greet, with: { who: driver } }',
    '```',
    '',
    '## Lock {#lock}',
    '',
    '```yaml',
    'by: fitter',
    'where: out',
    '```',
    '',
    '1. Turn it off and lock it.',
    '   ```yaml',
    '   sets: { power: isolated }',
    '   locks: [main]',
    '   ```',
    '2. Press start. {#try}',
    '   ```yaml',
    '   check: { tried: Nothing moves. }',
    '   else: { stop: It is still live. }',
    '   ```',
    '',
    '## Work at both ends {#work}',
    '',
    '```yaml',
    'by: [fitter, second]',
    'where: belt',
    'repeat: { each: [head, tail] }',
    'accept:',
    '  - { finding: readings/limit-without-instrument, because: The rule is at hand., role: fitter }',
    '```',
    '',
    '1. Go to the (=position) and measure. {#measure}',
    '   ```yaml',
    '   measure: { gap: 1 to 3 mm }',
    '   else: { redo: this, at-most: 3, then: stop }',
    '   ```',
    '2. Clean the (=position).',
    '3. See step [measure](#measure) and [=gap].',
    '',
    '## Give back {#back}',
    '',
    '```yaml',
    'by: fitter',
    'where: out',
    '```',
    '',
    '1. Take the lock off and turn it on.',
    '   ```yaml',
    '   clear: { zones: [belt], by: second }',
    '   unlocks: [main]',
    '   sets: { power: live }',
    '   ```',
  ].join('\n'),
  'machine: conveyor\n',
)

/** The longest whole file that the README shows. */
const README_EXAMPLE = [...textOf('procedures/README.md').matchAll(/^````md\n([\s\S]*?)^````$/gm)]
  .map(([, text = '']) => text)
  .reduce((longest, text) => (text.length > longest.length ? text : longest), '')

const TEXTS: readonly (readonly [string, string])[] = [
  ['the example of the README', README_EXAMPLE],
  ['one with a fragment, a machine, a figure and a repeat', WITH_SHARED],
  ['isolation to lifting', madeProcedure(301, 3, 0)],
  ['burning to tries', madeProcedure(302, 3, 4)],
  ['refit to tables', madeProcedure(303, 3, 9)],
  ['heat to variants', madeProcedure(304, 3, 13)],
  ['redo to props', madeProcedure(305, 3, 16)],
]

function compiled(text: string, memory: CompileMemory | null, files: Readonly<Record<string, string>> = {}): Compiled {
  return compileProcedure(FILE, openLibrary(mapLibrary({ ...SHARED, [FILE]: text, ...files })), memory)
}

/** The library is opened once: opening it again reads every word list. */
const opened = openLibrary(mapLibrary(SHARED))

function again(text: string, memory: CompileMemory | null): Compiled {
  return compileProcedure(FILE, { ...opened, reader: mapLibrary({ ...SHARED, [FILE]: text }) }, memory)
}

const parts = ({ findings, stepFile, flow, procedure, sources }: Compiled) => ({
  findings,
  stepFile,
  flow,
  procedure,
  sources,
})

describe('a text compiled again and again with one memory', () => {
  it.each(TEXTS)('says at every edit what a fresh compile says: %s', (name, start) => {
    const place = TEXTS.findIndex(([other]) => other === name)
    const { edit } = typist(SEED + place)
    const memory = newMemory()
    let text = start
    let earlier = [text]
    let clean = 0
    for (let count = 0; count < EDITS / TEXTS.length; count++) {
      const fresh = parts(again(text, null))
      const kept = parts(again(text, memory))
      if (!isDeepStrictEqual(kept, fresh))
        expect({ seed: SEED, count, text, ...kept }).toEqual({ seed: SEED, count, text, ...fresh })
      if (fresh.stepFile !== null) clean++
      earlier = [...earlier, text].slice(-8)
      text = count % BEFORE_AFRESH === BEFORE_AFRESH - 1 ? start : edit(text, earlier)
    }
    expect(clean).toBeGreaterThan(0)
  })

  it('follows what changes beside the text', () => {
    const memory = newMemory()
    const others: readonly Readonly<Record<string, string>>[] = [
      {},
      { 'shared/fragments/greet.md': SHARED['shared/fragments/greet.md'].replace('max 3 mm', 'max 4 mm') },
      { 'shared/fragments/greet.md': 'no front matter' },
      { 'procedures/example/figures/a.svg': '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 8 8"/>' },
      { 'shared/machines/conveyor.yaml': SHARED['shared/machines/conveyor.yaml'].replace('400 V', '690 V') },
      { 'shared/tools/a.yaml': 'source: invented\nitems: { rule: { name: steel rule } }' },
      { 'witnessmark.yaml': 'roles: { fitter: { who: belt fitter } }\nprint-units: [inch]\n' },
      {},
    ]
    for (const files of others)
      expect(parts(compiled(WITH_SHARED, memory, files))).toEqual(parts(compiled(WITH_SHARED, null, files)))
  })

  it('shows the words of now in the story of a fault that it need not look for again', () => {
    const text = ([first, second, third]: readonly [string, string, string]) =>
      procedureText(
        `\`\`\`yaml\nroles: [fitter]\nstates:\n  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated, proved-by: fitter }\nzones:\n  belt: { what: at the belt, safe-when: { power: isolated } }\n\`\`\`\n\n## Work\n\n\`\`\`yaml\nby: fitter\nwhere: out\n\`\`\`\n\n1. ${first}\n2. ${second}\n   \`\`\`yaml\n   where: belt\n   \`\`\`\n3. ${third}\n`,
      )
    const memory = newMemory()
    for (const words of [
      ['Read the sign.', 'Clean the belt.', 'Write the card.'],
      ['Read the plate.', 'Clean the belt.', 'Write the card.'],
      ['Read the plate.', 'Clean the long belt.', 'Write the card.'],
      ['Read the plate.', 'Clean the long belt.', 'Write the other card.'],
      ['Read the plate twice.', 'Clean the belt.', 'Write the other card.'],
    ] as const) {
      const kept = again(text(words), memory)
      expect(kept.flow?.faults.length).toBeGreaterThan(0)
      expect(parts(kept)).toEqual(parts(again(text(words), null)))
    }
  })

  it('follows the ways again where a limit changes that decides, and tells the same where one changes that does not', () => {
    const text = ([wear, play]: readonly [string, string]) =>
      procedureText(
        `\`\`\`yaml\nroles: [fitter]\nstates:\n  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated }\nzones:\n  belt: { what: at the belt, safe-when: { power: isolated } }\n\`\`\`\n\n## Work\n\n\`\`\`yaml\nby: fitter\nwhere: out\n\`\`\`\n\n1. Read.\n   \`\`\`yaml\n   measure:\n     wear: ${wear}\n     play: ${play}\n   else: { redo: this, at-most: 2, then: continue }\n   \`\`\`\n2. Turn it off where it is worn.\n   \`\`\`yaml\n   when: wear > 4 mm\n   sets: { power: isolated }\n   \`\`\`\n3. Clean the belt.\n   \`\`\`yaml\n   where: belt\n   when: wear > 5 mm\n   \`\`\`\n4. Turn it on where it was off.\n   \`\`\`yaml\n   where: out\n   when: wear > 4 mm\n   sets: { power: live }\n   \`\`\`\n`,
      )
    const memory = newMemory()
    for (const limits of [
      ['max 3 mm', 'max 1 mm'],
      ['max 3 mm', 'max 2 mm'],
      ['max 3 mm', '1 to 2 mm'],
      ['max 4 mm', '1 to 2 mm'],
      ['4 to 6 mm', '1 to 2 mm'],
      ['4 to 6 cm', '1 to 2 mm'],
      ['4 to 6 cm', '1 to 2 cm'],
      ['4 to 6 cm', 'under wear'],
    ] as const)
      expect(parts(again(text(limits), memory))).toEqual(parts(again(text(limits), null)))
  })

  it('reads only the changed step again: every other comes out as the very same value', () => {
    const memory = newReadingMemory()
    const text = madeProcedure(306, 6, 0)
    const before = readProcedureAgain(sourceText(FILE, text), memory).value
    const words = text.split('\n').findIndex((line) => line.startsWith('2. ') && text.indexOf(line) > text.length / 2)
    const after = readProcedureAgain(
      sourceText(
        FILE,
        text
          .split('\n')
          .toSpliced(words, 1, `${text.split('\n')[words]} Slowly.`)
          .join('\n'),
      ),
      memory,
    ).value
    const changed = after.phases.filter((phase, index) => phase !== before.phases[index])
    expect(changed).toHaveLength(1)
    const old = before.phases.find(({ title }) => title === changed[0]?.title)
    expect(changed[0]?.steps.filter((step, index) => step !== old?.steps[index])).toHaveLength(1)
    expect(after.block).toBe(before.block)
    expect(after.frontMatter).toBe(before.frontMatter)
  })
})
