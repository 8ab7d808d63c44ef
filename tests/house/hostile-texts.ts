import fc from 'fast-check'

/**
 * Texts that nobody writes for a job: what a broken editor, a bad paste or somebody with ill will puts into a file. Invented here.
 */

const odd = [
  '\u0000',
  '\uFEFF',
  '\u202E',
  '\u2028',
  '\uD800',
  '\u{1F9F0}',
  '\t',
  '\r',
  '\r\n',
  '\u00A0',
  'é'.normalize('NFD'),
  '‮drow',
  '😀'.repeat(20),
  'ﷺ',
] as const

const sharp = [
  '<script>top.done=1</script>',
  '"><img src=x onerror=top.done=1>',
  'javascript:top.done=1',
  '{{constructor.constructor("return process")()}}',
  '{{> page/step}}',
  '#panic("typed")',
  '#import "@preview/x:1.0.0": *',
  '$ sum_(k=0)^n k $',
  '=HYPERLINK("//x","y")',
  '../../../../etc/passwd',
  'file:///etc/passwd',
  '%2e%2e%2f',
  '\\\\server\\share',
  '\u0024{process.env}',
  '`; rm -rf /; echo `',
  '__proto__',
  'constructor',
  'toString',
  '<!-- ',
  '-->',
  '<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/passwd">]>',
] as const

const yamlish = [
  '&a [*a, *a]',
  '*nobody',
  '!!js/function "x"',
  '!!binary AAAA',
  '<<: { a: 1 }',
  '? [complex, key] : value',
  '|',
  '>-',
  '---',
  '...',
  '%YAML 9.9',
  '{ a: { a: { a: { a: { a: { a: { a: 1 } } } } } } }',
  '[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]',
  'key: value: value',
  "'",
  '"',
  '1e999',
  '-0',
  '0x1F',
  '.inf',
  '2026-13-45',
  '12:34:56',
] as const

const figures = [
  '1e400 mm',
  '9'.repeat(400),
  `0.${'0'.repeat(300)}1 mm`,
  '1/0 in',
  '-1/-0 mm',
  'max min max 3 mm',
  '3 mm to',
  'to 3 mm',
  '3 to 2 mm',
  '5 ± 10 mm',
  '± mm',
  '10 mm +/-',
  'NaN mm',
  '½ in',
  '٣ mm',
  '3 mm³⁴',
  '1 mm·mm·mm·mm·mm',
  `${'('.repeat(200)}a${')'.repeat(200)}`,
  `a ${'+ a '.repeat(400)}`,
  `${'not '.repeat(300)}a`,
  'a.b.c.d.e',
  'max(first(previous(first(a))))',
  '1 mm + 1 °C',
  'a = b = c < d',
] as const

const structure = [
  '```',
  '````yaml',
  '~~~',
  '```yaml\n',
  '## {#a}',
  '## A {#a} {#a}',
  '### ',
  '#### B {#b}',
  '1. ',
  '999999999999. Turn it.',
  '1) Turn it.',
  '- - - - 1. a',
  '> '.repeat(60),
  '  '.repeat(200),
  '* '.repeat(100),
  '[a]: <javascript:1>',
  '![a](figures/../../../x.svg "b")',
  '[=a]'.repeat(50),
  '(=a)',
  '|a|b|\n|-|-|\n|1|',
  '**'.repeat(80),
  '<div>',
  '[^1]',
  '\\'.repeat(99),
  '---\nnumber: [',
] as const

const keys = [
  'states',
  'zones',
  'measure',
  'else',
  'decide',
  'repeat',
  'include',
  'reverse',
  'torque',
  'lift',
  'hold',
  'where',
  'sets',
  'derive',
  'wait',
  'locks',
  'removes',
  'undo',
  'when',
  'only',
  'extra',
  'tables',
  'hazards',
  'roles',
  'never',
  'redo',
] as const

const piece = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...structure) },
  { weight: 3, arbitrary: fc.constantFrom(...yamlish) },
  { weight: 3, arbitrary: fc.constantFrom(...figures) },
  { weight: 2, arbitrary: fc.constantFrom(...sharp) },
  { weight: 2, arbitrary: fc.constantFrom(...odd) },
  { weight: 2, arbitrary: fc.constantFrom(...keys).map((key) => `${key}: `) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 30 }) },
)

/** Where something is put into a good text, and what: in place of a value, of a word, of a line, or between two letters. */
export interface Spoiling {
  readonly where: number
  readonly how: 'value' | 'word' | 'line' | 'here' | 'cut'
  readonly what: string
}

export const spoilings: fc.Arbitrary<readonly Spoiling[]> = fc.array(
  fc.record({
    where: fc.nat({ max: 1_000_000 }),
    how: fc.constantFrom('value' as const, 'word' as const, 'line' as const, 'here' as const, 'cut' as const),
    what: piece,
  }),
  { minLength: 1, maxLength: 6 },
)

export function spoiled(text: string, all: readonly Spoiling[]): string {
  return all.reduce((now, { where, how, what }) => {
    const at = now.length === 0 ? 0 : where % now.length
    const lineStart = now.lastIndexOf('\n', at - 1) + 1
    const lineEnd = now.indexOf('\n', at) === -1 ? now.length : now.indexOf('\n', at)
    if (how === 'here') return now.slice(0, at) + what + now.slice(at)
    if (how === 'line') return `${now.slice(0, lineStart)}${what}${now.slice(lineEnd)}`
    if (how === 'cut') return now.slice(0, lineStart) + now.slice(Math.min(now.length, lineEnd + (where % 400)))
    const pattern = how === 'value' ? /(?<=: )[^,}\]\n]+/g : /[A-Za-z-]{3,}/g
    const found = [...now.matchAll(pattern)]
    const one = found[where % Math.max(found.length, 1)]
    if (one === undefined) return now + what
    return now.slice(0, one.index) + what + now.slice(one.index + one[0].length)
  }, text)
}
