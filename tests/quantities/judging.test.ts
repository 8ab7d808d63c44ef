import fc from 'fast-check'
import { expect, test } from 'vitest'
import { convertValue } from '../../src/quantities/convert.ts'
import { judge, judgeValue, limitOfPrinted } from '../../src/quantities/judge-reading.ts'
import { parseLimit } from '../../src/quantities/parse-limit.ts'
import { printLimit } from '../../src/quantities/print-limit.ts'
import type { Limit } from '../../src/quantities/quantity-types.ts'
import { add, rational, toExactText } from '../../src/quantities/rational.ts'
import { runs } from './runs.ts'

function limit(text: string): Limit {
  const parsed = parseLimit(text)
  if (!parsed.ok) throw new Error(`${text}: ${parsed.problem.message}`)
  return parsed.value
}

test.each([
  ['max 3/8 in', '0.37', 'in', 'max 3/8 in'],
  ['max 3/8 in', '⅜', 'in', 'max 3/8 in'],
  ['max 3/8 in', '9.5 mm', 'in', 'max 9.5 mm'],
  ['max 3/8 in', '9.525 mm', 'in', 'max 9.5 mm'],
  ['max 3/8 in', '9.53 mm', 'high', 'max 9.5 mm'],
  ['238 to 262 N·m', '180 ft-lb', 'in', '176 to 192 lbf·ft'],
  ['238 to 262 N·m', '237.9', 'low', '238 to 262 N·m'],
  ['250 N·m ± 5 %', '262.5', 'in', '238 to 262 N·m'],
  ['under 4 mm', '4', 'high', 'under 4 mm'],
  ['over 4 mm', '4', 'low', 'over 4 mm'],
  ['max 5 °C', '41 F', 'in', 'max 41 °F'],
  ['min 0 °F', '-17.7 °C', 'in', 'min −17.7 °C'],
  ['max 5 Δ°C', '4 °C', 'in', 'max 5 Δ°C'],
  ['max 0', '0', 'in', 'max 0'],
  ['max 75 %', '76', 'high', 'max 75 %'],
  ['min 5.0 MΩ', '5000 kΩ', 'in', 'min 5000 kΩ'],
] as const)('%s judges %s: %s', (typed, reading, verdict, expected) => {
  expect(judge(limit(typed), reading)).toMatchObject({ verdict, expected, problem: null })
})

test('what cannot be judged says why', () => {
  const said = (typed: string, reading: string) => {
    const { verdict, problem, hint } = judge(limit(typed), reading)
    return `${typed} ← ${reading}: ${verdict}. ${problem ? `${problem.message} ${problem.advice}` : ''}${hint ?? ''}`
  }
  const asked = [
    ['max 5 mm', ''],
    ['max 5 mm', 'ok'],
    ['max 5 mm', '0,5'],
    ['max 5 mm', '3 kg'],
    ['max 5 mm', '5 to 6'],
    ['238 to 262 N·m', '250 J'],
    ['5 mm', '5'],
    ['6 to 5 mm', '5.5'],
    ['max 3/8 in', '9.5'],
    ['238 to 262 N·m', '180'],
    ['max 0', '1 mm'],
  ] as const
  expect(asked.map(([typed, reading]) => said(typed, reading)).join('\n')).toMatchSnapshot()
})

test('a step file carries enough to judge as the compiler does', () => {
  for (const typed of [
    'max 3/8 in',
    '250 N·m ± 5 %',
    'under -15 °C',
    '0.10 to 0.20 mm',
    '12 h',
    '15 to 20 N·m, aim 18 N·m',
  ]) {
    const read = limit(typed)
    const back = limitOfPrinted(printLimit(read, { systems: ['metric', 'inch'] }))
    for (const value of ['0.1', '0.15', '9.5', '17', '250', '-15', '-15.1'])
      expect(back && judge(back, value).verdict, `${typed} ← ${value}`).toBe(judge(read, value).verdict)
  }
})

test('with an uncertainty: accepted only where surely in, rejected only where surely out (any width, any end)', () => {
  const whole = fc.integer({ min: -200, max: 200 })
  fc.assert(
    fc.property(whole, fc.nat(100), fc.nat(60), whole, fc.boolean(), (low, width, doubt, reading, isStrict) => {
      const typed = isStrict ? `under ${low + width} mm` : `${low} to ${low + width} mm`
      const read = limit(typed)
      const uncertainty = { value: rational(doubt, 2), unit: 'mm' }
      const value = rational(reading)
      const { verdict } = judgeValue(read, value, { uncertainty })
      const atWorst = [add(value, rational(-doubt, 2)), value, add(value, rational(doubt, 2))].map(
        (possible) => judgeValue(read, possible).verdict === 'in',
      )
      if (verdict === 'in' && !atWorst.every(Boolean)) throw new Error(`${typed} accepts ${reading} ± ${doubt / 2}`)
      if (verdict !== 'in' && verdict !== 'in-doubt' && atWorst.some(Boolean))
        throw new Error(`${typed} rejects ${reading} ± ${doubt / 2}`)
    }),
    runs(3000),
  )
})

test('a reading is judged alike in whatever unit it is typed', () => {
  const units = ['mm', 'in', 'ft', 'thou', 'µm', 'm'] as const
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 5000 }),
      fc.integer({ min: 1, max: 64 }),
      fc.constantFrom(...units),
      fc.constantFrom(...units),
      (numerator, denominator, typedIn, readIn) => {
        const value = rational(numerator, denominator)
        const converted = convertValue(value, typedIn, readIn)
        if (!converted.ok) throw new Error(converted.problem.message)
        const { verdict } = judge(limit(`10 to 20 ${typedIn}`), `${toExactText(converted.value)} ${readIn}`)
        const expected = numerator < 10 * denominator ? 'low' : numerator > 20 * denominator ? 'high' : 'in'
        if (verdict !== expected)
          throw new Error(`${toExactText(value)} ${typedIn} as ${toExactText(converted.value)} ${readIn}: ${verdict}`)
      },
    ),
    runs(3000),
  )
})
