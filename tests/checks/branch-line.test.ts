import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { combinationsInWords } from '../../src/checks/condition-words.ts'
import { readCondition, spaceOfConditions } from '../../src/checks/conditions.ts'
import { sampleOf, sightsOf } from '../../src/quantities/condition-cells.ts'
import type { Domain, NamedDomain } from '../../src/quantities/condition-leaves.ts'
import { evaluateExpression } from '../../src/quantities/evaluate-expression.ts'
import { type ExpressionValue, type ExpressionValues, holds } from '../../src/quantities/expression-values.ts'
import { parseExpression } from '../../src/quantities/parse-expression.ts'
import { parseLimit } from '../../src/quantities/parse-limit.ts'
import type { Rational } from '../../src/quantities/quantity-types.ts'
import { rational } from '../../src/quantities/rational.ts'
import { compileText } from '../compile-text.ts'

/**
 * What the analysis says of a set of conditions against what the evaluator of the tablet page says of every sample:
 * the two share the grammar and nothing else.
 */

const limit = (() => {
  const parsed = parseLimit('2 to 4 mm')
  if (!parsed.ok) throw new Error('the limit of the test cannot be read')
  return parsed.value
})()

const line = (places: number): Domain => ({
  is: 'line',
  kind: 'length',
  places,
  isWhole: false,
  lowest: null,
  highest: null,
  only: null,
  limit,
})
const look: Domain = { is: 'choices', values: ['good', 'marked', 'failed'], passes: ['good'], places: 1 }
const domains: Readonly<Record<string, Domain>> = { a: line(1), b: line(1), pair: line(2), look }
const domainOf = ({ name }: { readonly name: string }): NamedDomain | null => {
  const domain = domains[name]
  return domain ? { domain, restsOn: [name] } : null
}

/** Every end that a condition below can have is a whole millimetre from 0 to 5: these are all ends, and the inside of each piece. */
const marks = Array.from({ length: 13 }, (_, index) => rational(index, 2))
const metres = (millimetres: Rational): Rational => rational(millimetres.numerator, millimetres.denominator * 1000n)
const looks = ['good', 'marked', 'failed']

const figure = fc.integer({ min: 0, max: 5 }).map((size) => `${size} mm`)
const comparison = fc
  .tuple(fc.constantFrom('a', 'b', 'pair'), fc.constantFrom('<', '<=', '>', '>=', '='), figure)
  .map(([name, operator, value]) => `${name} ${operator} ${value}`)
const leaf = fc.oneof(
  comparison,
  comparison.map((text) => `any(${text})`),
  fc.constantFrom('a in limit', 'pair in limit', 'b not in limit', 'look = good', 'look = failed', 'look in limit'),
  fc.constantFrom('<', '>', '<=', '>=').map((sign) => `abs(a - 3 mm) ${sign} 2 mm`),
  fc.tuple(fc.constantFrom('<', '>'), figure).map(([sign, value]) => `max(pair) ${sign} ${value}`),
  fc.constantFrom('<', '>=').map((sign) => `2 * b - 1 mm ${sign} 5 mm`),
)
const condition = fc.letrec<{ readonly whole: string }>((tie) => ({
  whole: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    leaf,
    fc.tuple(tie('whole'), fc.constantFrom('and', 'or'), tie('whole')).map((parts) => `(${parts.join(' ')})`),
    tie('whole').map((inside) => `not (${inside})`),
  ),
})).whole

const quantity = (items: readonly Rational[]): ExpressionValue => ({
  is: 'quantity',
  kind: 'length',
  items: items.map(metres),
  isList: items.length > 1,
})

/** Everything that could be read, on the marks. Of subjects that no condition names, one value is enough. */
function samples(texts: readonly string[]): readonly ExpressionValues[] {
  const named = (name: string) => texts.some((text) => new RegExp(`\\b${name}\\b`).test(text))
  const some = (name: string) => (named(name) ? marks : [rational(0)])
  const pairs = named('pair')
    ? marks.flatMap((one, at) => marks.slice(at).map((other) => [one, other]))
    : [[rational(0), rational(0)]]
  return some('a').flatMap((a) =>
    some('b').flatMap((b) =>
      pairs.flatMap((pair) =>
        (named('look') ? looks : ['good']).map((seen) => ({
          values: new Map<string, { latest: ExpressionValue }>([
            ['a', { latest: quantity([a]) }],
            ['b', { latest: quantity([b]) }],
            ['pair', { latest: quantity(pair) }],
            ['look', { latest: { is: 'outcome', items: [seen], isList: false } }],
          ]),
          limits: new Map(['a', 'b', 'pair'].map((name) => [name, limit])),
          passes: new Map([['look', ['good']]]),
          tables: new Map(),
        })),
      ),
    ),
  )
}

