import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { checkExpression, type ExpressionNames, type NameInfo } from '../../src/quantities/check-expression.ts'
import { evaluateExpression } from '../../src/quantities/evaluate-expression.ts'
import type { Expression } from '../../src/quantities/expression.ts'
import {
  type ExpressionValue,
  type ExpressionValues,
  holds,
  itemsInUnit,
  type NamedValue,
  valueOfQuantities,
} from '../../src/quantities/expression-values.ts'
import { parseExpression } from '../../src/quantities/parse-expression.ts'
import { parseLimit } from '../../src/quantities/parse-limit.ts'
import { parseQuantity } from '../../src/quantities/parse-quantity.ts'
import type { Limit, Quantity } from '../../src/quantities/quantity-types.ts'
import { toExactText } from '../../src/quantities/rational.ts'
import { unitsOfKind } from '../../src/quantities/units.ts'
import { LONGEST, runs } from './runs.ts'

function quantity(text: string): Quantity {
  const parsed = parseQuantity(text)
  if (!parsed.ok) throw new Error(`${text}: ${parsed.problem.message}`)
  return parsed.value
}

function limit(text: string): Limit {
  const parsed = parseLimit(text)
  if (!parsed.ok) throw new Error(`${text}: ${parsed.problem.message}`)
  return parsed.value
}

function readings(...typed: readonly string[]): ExpressionValue {
  const value = valueOfQuantities(typed.map(quantity), typed.length > 1)
  if (!value) throw new Error('mixed readings')
  return value
}

const outcome = (text: string): ExpressionValue => ({ is: 'outcome', items: [text], isList: false })

/** One job's readings: two sides, three positions, two tries, judgements, a state. */
const taken: Readonly<Record<string, NamedValue>> = {
  'takeup.left': { latest: readings('12 mm') },
  'takeup.right': { latest: readings('1/2 in') },
  'takeup.all': { latest: readings('12 mm', '1/2 in') },
  journal: { latest: readings('139.96 mm', '139.97 mm', '139.955 mm') },
  depth: { latest: readings('28 mm', '28.1 mm', '28.2 mm') },
  plate: { latest: readings('25 mm', '25 mm', '25.1 mm') },
  bars: { latest: readings('1 Ω', '1.2 Ω', '0.9 Ω', '1 Ω') },
  ovality: { latest: readings('0.03 mm') },
  l1: { latest: readings('3 mm'), previous: readings('2 mm'), first: readings('1 mm') },
  l2: { latest: readings('5 mm') },
  r10: { latest: readings('10 MΩ') },
  r60: { latest: readings('11.6 MΩ') },
  t1: { latest: readings('20 °C') },
  t2: { latest: readings('77 °F') },
  pull: { latest: readings('100 N') },
  studs: { latest: readings('3') },
  gone: { latest: null },
  look: { latest: outcome('good') },
  metal: { latest: outcome('fine paste') },
  oil: { latest: outcome('water in oil') },
  hub: { latest: outcome('slung') },
}
const outcomes: Readonly<Record<string, readonly string[]>> = {
  look: ['good', 'marked', 'failed'],
  metal: ['fine paste', 'slivers', 'chips'],
  oil: ['clear', 'water in oil'],
  hub: ['fitted', 'slung', 'landed'],
}
const limits = new Map([
  ['journal', limit('139.95 to 139.98 mm')],
  ['ovality', limit('max 0.02 mm')],
  ['l1', limit('under 4 mm')],
])
const tables = new Map([
  [
    'washers',
    {
      columns: ['end-play', 'washer', 'oversize', 'mixed'],
      rows: [
        ['under 0.5 mm', 'standard', '0 mm', '1 mm'],
        ['0.5 to 1 mm', '+.005', '0.005 in', '1 kg'],
        ['1 to 2 mm', '+.010', '0.010 in', 'none'],
      ],
    },
  ],
  [
    'grades',
    {
      columns: ['mark', 'wait'],
      rows: [
        ['good', '10 min'],
        ['marked', '1 h'],
      ],
    },
  ],
])
const kindOfTaken = (name: string, { latest }: NamedValue): NameInfo['kind'] =>
  outcomes[name]
    ? { is: 'outcome', outcomes: outcomes[name], isList: false }
    : latest?.is === 'quantity'
      ? { is: 'quantity', kind: latest.kind, isList: latest.isList }
      : { is: 'quantity', kind: 'length', isList: false }
const names: ExpressionNames = {
  names: new Map(
    Object.entries(taken).map(([name, value]) => [
      name,
      { kind: kindOfTaken(name, value), hasLimit: limits.has(name) },
    ]),
  ),
  tables,
}
const values: ExpressionValues = { values: new Map(Object.entries(taken)), limits, tables }

