import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { parseLimit } from '../../src/quantities/parse-limit.ts'
import { parseNumber } from '../../src/quantities/parse-number.ts'
import { parseQuantity } from '../../src/quantities/parse-quantity.ts'
import { fromExactText, rational, toDecimalText, toExactText } from '../../src/quantities/rational.ts'
import { units } from '../../src/quantities/unit-table.ts'
import { LONGEST, runs } from './runs.ts'

const numberText = (text: string) => {
  const parsed = parseNumber(text)
  return parsed.ok ? toExactText(parsed.value.value) : parsed.problem.message
}
const quantityText = (text: string, kind?: string) => {
  const parsed = parseQuantity(text, kind)
  if (!parsed.ok) return parsed.problem.message
  return `${toExactText(parsed.value.value)} ${parsed.value.unit} ${parsed.value.kind}`
}

test.each([
  ['12', '12'],
  ['0.10', '1/10'],
  ['.005', '1/200'],
  ['-40', '-40'],
  ['−40', '-40'],
  ['+.3', '3/10'],
  ['1 200', '1200'],
  ['1\u00A0200', '1200'],
  ['1\u2009234\u2009567', '1234567'],
  ['3/8', '3/8'],
  ['2/64', '1/32'],
  ['1-1/8', '9/8'],
  ['1 1/8', '9/8'],
  ['⅜', '3/8'],
  ['1⅛', '9/8'],
  ['1-⅛', '9/8'],
  ['-1-1/8', '-9/8'],
  ['3⁄8', '3/8'],
  ['1.2e3', '1200'],
  ['1.2E-3', '3/2500'],
  ['1.2 × 10^3', '1200'],
  ['1.2×10³', '1200'],
  ['5 x 10^-6', '1/200000'],
])('the number %s is %s', (typed, exact) => expect(numberText(typed)).toBe(exact))

test.each([
  ['390 N·m', '390 N·m torque'],
  ['3/8 in', '3/8 in length'],
  ['1-1/8"', '9/8 in length'],
  ['20 °C', '20 °C temperature'],
  ['1 200 kg', '1200 kg mass'],
  ['35 ft-lb', '35 lbf·ft torque'],
  ['75 %', '75 % ratio'],
  ['12 h', '12 h time'],
  ['3 turns', '3 turn angle'],
  ['60°', '60 ° angle'],
  ['85 dB(A)', '85 dB(A) sound-level'],
  ['24', '24  number'],
])('the quantity %s is %s', (typed, expected) => expect(quantityText(typed)).toBe(expected))

test('the kind asked for decides between look-alikes', () => {
  expect(quantityText('8 ft-lb', 'energy')).toBe('8 ft·lbf energy')
  expect(quantityText('40 K', 'temperature-difference')).toBe('40 ΔK temperature-difference')
  expect(quantityText('5', 'length')).toBe('The unit is missing; a length is wanted here.')
})

/** Everything about a limit that was read, on one line. */
function limitText(text: string, kind?: string): string {
  const parsed = parseLimit(text, kind)
  if (!parsed.ok) {
    const { message, advice, from, to } = parsed.problem
    return `✗ ${from}–${to} ${message} ${advice}`
  }
  const { form, lower, upper, aim, unit, pair } = parsed.value
  const low = lower ? `${lower.inclusive ? '[' : '('}${toExactText(lower.value)}` : '(…'
  const high = upper ? `${toExactText(upper.value)}${upper.inclusive ? ']' : ')'}` : '…)'
  return [
    form,
    lower || upper ? `${low}, ${high}` : '',
    unit,
    aim ? `aim ${toExactText(aim)}` : '',
    pair ? `pair ${pair.typed}` : '',
  ]
    .filter(Boolean)
    .join(' ')
}

