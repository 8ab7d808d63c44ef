import { describe, expect, it } from 'vitest'
import { plainValue } from '../../../src/syntax/block-node.ts'
import { plainText } from '../../../src/syntax/prose.ts'
import { readFragment } from '../../../src/syntax/read-fragment.ts'
import { readProcedure } from '../../../src/syntax/read-procedure.ts'
import { readYamlText } from '../../../src/syntax/read-yaml-text.ts'
import { sourceText } from '../../../src/text/source-text.ts'
import { phasesOf, stepsOf } from './walk.ts'

const top = '---\nnumber: KRQ-CV-014\n---\n\n## Raise the pulley {#raise}\n\n'
const nine = Array.from({ length: 9 }, (_, index) => `${index + 1}. Step.\n`).join('')

function read(text: string) {
  return readProcedure(sourceText('p.md', text))
}

function namesIn(text: string): readonly string[] {
  return read(text).findings.map(({ name }) => name.replace('syntax/', ''))
}

/** The text after the edits of its findings, the last first so that the others keep their places. */
function repaired(text: string, findings = read(text).findings): string {
  const changes = findings.flatMap(({ edit }) => edit?.changes ?? [])
  return [...changes]
    .sort((a, b) => b.at.start - a.at.start)
    .reduce((now, { at, newText }) => now.slice(0, at.start) + newText + now.slice(at.end), text)
}