/** The value in the first unit of its kind, or what is wrong. */
function result(text: string): string {
  const expression = parseExpression(text)
  if (!expression.ok)
    return `✗ ${expression.problem.from}–${expression.problem.to} ${expression.problem.message} ${expression.problem.advice}`
  const checked = checkExpression(expression.value, names)
  if (!checked.kind)
    return checked.problems.map(({ message, advice, from, to }) => `✗ ${from}–${to} ${message} ${advice}`).join(' / ')
  const value = evaluateExpression(expression.value, values)
  if (!value.ok) return `✗ at work: ${value.problem.message} ${value.problem.advice}`
  expect({ is: value.value.is, isList: value.value.isList }).toMatchObject({
    is: checked.kind.is,
    isList: checked.kind.isList,
  })
  return written(value.value)
}

function written(value: ExpressionValue): string {
  if (value.is !== 'quantity') return value.items.join(', ')
  const unit = unitsOfKind(value.kind)[0]?.symbol ?? ''
  return `${(itemsInUnit(value, unit) ?? []).map(toExactText).join(', ')} ${unit}`.trim()
}

test.each([
  ['abs(takeup.left - takeup.right)', '7/10 mm'],
  ['abs(takeup.left - takeup.right) <= 3 mm', 'true'],
  ['max(journal) - min(journal)', '3/200 mm'],
  ['span(journal)', '3/200 mm'],
  ['mean(depth) - mean(plate) + 0.15 mm', '193/60 mm'],
  ['depth - plate', '3, 31/10, 31/10 mm'],
  ['sum(plate)', '751/10 mm'],
  ['l1 - l2', '-2 mm'],
  ['l1 -l2', '-2 mm'],
  ['- l1 + 5 mm', '2 mm'],
  ['l1 - previous(l1) > first(l1)', 'false'],
  ['mean(all takeup)', '247/20 mm'],
  ['3/8 in + l1', '501/40 mm'],
  ['1-1/8 in', '1143/40 mm'],
  ['6/2/3', '1'],
  ['2 + 3 * 4 - 6 / 2', '11'],
  ['(2 + 3) * 4', '20'],
  ['105 % * l1', '63/20 mm'],
  ['r60 / r10', '29/25'],
  ['r60 / r10 >= 1.15', 'true'],
  ['l1 * l2', '15 mm²'],
  ['pull * l1', '3/10 N·m'],
  ['pull * l1 / l1', '100 N'],
  ['t2 - t1', '5 Δ°C'],
  ['t2 - t1 < 5.1 °C', 'true'],
  ['t1 + 5 °C', '25 °C'],
  ['mean(t1, t2)', '45/2 °C'],
  ['t1 < 68.1 °F', 'true'],
  ['clamp(l2, 1 mm, 4 mm)', '4 mm'],
  ['studs + 1', '4'],
  ['count(journal > 139.955 mm)', '2'],
  ['count(bars)', '4'],
  ['count(bars >= 110 % * mean(bars)) >= 1', 'true'],
  ['any(bars > 1.1 Ω)', 'true'],
  ['all(bars > 1.1 Ω)', 'false'],
  ['journal in limit', 'true, true, true'],
  ['not (journal in limit and ovality in limit)', 'true'],
  ['ovality not in limit', 'true'],
  ['look = good and metal = fine paste and journal in limit', 'true'],
  [
    'metal = fine paste or gone in limit',
    '✗ 22–26 "gone" has no limit. Give the reading a limit, or compare it with a value.',
  ],
  ['oil = "water in oil"', 'true'],
  ['not hub = fitted', 'true'],
  ['not look = good or hub = slung', 'true'],
  ['look = good or gone > 3 mm', 'true'],
  ['lookup(washers, oversize, ovality)', '0 mm'],
  ['lookup(washers, washer, ovality * 20) = "+.005"', 'true'],
  ['lookup(grades, wait, look)', '600000 ms'],
])('%s is %s', (text, expected) => expect(result(text)).toBe(expected))

test('what is wrong is said in the words of the expression, with what to type', () => {
  const wrong = [
    ...[
      '',
      'l1 <',
      '(l1',
      'l1)',
      'l1 l2 -',
      'l1 == l2',
      'l1 != l2',
      'l1 && l2',
      'l1-l2',
      'l1- l2',
      'lll1 + l2',
      'takeup - l1',
    ],
    ...[
      'joural in limit',
      'maxx(l1)',
      'l1 in',
      'l1 < l2 < r10',
      'l1 in limit = l2',
      '5 mm in limit',
      'abs()',
      'abs(l1, l2)',
      'abs(t1)',
    ],
    ...[
      'sum(t1, t2)',
      '-t1',
      't1 * 2',
      'l1 = 3',
      'l1 + 3',
      'l1 + r10',
      'l1 < t1',
      't1 - l1',
      'hub = fited',
      'hub < fitted',
      'not l1',
    ],
    ...[
      'l1 and l2',
      'fitted = hub',
      '"good"',
      'all',
      'previous(l1 + l2)',
      'lookup(washers, washer)',
      'lookup(washer, washer, l1)',
    ],
    ...[
      'lookup(washers, wascher, l1)',
      'lookup(washers, end-play, l1)',
      'lookup(washers, mixed, l1)',
      'lookup(washers, washer, journal)',
    ],
    ...[
      'any(l1)',
      'max(look)',
      'max(l1, r10)',
      'count(l1, l1 > 3 mm)',
      'clamp(l1, 1 mm)',
      '1,5 mm + l1',
      'l1 # 3',
      'max(l1',
      'in limit',
    ],
  ]
  const atWork = [
    'gone + l1',
    'l1 / 0 mm',
    'depth - takeup.all',
    'previous(l2)',
    'clamp(l1, 4 mm, 1 mm)',
    'lookup(washers, washer, 1 mm)',
    'lookup(washers, washer, l2)',
  ]
  expect([...wrong, ...atWork].map((text) => `${text} → ${result(text)}`).join('\n')).toMatchSnapshot()
  for (const text of [...wrong, ...atWork]) expect(result(text), text).toMatch(/^✗/)
})