function isTrue(text: string, sample: ExpressionValues): boolean {
  const parsed = parseExpression(text)
  const value = parsed.ok ? evaluateExpression(parsed.value, sample) : parsed
  if (!value.ok) throw new Error(`${text}: ${value.problem.message}`)
  return holds(value.value) === true
}

function spaceOf(texts: readonly string[]) {
  const read = texts.map((text) => readCondition(text, domainOf))
  const known = read.filter((one) => one !== null)
  return known.length === texts.length ? spaceOfConditions(known) : null
}

describe('conditions on the line of their readings', () => {
  it('finds a gap, or an overlap, exactly where some sample shows one', () => {
    let analysed = 0
    fc.assert(
      fc.property(fc.array(condition, { minLength: 1, maxLength: 3 }), (texts) => {
        const names = ['a', 'b', 'pair', 'look'].filter((name) => texts.some((text) => text.includes(name)))
        fc.pre(names.length <= 2)
        const space = spaceOf(texts)
        if (!space?.isExact) return
        analysed++
        const counts = samples(texts).map((sample) => texts.filter((text) => isTrue(text, sample)).length)
        const counted = Array.from(
          { length: space.size },
          (_, at) => space.truths.filter((truth) => truth[at] === 1).length,
        )
        expect(counted.includes(0)).toBe(counts.includes(0))
        expect(counted.some((count) => count > 1)).toBe(counts.some((count) => count > 1))
        expect(combinationsInWords(space, (at) => counted[at] === 0) === '').toBe(!counts.includes(0))
      }),
      { numRuns: 250 },
    )
    expect(analysed).toBeGreaterThan(100)
  })

  it('answers as the evaluator does inside every cell', () => {
    fc.assert(
      fc.property(condition, (text) => {
        const space = spaceOf([text])
        if (!space) return
        for (let at = 0; at < space.size; at++) {
          const sights = sightsOf(space.dimensions, at)
          const values = new Map(
            space.dimensions.map(({ subject, cells, sights: all }, place) => {
              const seen = (all[sights[place] ?? 0] ?? []).flatMap((cell) => cells[cell] ?? [])
              const items = seen.flatMap((cell) => sampleOf(cell) ?? [])
              const answers = seen.flatMap((cell) => (cell.is === 'choice' ? [cell.value] : []))
              const latest: ExpressionValue =
                answers.length > 0
                  ? { is: 'outcome', items: answers, isList: false }
                  : {
                      is: 'quantity',
                      kind: 'length',
                      items: items.length === 1 && subject.key === 'pair' ? [...items, ...items] : items,
                      isList: subject.key === 'pair',
                    }
              return [subject.key, { latest }]
            }),
          )
          const sample = {
            values,
            limits: new Map(['a', 'b', 'pair'].map((name) => [name, limit])),
            passes: new Map([['look', ['good']]]),
            tables: new Map(),
          }
          expect(space.truths[0]?.[at] === 1).toBe(isTrue(text, sample))
        }
      }),
      { numRuns: 300 },
    )
  })
})

/** Branch conditions after one step of readings, as an author writes them; what is found is listed. */
function found(readings: string, conditions: readonly string[]): readonly string[] {
  const block = (lines: readonly string[]) => ['   ```yaml', ...lines.map((line) => `   ${line}`), '   ```']
  const branches = conditions.map((condition) => `    - { when: ${JSON.stringify(condition)}, go: continue }`)
  const body = [
    '## Read {#read}',
    '',
    '1. Read it.',
    ...block(readings.split('\n')),
    '2. Decide.',
    ...block(['decide:', '  ask: What follows?', '  branches:', ...branches]),
    '',
    '## Close {#close}',
    '',
    '1. Close the cover.',
    '',
  ]
  return compileText(body.join('\n'))
    .findings.filter(({ name }) => /branch-(?:gap|overlap)|condition-never-met|syntax|schema/.test(name))
    .map(({ name, message }) => `${name.split('/')[1]}: ${message}`)
}