/** Name of the trap: text, finding, words of its advice. Each carries an edit that repairs it. */
const repairable: Readonly<Record<string, readonly [string, string, RegExp]>> = {
  'a block one space short under 10.': [
    `${top}${nine}10. Tighten.\n   \`\`\`yaml\n   takes: 5 min\n   \`\`\`\n11. Look.\n`,
    'block-outside-step',
    /Type 4 spaces/,
  ],
  'a block one space short under 1.': [
    `${top}1. Tighten.\n  \`\`\`yaml\n  takes: 5 min\n  \`\`\`\n2. Look.\n`,
    'block-outside-step',
    /Type 3 spaces/,
  ],
  'a block that slipped out of a sub-step': [
    `${top}1. Tighten.\n   1. Left.\n   2. Right.\n     \`\`\`yaml\n     takes: 5 min\n     \`\`\`\n`,
    'block-outside-step',
    /Type 6 spaces/,
  ],
  'a closing fence that slipped out': [
    `${top}1. Tighten.\n   \`\`\`yaml\n   takes: 5 min\n  \`\`\`\n2. Look.\n   \`\`\`yaml\n   takes: 6 min\n   \`\`\`\n`,
    'block-outside-step',
    /Type 3 spaces/,
  ],
  'content that slipped out': [
    `${top}1. Tighten.\n   \`\`\`yaml\n  takes: 5 min\n   \`\`\`\n2. Look.\n`,
    'block-outside-step',
    /Type 3 spaces/,
  ],
  'a fence too far right': [
    `${top}1. Tighten.\n        \`\`\`yaml\n        takes: 5 min\n        \`\`\`\n2. Look.\n`,
    'fence-too-deep',
    /Type 3 spaces/,
  ],
  'a fence too far right below a blank line': [
    `${top}${nine}10. Tighten.\n\n         \`\`\`yaml\n         takes: 5 min\n         \`\`\`\n`,
    'fence-too-deep',
    /Type 4 spaces/,
  ],
  'an unmarked block': [`${top}1. Tighten.\n   \`\`\`\n   takes: 5 min\n   \`\`\`\n`, 'unknown-fence', /```yaml/],
  'numbers that jump': [`${top}1. A.\n2. B.\n5. C.\n6. D.\n`, 'step-number-out-of-order', /type 3/],
  'a number that stands twice': [`${top}1. A.\n2. B.\n2. C.\n`, 'step-number-out-of-order', /type 3/],
  'a step without its blank': [`${top}1. A.\n2.Tighten.\n`, 'step-in-paragraph', /Type 2\. Tighten/],
  'a phase without its blank': [`${top}1. A.\n\n##Lower\n\n1. B.\n`, 'heading-without-blank', /Type ## Lower/],
  'front matter below a blank line': [`\n\n${top}1. A.\n`, 'front-matter-below-top', /Delete the blank lines/],
  'an id with capitals and blanks': [`${top}1. A. {#Étape Un}\n`, 'unusable-id', /\{#etape-un\}/],
  'an unseen sign that turns the words around': [`${top}1. Turn\u202E left.\n`, 'unreadable-letter', /Delete it/],
}

describe('a trap with a certain repair', () => {
  it.each(Object.entries(repairable))('%s', (_, [text, name, advice]) => {
    const { findings } = read(text)
    expect(findings.map((finding) => finding.name)).toEqual([`syntax/${name}`])
    expect(findings[0]?.advice).toMatch(advice)
    expect(namesIn(repaired(text))).toEqual([])
  })

  it('keeps the block it reports, so that what is in it is still checked', () => {
    for (const [trap, [text]] of Object.entries(repairable)) {
      if (!trap.startsWith('a block')) continue
      const kept = stepsOf(read(text).value).filter(({ block }) => block !== null)
      const fine = stepsOf(read(repaired(text)).value).filter(({ block }) => block !== null)
      expect(kept.map(({ typedNumber }) => typedNumber)).toContain(fine[0]?.typedNumber)
    }
  })
})

/** Name of the trap: text, names of all findings in order, the text at the first of them. */
const reported: Readonly<Record<string, readonly [string, readonly string[], string]>> = {
  'a block at the left edge behind a step': [
    `${top}1. A.\n\n\`\`\`yaml\ntakes: 5 min\n\`\`\`\n\n2. B.\n`,
    ['block-after-steps'],
    '```yaml',
  ],
  'a block behind sub-steps': [
    `${top}1. A.\n   1. B.\n   2. C.\n   \`\`\`yaml\n   takes: 5 min\n   \`\`\`\n`,
    ['block-after-steps'],
    '```yaml',
  ],
  'a second block': [
    `${top}1. A.\n   \`\`\`yaml\n   takes: 5 min\n   \`\`\`\n\n   \`\`\`yaml\n   by: rigger\n   \`\`\`\n`,
    ['second-block'],
    '```yaml',
  ],
  'a block in a bullet': [
    `${top}1. A.\n   - B.\n     \`\`\`yaml\n     by: x\n     \`\`\`\n`,
    ['block-out-of-place'],
    '```yaml\n     by: x\n     ```',
  ],
  'a block left open in a step': [
    `${top}1. A.\n   \`\`\`yaml\n   takes: 5 min\n2. B.\n\n## Lower\n\n1. C.\n`,
    ['fence-left-open'],
    '```yaml',
  ],
  'a block left open at the left edge': [
    `${top}\`\`\`yaml\nby: fitter\n\n1. A.\n   \`\`\`yaml\n   takes: 5 min\n   \`\`\`\n2. B.\n\n## Lower\n\n1. C.\n`,
    ['fence-left-open'],
    '```yaml',
  ],
  'a comment that hides a block': [
    `${top}1. A.\n\n   <!--\n   \`\`\`yaml\n   by: x\n   \`\`\`\n   -->\n2. B.\n`,
    ['hidden-by-comment'],
    '<!--\n   ```yaml\n   by: x\n   ```\n   -->',
  ],
  'a comment that hides a phase': [
    `${top}1. A.\n\n<!--\n## Lower\n\n1. B.\n-->\n`,
    ['hidden-by-comment'],
    '<!--\n## Lower\n\n1. B.\n-->',
  ],
  'a comment left open': [`${top}1. A.\n\n<!-- see\n\n## Lower\n\n1. B.\n`, ['hidden-by-comment'], '<!-- see\n\n'],
  'a plain comment': [`${top}<!-- new gun -->\n\n1. A.\n`, ['comment'], '<!-- new gun -->'],
  'HTML in a step': [`${top}1. A <b>big</b> nut.\n`, ['raw-html', 'raw-html'], '<b>'],
  'HTML around a step': [`${top}<div>\n\n1. A.\n\n</div>\n`, ['raw-html', 'raw-html'], '<div>'],
  'numbers that restart': [`${top}1. A.\n2. B.\n\n1) C.\n2) D.\n`, ['step-number-out-of-order'], '1'],
  'a first number other than 1': [`${top}3. A.\n4. B.\n`, ['step-number-out-of-order'], '3'],
  'a step right below a text': [`${top}Then\n2. tighten.\n`, ['step-in-paragraph'], '2. tighten.'],
  'a text between steps': [`${top}1. A.\n\nMind the edge.\n\n2. B.\n`, ['text-outside-step'], 'Mind the edge.'],
  'bullets at the left edge': [`${top}1. A.\n- Mind.\n2. B.\n`, ['text-outside-step'], '- Mind.'],
  'a step without words': [`${top}1. A.\n2.\n3. - B.\n`, ['step-without-text', 'step-without-text'], '2.'],
  'three levels of steps': [`${top}1. A.\n   1. B.\n      1. C.\n`, ['substep-too-deep'], '1. C.'],
  'numbers in a bullet': [`${top}1. A.\n   - B.\n     1. C.\n`, ['steps-in-bullet'], '1. C.'],
  'details below the bullet of a role': [`${top}1. A.\n   - **Rigger:** B.\n     - C.\n`, ['act-with-details'], '- C.'],
  'a deep heading': [`${top}#### Left\n\n1. A.\n`, ['heading-out-of-place'], '#### Left'],
  'a heading in a step': [`${top}1. A.\n   ## B\n`, ['heading-out-of-place'], '## B'],
  'a heading in a quote': [`${top}> ## B\n\n1. A.\n`, ['heading-out-of-place'], '## B'],
  'an underlined text': [`${top}Text\n---\n\n1. A.\n`, ['underlined-heading'], 'Text\n---'],
  'a late title': [`${top}1. A.\n\n# B\n`, ['title-out-of-place'], '# B'],
  'a branch before any phase': ['---\na: b\n---\n\n### B\n\n1. A.\n', ['branch-without-phase'], '### B'],
  'a step before any phase': ['---\na: b\n---\n\n1. A.\n', ['step-outside-phase', 'no-phase'], '1. A.'],
  'no front matter': ['## B\n\n1. A.\n', ['front-matter-missing'], ''],
  'front matter left open, with a comment': [
    '---\n# note\na: b\n\n# T\n\nWords.\n\n## B\n\n1. A.\n',
    ['front-matter-open'],
    '---',
  ],
  'front matter left open': ['---\na: b\n\n## B\n\n1. A.\n', ['front-matter-open'], '---'],
  'front matter of a list': ['---\n- a\n---\n\n## B\n\n1. A.\n', ['front-matter-missing'], '---\n- a\n---'],
  'front matter of nothing': ['---\n---\n\n## B\n\n1. A.\n', ['front-matter-missing'], '---\n---'],
  'an empty file': ['', ['empty-file'], ''],
  'blanks only': [' \n\t\n', ['empty-file'], ''],
  'no text at all': ['a\0b', ['unreadable-letter'], '\0'],
  'a lone surrogate': [`${top}1. A \uD83D B.\n`, ['unreadable-letter'], '\uD83D'],
  'a lost letter': [`${top}1. Warm to 80 \uFFFDC.\n`, ['unreadable-letter'], '\uFFFD'],
  'an id in the middle': [`${top}1. A {#x} B.\n`, ['misplaced-id'], '{#x}'],
  'the same id twice': [`${top}1. A. {#raise}\n`, ['duplicate-id'], '{#raise}'],
  'an id of the machine': [`${top}1. A. {#constructor}\n`, ['unusable-id'], '{#constructor}'],
  'an address that runs a program': [
    `${top}1. [A](javascript:alert%281%29)\n`,
    ['refused-link'],
    '[A](javascript:alert%281%29)',
  ],
  'an address in another file': [`${top}1. [A](b.md#c)\n`, ['refused-link'], '[A](b.md#c)'],
  'a detached address': [
    `${top}1. See [A][b].\n\n[b]: https://example.org\n`,
    ['detached-link', 'detached-link'],
    '[A][b]',
  ],
  'an address that is nowhere': [`${top}1. See [A][b].\n`, ['detached-link'], '[A][b]'],
  'a footnote': [`${top}1. A.[^1]\n`, ['footnote'], '[^1]'],
  'a picture in bold words': [`${top}1. A **![b](c.png)**.\n`, ['misplaced-figure'], '![b](c.png)'],
  'a picture from the web': [
    `${top}1. A.\n\n   ![b](https://example.org/c.png)\n`,
    ['web-figure'],
    '![b](https://example.org/c.png)',
  ],
  'a line across the page': [`${top}A.\n\n---\n\n1. B.\n`, ['ornament'], '---'],
  'program code': [`${top}A.\n\n    B.\n\n1. C.\n`, ['indented-code'], '    B.'],
  'a fence of another language': [`${top}\`\`\`text\nA\n\`\`\`\n\n1. B.\n`, ['unknown-fence'], '```text'],
  'a list in a block': [`${top}\`\`\`yaml\n- a\n\`\`\`\n\n1. B.\n`, ['block-without-keys'], '```yaml\n- a\n```'],
  'an empty block': [`${top}\`\`\`yaml\n\`\`\`\n\n1. B.\n`, ['block-without-keys'], '```yaml\n```'],
  '300 lists in lists': [
    top + Array.from({ length: 300 }, (_, level) => `${' '.repeat(3 * level)}1. A.\n`).join(''),
    ['beyond-limits'],
    `${' '.repeat(99)}1. `,
  ],
  '300 lists on one line': [`${top}${'1. '.repeat(300)}A.\n`, ['beyond-limits'], '1. '.repeat(133)],
  '300 quotes in quotes': [`${top}${'> '.repeat(300)}A.\n`, ['beyond-limits'], '> '.repeat(200)],
  'a file of 5 MB': [`${top}${'1. A.\n'.repeat(900_000)}`, ['beyond-limits'], ''],
  '60 stars in a row': [`${top}1. ${'*'.repeat(60)}A.\n`, ['beyond-limits'], '*'.repeat(60)],
}

describe('a trap without a certain repair', () => {
  it.each(Object.entries(reported))('%s', (_, [text, names, at]) => {
    const { findings } = read(text)
    expect(findings.map(({ name }) => name)).toEqual(names.map((name) => `syntax/${name}`))
    const [first] = findings
    expect(text.slice(first?.at.start, first?.at.end)).toBe(at)
    expect(findings.every(({ message, advice }) => message.length > 10 && advice.length > 5)).toBe(true)
  })

  it('names the other place where there are two', () => {
    const words = (text: string) =>
      read(text).findings.flatMap(({ related = [] }) => related.map(({ at }) => text.slice(at.start, at.end)))
    expect(words(`${top}1. A. {#raise}\n`)).toEqual(['{#raise}'])
    expect(words(reported['a second block']?.[0] ?? '')).toEqual(['```yaml'])
    expect(words(`${top}1. A.\n   \`\`\`yaml\n   a: b\n   a: c\n   \`\`\`\n`)).toEqual(['a'])
    expect(words(reported['a block left open at the left edge']?.[0] ?? '')).toEqual([])
  })

  it('says a lost step once, not again for what hangs on it', () => {
    expect(namesIn(`${top}1. A.\n\n2.Tighten.\n3. Look.\n   - B.\n\n   C.\n`)).toEqual(['step-in-paragraph'])
    expect(namesIn(`${top}1. A.\n\n2.Tighten.\n\n3. Look.\n\nD.\n`)).toEqual([
      'step-in-paragraph',
      'step-number-out-of-order',
      'text-outside-step',
    ])
  })

  it('still reads what follows a block or comment that was left open', () => {
    for (const trap of ['a block left open in a step', 'a block left open at the left edge', 'a comment left open']) {
      const { value } = read(reported[trap]?.[0] ?? '')
      expect(phasesOf(value).map(({ title }) => title)).toEqual(['Raise the pulley', 'Lower'])
      expect(stepsOf(value).length).toBeGreaterThan(1)
    }
  })
})

describe('what looks odd but is fine', () => {
  it('comments at the left edge of front matter', () => {
    const text = '---\n# who: the trainer\na: b\n# next\n\n# last\n---\n\n## B\n\n1. A.\n'
    expect(namesIn(text)).toEqual([])
    expect(phasesOf(read(text).value)).toHaveLength(1)
  })

  const fine: Readonly<Record<string, string>> = {
    '1. before every step': `${top}1. A.\n1. B.\n1. C.\n`,
    'numbers with a parenthesis': `${top}1) A.\n2) B.\n`,
    'a block with tildes': `${top}1. A.\n   ~~~yaml\n   takes: 5 min\n   ~~~\n`,
    'YAML in capitals': `${top}1. A.\n   \`\`\`YAML\n   takes: 5 min\n   \`\`\`\n`,
    'bullets before the block': `${top}1. A.\n   - B.\n   \`\`\`yaml\n   takes: 5 min\n   \`\`\`\n`,
    'a block below a blank line': `${top}1. A.\n\n   \`\`\`yaml\n   takes: 5 min\n   \`\`\`\n\n2. B.\n`,
    'prose behind the block': `${top}\`\`\`yaml\nby: x\n\`\`\`\n\nProse.\n\n1. B.\n`,
    'a step over two lines': `${top}1. Tighten the bolts\nby hand.\n2. B.\n`,
    'a sign that is escaped': `${top}1. Gap \\<0.5 mm, \\[=x] and \\{#y}.\n`,
    'headings in a block': `${top}\`\`\`yaml\n## a remark\nby: x\n\`\`\`\n\n1. A.\n`,
    'no title and no prose': `${top}1. A.\n`,
    'a missing value': `${top}1. A.\n   \`\`\`yaml\n   torque: { plate: ?? }\n   \`\`\`\n`,
  }
  it.each(Object.entries(fine))('%s', (_, text) => {
    expect(read(text).findings).toEqual([])
  })

  it('takes a role whose colon stands behind the stars', () => {
    const [step] = stepsOf(read(`${top}1. **Fitter , rigger & second** : Lift [=x].\n`).value)
    expect(step?.roles.map(({ name }) => name)).toEqual(['Fitter', 'rigger', 'second'])
    expect(step?.markdown).toBe('Lift [=x].')
    expect(plainText(step?.text ?? [])).toBe('Lift .')
  })

  it('splits at "and" only where it is a word', () => {
    const [step] = stepsOf(read(`${top}1. **Andrea and handler:** Lift.\n`).value)
    expect(step?.roles.map(({ name }) => name)).toEqual(['Andrea', 'handler'])
  })
})

/** YAML: finding, text at it, the line or words to type. */
const yamlTraps: Readonly<Record<string, readonly [string, string, string, string]>> = {
  'a value that is a remark': ['bolt: #4 UNC\n', 'cut-off-text', '#4 UNC', 'bolt: "#4 UNC"'],
  'a value cut off': ['bolts:\n  - 24 × #4 bolt\n', 'cut-off-text', '#4 bolt', '- "24 × #4 bolt"'],
  'a remark behind a map': ['a: { b: c } # d\n', 'cut-off-text', '# d', 'line of its own'],
  'a remark behind the key of a map': ['a: # d\n  b: c\n', 'cut-off-text', '# d', 'line of its own'],
  'a tag': ['hold: !important note\n', 'dropped-tag', '!important', 'hold: "!important note"'],
  'a comma in braces': ['{ a: x, y }\n', 'comma-in-braces', 'y', '"x, y"'],
  'an empty value': ['hold:\nsupervisor: Seen.\n', 'empty-value', 'hold', 'indent'],
  'an empty item': ['a:\n  -\n  - b\n', 'empty-value', '-', 'behind the dash'],
  'a colon in a sentence': [
    'hold: Seen: all tight.\n',
    'split-sentence',
    'Seen: all tight.',
    'hold: "Seen: all tight."',
  ],
  'a colon in braces': ['{ a: b: c }\n', 'split-sentence', '{ a: b: c }', 'in quotes'],
  'a tab': ['a:\n\tb: c\n', 'tab-indent', '\t', 'spaces'],
  'an anchor': ['a: &b c\n', 'alias', '&b', 'a: "&b c"'],
  'an alias': ['a: *b\n', 'alias', '*b', 'a: "*b"'],
  'stars around a word': ['a: *must* hold\n', 'alias', '*must*', 'a: "*must* hold"'],
  'a merge key': ['<<: { a: b }\n', 'merge-key', '<<', 'Write the keys out'],
  'a key twice': ['a: b\n"a": c\n', 'duplicate-key', '"a"', 'Delete one'],
  'the key __proto__': ['__proto__: { a: b }\n', 'reserved-key', '__proto__', 'another name'],
  'the key constructor': ['a: { constructor: b }\n', 'reserved-key', 'constructor', 'another name'],
  'a key with a question mark': ['? a\n: b\n', 'unusable-key', '?', 'Type the key'],
  'a value without a key': [': b\n', 'unusable-key', '', 'plain word'],
  'a second document': ['a: b\n---\nc: d\n', 'document-marker', '---', 'Delete the line'],
  'a comparison': ['wait: >= 5 min\n', 'reserved-start', '>= 5 min', 'wait: ">= 5 min"'],
  'an at sign': ['a: @b\n', 'reserved-start', '@b', 'a: "@b"'],
  'inches in quotes': ['a: "12" pipe\n', 'unreadable-block', 'a: "12" pipe', `a: '"12" pipe'`],
  'an open bracket': ['a: [b, c\nd: e\n', 'unreadable-block', '[b, c', 'Type ]'],
  'an open quote': ['a: "b\nc: d\n', 'unreadable-block', '"b', 'Type "'],
  'a missing blank': ['a: b\nc:d\n', 'unreadable-block', 'c:d', 'Type c: d'],
  'a line that is no key': ['a: b\nc\nd: e\n', 'unreadable-block', 'c', 'Type a key'],
  'a list on the line of its key': ['a: - b\n', 'unreadable-block', 'a: - b', '[one, two]'],
  'two commas': ['a: [b, , c]\n', 'unreadable-block', 'a: [b, , c]', 'Delete one of the commas'],
  'braces 300 deep': [`a: ${'{ b: '.repeat(300)}c${' }'.repeat(300)}\n`, 'beyond-limits', '', 'Close the braces'],
  'dashes 300 deep': [`a:\n  ${'- '.repeat(300)}c\n`, 'beyond-limits', '', 'indent'],
}

describe('YAML', () => {
  it.each(Object.entries(yamlTraps))('reports %s', (_, [text, name, at, advice]) => {
    const { findings } = readYamlText(sourceText('a.yaml', text))
    expect(findings.map((finding) => finding.name)).toEqual([`syntax/${name}`])
    const [first] = findings
    if (at !== '') expect(text.slice(first?.at.start, first?.at.end)).toBe(at)
    expect(first?.advice).toContain(advice)
    if (first?.edit) expect(readYamlText(sourceText('a.yaml', repaired(text, findings))).findings).toEqual([])
  })

  it('is not blown up by aliases', () => {
    const names = 'abcdefghi'.split('')
    const bomb = names.map((name, index) => `${name}: &${name} [${`*${names[index - 1] ?? 'x'}, `.repeat(9)}x]`)
    const { findings } = readYamlText(sourceText('a.yaml', bomb.join('\n')))
    expect(new Set(findings.map(({ name }) => name))).toEqual(new Set(['syntax/alias']))
    expect(findings).toHaveLength(90)
  })

  it('keeps scalars as typed', () => {
    const text = 'a: [0451E2, 0012, 1.10, 3/8, yes, no, null, ~, 12E4, 0x1F, 1_000, 2026-03-02, 1:30, "", on]\n'
    const { value, findings } = readYamlText(sourceText('a.yaml', text))
    expect(findings).toEqual([])
    expect(value && plainValue(value)).toEqual({
      a: [
        '0451E2',
        '0012',
        '1.10',
        '3/8',
        'yes',
        'no',
        'null',
        '~',
        '12E4',
        '0x1F',
        '1_000',
        '2026-03-02',
        '1:30',
        '',
        'on',
      ],
    })
  })

  it('reads a part of a text with the places of the whole', () => {
    const text = 'one: two\nthree: four\n'
    const { value } = readYamlText(sourceText('a.yaml', text), { start: 9, end: 21 })
    expect(value && plainValue(value)).toEqual({ three: 'four' })
    expect(value?.at).toEqual({ file: 'a.yaml', start: 9, end: 20 })
  })
})

describe('a fragment', () => {
  it('is the inside of a phase', () => {
    const text = `---\nparameters: { isolator: which one }\nsource: House practice.\n---\n\nLock it.\n\n\`\`\`yaml\nby: fitter\n\`\`\`\n\n1. Lock (=isolator).\n2. Try to start.\n`
    const { value, findings } = readFragment(sourceText('shared/fragments/lock.md', text))
    expect(findings).toEqual([])
    expect(value.frontMatter && plainValue(value.frontMatter.map)).toEqual({
      parameters: { isolator: 'which one' },
      source: 'House practice.',
    })
    expect(value.block && plainValue(value.block.map)).toEqual({ by: 'fitter' })
    expect(value.steps.map(({ markdown }) => markdown)).toEqual(['Lock (=isolator).', 'Try to start.'])
  })

  it('has no heading', () => {
    const { findings } = readFragment(sourceText('f.md', '---\nsource: x\n---\n\n## Lock\n\n1. Lock.\n'))
    expect(findings.map(({ name }) => name)).toEqual(['syntax/heading-out-of-place'])
  })
})