test.each([
  ['max 3/8 in', 'max (…, 3/8] in'],
  ['min 12 in', 'min [12, …) in'],
  ['under -15 °C', 'under (…, -15) °C'],
  ['over 5.0 MΩ', 'over (5, …) MΩ'],
  ['3 to 4 in', 'range [3, 4] in'],
  ['3 in to 4 in', 'range [3, 4] in'],
  ['-15 to -5 °C', 'range [-15, -5] °C'],
  ['5 mm to 1 in', 'range [5, 127/5] mm'],
  ['12 h to 2 d', 'range [12, 48] h'],
  ['450 psi ± 25 psi', 'plus-minus [425, 475] psi aim 450'],
  ['450 ± 25 psi', 'plus-minus [425, 475] psi aim 450'],
  ['450 psi ± 25', 'plus-minus [425, 475] psi aim 450'],
  ['450 +/- 25 psi', 'plus-minus [425, 475] psi aim 450'],
  ['90 °C ± 5 °C', 'plus-minus [85, 95] °C aim 90'],
  ['90 °C ± 9 °F', 'plus-minus [85, 95] °C aim 90'],
  ['90 °C ± 5 K', 'plus-minus [85, 95] °C aim 90'],
  ['250 N·m ± 5 %', 'plus-minus-percent [475/2, 525/2] N·m aim 250'],
  ['-10 mm ± 5 %', 'plus-minus-percent [-21/2, -19/2] mm aim -10'],
  ['75 % ± 5 %', 'plus-minus [70, 80] % aim 75'],
  ['250 N·m ± 0', 'plus-minus [250, 250] N·m aim 250'],
  ['20 mm +0.1/-0.2', 'plus-minus-uneven [99/5, 201/10] mm aim 20'],
  ['20 mm +0.1 mm/-0.2 mm', 'plus-minus-uneven [99/5, 201/10] mm aim 20'],
  ['20 mm +0.1 -0.2', 'plus-minus-uneven [99/5, 201/10] mm aim 20'],
  ['20 mm -0.2/+0.1', 'plus-minus-uneven [99/5, 201/10] mm aim 20'],
  ['20 -0.2/+0.1 mm', 'plus-minus-uneven [99/5, 201/10] mm aim 20'],
  ['20 mm +0.3/+0.1', 'plus-minus-uneven [201/10, 203/10] mm aim 20'],
  ['1 in +1/16/-1/32', 'plus-minus-uneven [31/32, 17/16] in aim 1'],
  ['125 % +5/-0 %', 'plus-minus-uneven [125, 130] % aim 125'],
  ['100 N·m +5/-0 %', 'plus-minus-uneven [100, 105] N·m aim 100'],
  ['15 to 20 N·m, aim 18 N·m', 'range [15, 20] N·m aim 18'],
  ['15 to 20 N·m, aim 18', 'range [15, 20] N·m aim 18'],
  ['min 2 in, aim 2 in', 'min [2, …) in aim 2'],
  ['aim 250 N·m', 'nominal N·m aim 250'],
  ['12 h', 'nominal h aim 12'],
  ['max 0', 'max (…, 0] '],
  ['10 to 5 mm', 'range [10, 5] mm'],
  ['0.011 in (0.28 mm)', 'nominal in aim 11/1000 pair 0.28 mm'],
  ['0.10 to 0.20 mm (0.004 to 0.008 in)', 'range [1/10, 1/5] mm pair 0.004 to 0.008 in'],
  ['max 0.5 MPa (72 psi)', 'max (…, 1/2] MPa pair 72 psi'],
  ['max 85 dB(A)', 'max (…, 85] dB(A)'],
])('the limit %s is %s', (typed, expected) => expect(limitText(typed)).toBe(expected.trim()))

test.each([
  ['5 to 8 °C', 'temperature-difference', 'range [5, 8] Δ°C'],
  ['5 °C to 8 °C', 'temperature-difference', 'range [5, 8] Δ°C'],
  ['5 ± 1 °C', 'temperature-difference', 'plus-minus [4, 6] Δ°C aim 5'],
  ['max 5 K', 'temperature-difference', 'max (…, 5] ΔK'],
  ['7 ft-lb to 8 ft-lb', 'energy', 'range [7, 8] ft·lbf'],
])('the limit %s, as a %s, is %s', (typed, kind, expected) => expect(limitText(typed, kind)).toBe(expected))