describe('what the author is told', () => {
  it.each([
    // Printed procedures accept above a figure and reject below it; nothing is said of exactly that figure.
    [
      'measure: { depth: in }',
      ['depth > 0.0050 in', 'depth < 0.0050 in'],
      ['branch-gap: Nothing follows when depth is exactly 0.0050 in.'],
    ],
    ['measure: { depth: in }', ['depth > 0.0050 in', 'depth <= 0.0050 in'], []],
    // Typed in two units: the cut is the same to the last digit.
    ['measure: { gap: mm }', ['gap < 1 in', 'gap >= 25.4 mm'], []],
    [
      'measure: { gap: mm }',
      ['gap < 2 in', 'gap > 25.4 mm'],
      ['branch-overlap: This condition and "gap < 2 in" both hold when gap is between 1 and 2 in.'],
    ],
    // A count is a whole number, and never below nothing.
    ['count: { bad: { of: 24 } }', ['bad = 0', 'bad >= 1 and bad < 3', 'bad >= 3'], []],
    ['count: { bad: { of: 24 } }', ['bad = 0', 'bad > 1'], ['branch-gap: Nothing follows when bad is exactly 1.']],
    // What is out of limit has left by its `else`.
    ['measure: { play: 0.1 to 0.3 mm }\nelse: stop', ['play < 0.2 mm', 'play >= 0.2 mm and play <= 0.3 mm'], []],
    [
      'measure: { play: 0.1 to 0.3 mm }\nelse: continue',
      ['play >= 0.1 mm and play < 0.2 mm', 'play >= 0.2 mm and play <= 0.3 mm'],
      ['branch-gap: Nothing follows when play is below 0.1 mm; or play is above 0.3 mm.'],
    ],
    // Several places: some may lie on either side.
    [
      'measure: { play: "mm, at left right" }',
      ['play < 2 mm', 'play >= 2 mm'],
      [
        'branch-gap: Nothing follows when play is below 2 mm at one place and exactly 2 mm at another; or play is below 2 mm at one place and above 2 mm at another.',
      ],
    ],
    ['measure: { play: "mm, at left right" }', ['max(play) < 2 mm', 'any(play >= 2 mm)'], []],
    // Limits, answers, several readings at once.
    [
      'measure: { play: max 2 mm }\ncheck: { look: { pass: good, fail: [marked, failed] } }\nelse: continue',
      ['play in limit and look in limit', 'play > 2 mm or look = marked'],
      ['branch-gap: Nothing follows when play is 2 mm or below and look is failed.'],
    ],
    ['measure: { t: °C }', ['t > 20 °C', 't < 68 °F'], ['branch-gap: Nothing follows when t is exactly 20 °C.']],
    ['measure: { l1: mm, l2: mm }', ['l1 > l2', 'l2 > l1'], ['branch-gap: Nothing follows when l1 - l2 is exactly 0.']],
    // One rests on the other: readings are tried, and what meets none of the conditions is shown.
    [
      'measure: { l: "mm, at a b" }\nderive: { skew: "abs(l.a - l.b), mm" }',
      ['skew > 3 mm and l.a > 1 mm', 'skew < 3 mm'],
      ['branch-gap: Nothing follows when l is 6 mm at one place and 3 mm at the other and skew is 3 mm.'],
    ],
    [
      'measure: { l: "mm, at a b" }\nderive: { skew: "abs(l.a - l.b), mm" }',
      ['skew >= 3 mm and l.a >= 0 mm', 'skew < 3 mm'],
      [],
    ],
    [
      'measure: { cold: mm, hot: mm }\nderive: { growth: "hot - cold, mm" }',
      ['growth > 2 mm', 'growth <= 2 mm and hot < 9 mm', 'hot >= 9 mm'],
      [],
    ],
    [
      'measure: { cold: MΩ, hot: MΩ }\nderive: { ratio: hot / cold }',
      ['ratio < 1.15 or cold < 5 MΩ', 'ratio >= 1.15 and cold > 5 MΩ'],
      ['branch-gap: Nothing follows when ratio is 2 and cold is 5 MΩ (as when hot is 10 MΩ).'],
    ],
    [
      'measure: { gap: mm }',
      ['gap < 1 mm and gap > 2 mm', 'gap >= 0 mm'],
      ['condition-never-met: No reading can meet "gap < 1 mm and gap > 2 mm".'],
    ],
  ] as const)('%s  %j', (readings, conditions, expected) => {
    expect(found(readings, conditions)).toEqual(expected)
  })
})