test('an expression that is too long or too deep is refused, and a long one at the bound is not', () => {
  expect(result(`${'('.repeat(60)}l1${')'.repeat(60)}`)).toContain('More than 40 levels')
  expect(result('l1 + '.repeat(300))).toContain('longer than 1000 letters')
  expect(result(`l1${' + l1'.repeat(190)}`)).toBe('573 mm')
  expect(result(`t1${' + 1 °C'.repeat(140)}`)).toBe('160 °C')
  expect(result(`${'not '.repeat(38)}look = good`)).toBe('true')
  expect(result(`${'count('.repeat(38)}look = good${')'.repeat(38)}`)).toBe('1')
  expect(holds({ is: 'condition', items: [true, false], isList: true })).toBe(false)
})

describe('properties', () => {
  /** Offsets of every node lie in the text, inside those of the node above. */
  function placesAreNested(node: Expression, from: number, to: number): boolean {
    if (node.from < from || node.to > to || node.from > node.to) return false
    const below: readonly Expression[] =
      'left' in node ? [node.left, node.right] : node.is === 'lookup' ? node.keys : 'of' in node ? [node.of].flat() : []
    return below.every((child) => placesAreNested(child, 0, to))
  }

  const pieces = fc.constantFrom(
    ...[
      'l1',
      'l2',
      'takeup.left',
      'journal',
      't1',
      'hub',
      'look',
      'fitted',
      'good',
      'washers',
      'washer',
      ' ',
      ' ',
      ' ',
      '(',
      ')',
      ',',
    ],
    ...[
      '+',
      '-',
      ' - ',
      '*',
      '/',
      '=',
      '<',
      '>=',
      ' and ',
      ' or ',
      'not ',
      ' in limit',
      'all ',
      'abs(',
      'max(',
      'count(',
      'lookup(',
      'previous(',
    ],
    ...['3 mm', '5 °C', '3/8 in', '5 %', '2', '0', '"x"', 'é', '#', '1 200 kg'],
  )

  test.each([
    ['any text', fc.string({ unit: 'grapheme', maxLength: 200 })],
    ['texts made of the pieces of expressions', fc.array(pieces, { maxLength: 24 }).map((parts) => parts.join(''))],
  ])(
    '%s is worked out or refused, never thrown at',
    (_, texts) => {
      fc.assert(
        fc.property(texts, (text) => {
          const expression = parseExpression(text)
          if (!expression.ok) {
            const { from, to } = expression.problem
            if (from < 0 || from > to || to > text.length) throw new Error(`${JSON.stringify(text)}: ${from}–${to}`)
            return
          }
          if (!placesAreNested(expression.value, 0, text.length)) throw new Error(`places of ${text}`)
          const checked = checkExpression(expression.value, names)
          const value = evaluateExpression(expression.value, values)
          if (checked.kind && value.ok && value.value.is !== checked.kind.is)
            throw new Error(`${text} is a ${value.value.is}`)
        }),
        runs(5000),
      )
    },
    LONGEST,
  )

  test('arithmetic agrees with exact arithmetic on whole numbers', () => {
    const tree = fc.letrec<{ readonly node: { readonly text: string; readonly value: bigint } }>((tie) => ({
      node: fc.oneof(
        { depthSize: 'small', withCrossShrink: true },
        fc.nat(99).map((value) => ({ text: `${value}`, value: BigInt(value) })),
        fc.tuple(fc.constantFrom('+', '-', '*'), tie('node'), tie('node')).map(([operator, a, b]) => ({
          text: `(${a.text} ${operator} ${b.text})`,
          value: operator === '+' ? a.value + b.value : operator === '-' ? a.value - b.value : a.value * b.value,
        })),
      ),
    }))
    fc.assert(
      fc.property(tree.node, ({ text, value }) => {
        if (text.length > 1000) return
        const said = result(text)
        if (said !== `${value}` && !said.includes('levels')) throw new Error(`${text} is ${value}, not ${said}`)
      }),
      runs(2000),
    )
  })
})
