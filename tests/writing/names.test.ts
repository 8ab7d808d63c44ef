import { describe, expect, it } from 'vitest'
import { definitionOf, referencesOf } from '../../src/writing/names/find-names.ts'
import { renameableAt, renameEdits } from '../../src/writing/names/rename.ts'
import type { OpenText } from '../../src/writing/open-text.ts'
import { withChanges } from '../../src/writing/with-changes.ts'
import { openAt, openJob, openJobAt, sharedFiles, type Typed } from './marked-text.ts'

/** The stretch of its line up to each place, and the place in brackets. */
function shown(open: OpenText, places: readonly { readonly start: number; readonly end: number }[]): readonly string[] {
  return places.map(({ start, end }) => {
    const from = open.text.lastIndexOf('\n', start - 1) + 1
    return `${open.text.slice(from, start)}[${open.text.slice(start, end)}]`.trim()
  })
}

const proof: Typed = {
  step: 'hold: { supervisor: I saw it. }\nproves: { power¦: isolated }\nelse: { redo: [tighten, turn-off] }',
}

describe('where a name gets its meaning, and where else it stands', () => {
  it.each<[string, Typed, string, readonly string[]]>([
    [
      'a state',
      proof,
      '[power]',
      [
        '[power]',
        'under-belt: { what: below the return belt, safe-when: { [power]',
        'sets: { [power]',
        'proves: { [power]',
      ],
    ],
    ['a value', { step: 'needs: { power: isolated¦ }' }, 'power: { values: [live, [isolated]', []],
    [
      'a step',
      { step: 'else: { redo: turn-off¦ }' },
      '1. Turn the isolator off. {#[turn-off]',
      ['1. Turn the isolator off. {#[turn-off]', 'else: { redo: [turn-off]'],
    ],
    [
      'the end of a span',
      { step: 'else: { redo: turn-off to tighten¦ }' },
      '2. **Fitter:** Take the guard off and tighten the bolts. {#[tighten]',
      [],
    ],
    [
      'a phase in text',
      { prose: 'As in [the phase](#isolate¦).' },
      '## Isolate {#[isolate]',
      ['As in [the phase](#[isolate]', '## Isolate {#[isolate]'],
    ],
    [
      'a zone',
      { step: 'where: { fitter: under-belt¦ }' },
      '[under-belt]',
      ['[under-belt]', 'where: { fitter: [under-belt]'],
    ],
    [
      'a reading in a formula',
      { step: 'derive: { skew: "abs(end-play¦.left - end-play.right), max 3 mm" }' },
      '[end-play]',
      ['[end-play]', 'derive: { skew: "abs([end-play]', 'derive: { skew: "abs(end-play.left - [end-play]'],
    ],
    ['a reading in a limit', { step: 'set: { gap: "max first(end-play¦) + 0.1 mm" }' }, '[end-play]', []],
    [
      'a torque that is snug first',
      { step: 'snug: [housing-bolts¦]' },
      '[housing-bolts]',
      ['[housing-bolts]', 'snug: [[housing-bolts]', '3. Put the guard back; the bolts have [=[housing-bolts]'],
    ],
  ])('%s', (_, typed, definition, references) => {
    const marked = openJob(typed)
    const places = definitionOf(marked.open, marked.offset)
    expect(shown(marked.open, places)).toEqual([definition])
    if (references.length > 0) expect(shown(marked.open, referencesOf(marked.open, marked.offset))).toEqual(references)
  })

  it('leads into the library', () => {
    for (const [words, file, typed] of [
      ['with torque-wrench-a', 'shared/tools/workshop.yaml', 'torque-wrench-a'],
      ['roles: [fitter', 'shared/roles/workshop.yaml', 'fitter'],
      ['machine: bc-3', 'shared/machines/bc-3.yaml', ''],
    ] as const) {
      const { open, offset } = openJobAt(words)
      const [place] = definitionOf(open, offset)
      expect(place?.file).toBe(file)
      expect(sharedFiles[file]?.slice(place?.start, place?.end)).toBe(typed)
    }
  })

  it('has nothing to say of plain words and of names that nothing has', () => {
    for (const typed of [{ prose: 'Plain wor¦ds' }, { step: 'else: { redo: nowhere¦ }' }]) {
      const { open, offset } = openJob(typed)
      expect(definitionOf(open, offset)).toEqual([])
    }
  })
})