test('a text that is no limit is answered in its own words, with what to type', () => {
  const typed = [
    '',
    'max',
    'max abc',
    'max 0,5 mm',
    '1,200 kg',
    '1.200,5 kg',
    '1/0 in',
    '1-9/8 in',
    '1e999999999 mm',
    `${'9'.repeat(40)} mm`,
    'max 5 ton',
    'max 5 gal',
    '5 ft 2 in',
    '10-15 mm',
    '10 – 15 mm',
    'at most 5 mm',
    '≤ 5 mm',
    'less than 5 mm',
    'max 10 to 12 mm',
    '3 to mm',
    '75 ± 5 %',
    '100 °C ± 5 %',
    '100 N·m ± 5 mm',
    '100 N·m ± -5 %',
    '20 mm +0.1',
    '10 mm, aim 11 mm',
    'aim 10 to 12 mm',
    '3 in to 4 kg',
    'max 5 mm (3 kg)',
    'max 12 nmm',
    'max 12 NM',
    'Max 5 mm',
  ]
  const asked = [
    ['max 45 lb', 'torque'],
    ['7 to 8 J', 'torque'],
    ['max 5', 'length'],
    ['450 ± 25', 'pressure'],
  ] as const
  const lines = [
    ...typed.map((text) => `${text.slice(0, 30)} → ${limitText(text)}`),
    ...asked.map(([text, kind]) => `${text}, a ${kind} → ${limitText(text, kind)}`),
  ]
  expect(lines.join('\n')).toMatchSnapshot()
})

describe('properties', () => {
  const digits = fc.stringMatching(/^(0|[1-9]\d{0,8})(\.\d{1,6})?$/)

  test('a decimal survives being read and written', () => {
    fc.assert(
      fc.property(digits, fc.boolean(), (typed, isNegative) => {
        const text = isNegative ? `-${typed}` : typed
        const parsed = parseNumber(text)
        const places = typed.split('.')[1]?.length ?? 0
        return parsed.ok && toDecimalText(parsed.value.value, places).replace('-', '') === typed
      }),
      runs(2000),
    )
  })

  test('an exact text survives being read and written', () => {
    fc.assert(
      fc.property(fc.bigInt(-(10n ** 40n), 10n ** 40n), fc.bigInt(1n, 10n ** 40n), (numerator, denominator) => {
        const value = rational(numerator, denominator)
        expect(fromExactText(toExactText(value))).toEqual(value)
      }),
      runs(2000),
    )
  })

  test('every spelling of every unit is read behind a number, and in a limit', () => {
    for (const unit of units)
      for (const spelling of unit.spellings) {
        expect(parseQuantity(`12 ${spelling}`, unit.kind), spelling).toMatchObject({
          ok: true,
          value: { unit: unit.symbol },
        })
        expect(parseLimit(`10 to 12 ${spelling}`, unit.kind), spelling).toMatchObject({
          ok: true,
          value: { unit: unit.symbol },
        })
      }
  })

  const pieces = fc.constantFrom(
    ...[
      'max',
      'min',
      'under',
      'to',
      '±',
      '+',
      '-',
      '−',
      '/',
      '%',
      ' ',
      ',',
      '.',
      '(',
      ')',
      'aim',
      '1',
      '25',
      '0.5',
      '3/8',
      '1e9',
      '1e999',
      '⅜',
    ],
    ...['mm', 'in', 'N·m', '°C', 'lbf·ft', 'ton', '\u00A0', '\n', '×', '10^3', 'é', '𝟛', '\u0000'],
  )
  const almostLimit = fc.array(pieces, { maxLength: 14 }).map((parts) => parts.join(''))

  test.each([
    ['any text', fc.string({ unit: 'grapheme', maxLength: 400 })],
    ['texts made of the pieces of limits', almostLimit],
  ])(
    '%s is read or refused, never thrown at, and the place refused is in the text',
    (_, texts) => {
      fc.assert(
        fc.property(texts, (text) => {
          for (const parsed of [parseLimit(text), parseQuantity(text), parseNumber(text), parseLimit(text, 'torque')]) {
            if (parsed.ok) continue
            const { message, advice, from, to } = parsed.problem
            if (!message || !advice || from < 0 || from > to || to > text.length)
              throw new Error(`${JSON.stringify(text)}: ${from}–${to} ${message} ${advice}`)
          }
        }),
        runs(5000),
      )
    },
    LONGEST,
  )

  test('texts of thousands of letters do not hang (the time limit of every test is the judge)', () => {
    for (const piece of ['9', ' 1', '1 ', '-', '+', '1/', '(', '1 to ', '± ', ' mm', '1e9', ',1'])
      for (const read of [parseLimit, parseQuantity, parseNumber])
        expect(read(piece.repeat(20_000 / piece.length))).toMatchObject({ ok: false })
  })
})
