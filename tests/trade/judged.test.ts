import { describe, expect, it } from 'vitest'
import { convertValue } from '../../src/quantities/convert.ts'
import { fromDecimalText, fromExactText, zero } from '../../src/quantities/rational.ts'
import { toNumber } from '../../src/trade/binary.ts'
import { calculators } from '../../src/trade/calculators.ts'
import { examples } from './examples.ts'
import { judgedExamples } from './judged-examples.ts'

describe('every calculator', () => {
  it('has an example', () => {
    const known = new Set([...Object.keys(examples), ...Object.keys(judgedExamples)])
    expect(calculators.filter(({ name }) => !known.has(name)).map(({ name }) => name)).toEqual([])
    expect([...known].filter((name) => !calculators.some((each) => each.name === name))).toEqual([])
  })
})

describe.each(Object.entries(judgedExamples))('%s', (name, { given, gives, source }) => {
  it(`gives what is known: ${source}`, () => {
    const calculation = calculators.find((each) => each.name === name)?.run(new Map(Object.entries(given)))
    if (!calculation?.ok) throw new Error(calculation?.problem.message ?? `no calculator ${name}`)
    expect(Object.keys(gives).length).toBeGreaterThan(0)
    for (const [result, wanted] of Object.entries(gives)) {
      const found = calculation.results.find((each) => each.name === result)
      if (typeof wanted === 'string') {
        expect(found?.value, result).toBe(wanted)
        continue
      }
      const [text, unit] = wanted
      const converted = convertValue(fromExactText(found?.worked ?? '') ?? zero, found?.unit ?? '', unit)
      if (!found || !converted.ok) throw new Error(`${result} is missing, or no ${unit}`)
      const places = text.split('.')[1]?.length ?? 0
      const room = (0.5 + 1e-6) * 10 ** -places
      const right = toNumber(fromDecimalText(text) ?? zero)
      expect(
        Math.abs(toNumber(converted.value) - right),
        `${result}: ${found.value} ${found.unit}`,
      ).toBeLessThanOrEqual(room)
    }
  })
})