describe('a name is changed everywhere', () => {
  it.each<[string, Typed, string, readonly string[]]>([
    ['a step', { step: 'else: { redo: turn-off¦ }' }, 'switch-off', ['{#switch-off}', 'redo: switch-off']],
    [
      'a torque',
      { step: 'snug: [housing-bolts¦]' },
      'cover-bolts',
      ['cover-bolts: 350 to 430', 'snug: [cover-bolts]', '[=cover-bolts]'],
    ],
    [
      'a reading',
      { step: 'derive: { skew: "abs(end-play¦.left - end-play.right), max 3 mm" }' },
      'float',
      ['float: 0.10 to', 'abs(float.left - float.right)'],
    ],
    ['a zone', { step: 'where: under-belt¦' }, 'below-belt', ['below-belt: { what: below', 'where: below-belt']],
    [
      'what comes off',
      { step: 'needs: { belt-guard¦: removed }' },
      'tail-guard',
      ['removes: [tail-guard]', 'refits: [tail-guard]', 'needs: { tail-guard: removed }'],
    ],
    [
      'a value of a state',
      { step: 'sets: { hub.left: slung¦ }' },
      'on-hook',
      ['values: [fitted, on-hook]', 'hub.left: on-hook'],
    ],
    ['a part', { step: 'fits: [1 × belt-set¦]' }, 'belts', ['belts: { number: KB-5120', 'fits: [1 × belts]']],
  ])('%s', (_, typed, name, lines) => {
    const { open, offset } = openJob(typed)
    const renaming = renameEdits(open, offset, name)
    expect(renaming).toMatchObject({ kind: 'changes' })
    if (renaming.kind !== 'changes') return
    const text = withChanges(open.text, renaming.changes)
    for (const line of lines) expect(text).toContain(line)
  })

  it('writes a role in running text as words', () => {
    const { open, offset } = openAt(
      '---\nnumber: X\n---\n\n```yaml\nroles:\n  second: { who: second fitter }\n```\n\n## Look\n\n1. **Second¦:** Look.\n',
    )
    const renaming = renameEdits(open, offset, 'tyre-hand')
    const text = renaming.kind === 'changes' ? withChanges(open.text, renaming.changes) : renaming.because
    expect(text).toContain('tyre-hand: { who: second fitter }')
    expect(text).toContain('**Tyre hand:** Look.')
  })

  it.each<[string, Typed, string, RegExp]>([
    ['taken', { step: 'else: { redo: turn-off¦ }' }, 'tighten', /already the name of a step/],
    ['taken in formulas', { step: 'when: end-play¦ in limit' }, 'power', /already the name of a state/],
    ['no id', { step: 'else: { redo: turn-off¦ }' }, 'Turn off', /small letters/],
    ['no name', { step: 'where: under-belt¦' }, 'a, b', /cannot be a name/],
    ['a word of the language', { step: 'where: under-belt¦' }, 'out', /word of the language/],
    ['a word of formulas', { step: 'when: end-play¦ in limit' }, 'max', /word of formulas/],
    ['the same', { step: 'where: under-belt¦' }, 'under-belt', /called under-belt already/],
    ['of the library', { step: 'uses: [torque-wrench-a¦]' }, 'wrench', /other procedures use it/],
    ['of the machine', { step: 'sets: { power¦: live }' }, 'current', /energy power of the machine/],
    ['a lock of the machine', { step: 'locks: [bc-3-iso¦]' }, 'switch', /isolation point of the machine/],
    ['unknown', { step: 'else: { redo: nowhere¦ }' }, 'somewhere', /Nothing in this text/],
    ['in a text that cannot be read', { phase: 'enters: under-belt¦\n', step: 'x: [' }, 'pit', /Mend the errors first/],
    ['nothing', { prose: 'Plain wor¦ds' }, 'x', /no name/],
  ])('refuses a name that is %s', (_, typed, name, because) => {
    const { open, offset } = openJob(typed)
    expect(renameEdits(open, offset, name)).toMatchObject({ kind: 'refused', because: expect.stringMatching(because) })
  })

  it('says beforehand what can be renamed', () => {
    const { open, offset } = openJobAt('{#tighten')
    expect(renameableAt(open, offset)).toMatchObject({ kind: 'name', name: 'tighten' })
    const key = openJobAt('torque:')
    expect(renameableAt(key.open, key.offset - 2)).toMatchObject({ kind: 'refused' })
  })
})
