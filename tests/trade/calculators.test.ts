import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { convertBetween, toBase } from '../../src/quantities/convert.ts'
import { parseQuantity } from '../../src/quantities/parse-quantity.ts'
import type { Rational } from '../../src/quantities/quantity-types.ts'
import { fromExactText, zero } from '../../src/quantities/rational.ts'
import { unitBySymbol, unitsOfKind } from '../../src/quantities/units.ts'
import { fromNumber, toNumber } from '../../src/trade/binary.ts'
import type { Calculation, Calculator, CalculatorInput } from '../../src/trade/calculator.ts'
import { calculators } from '../../src/trade/calculators.ts'
import { examples } from './examples.ts'

const tried = Object.entries(examples).map(([name, given]) => {
  const calculator = calculators.find((each) => each.name === name)
  if (!calculator) throw new Error(`there is no calculator ${name}`)
  return { name, calculator, given: new Map(Object.entries(given)) }
})

function worked(calculator: Calculator, given: ReadonlyMap<string, string>): Calculation & { ok: true } {
  const calculation = calculator.run(given)
  if (!calculation.ok)
    throw new Error(`${calculator.name}: ${calculation.problem.message} ${calculation.problem.advice}`)
  return calculation
}

/** Results in base units, words as they are. */
function inBase({ results }: Calculation & { ok: true }): ReadonlyMap<string, number | string> {
  return new Map(
    results.map(({ name, worked: text, value, unit }) => {
      const symbol = unitBySymbol(unit)
      return [name, text === null || !symbol ? value : toNumber(toBase(fromExactText(text) ?? zero, symbol))]
    }),
  )
}

const isPlain = (kind: string): boolean => ['number', 'word', 'size', 'text'].includes(kind)

describe('the list of calculators', () => {
  it('gives each its own name in trade words', () => {
    const names = calculators.map(({ name }) => name)
    expect(new Set(names).size).toBe(names.length)
    const all = [...names, ...calculators.flatMap(({ inputs }) => inputs.map(({ name }) => name))]
    expect(all.filter((name) => !/^[a-z]+(?:-[a-z]+)*$/.test(name))).toEqual([])
  })

  it('says of each what it does, by which formula, where it holds and who says so', () => {
    const silent = calculators.filter(({ what, formula, validity, source }) =>
      [what, formula, validity, source].some((text) => text.trim() === ''),
    )
    expect(silent.map(({ name }) => name)).toEqual([])
  })

  it('shows a unit of the right kind for each quantity', () => {
    const wrong = calculators.flatMap(({ name, inputs }) =>
      inputs
        .filter(({ unit, kind }) => unit !== null && unitBySymbol(unit)?.kind !== kind)
        .map((input) => `${name}: ${input.name}`),
    )
    expect(wrong).toEqual([])
  })
})

describe.each(tried.map((each) => [each.name, each] as const))('%s', (_, { calculator, given }) => {
  it('works out its example with numbers, units and the way there', () => {
    const { results, working } = worked(calculator, given)
    expect(results.length).toBeGreaterThan(0)
    expect(working[0]).toBe(calculator.formula)
    for (const { value, worked: text, exact, unit, kind } of results) {
      expect(`${value}${text}`).not.toMatch(/NaN|Infinity|undefined|null\d/)
      if (kind === 'word') continue
      expect(unitBySymbol(unit)?.kind).toBe(kind)
      const precise = toNumber(fromExactText(text ?? '') ?? zero)
      expect(Math.abs(Number(value) - precise)).toBeLessThanOrEqual(Math.abs(precise) * 0.01)
      if (exact !== null) expect(exact).toBe(text)
    }
  })

  it('does not care about units', () => {
    const reference = inBase(worked(calculator, given))
    for (const turn of [1, 2, 3]) {
      const changed = inBase(worked(calculator, inOtherUnits(calculator, given, turn)))
      for (const [name, value] of reference) {
        const other = changed.get(name)
        if (typeof value === 'string') expect(isFigureInWords(value) ? value : other).toBe(value)
        else expect(Math.abs((other as number) - value), name).toBeLessThanOrEqual(Math.abs(value) * 1e-9)
      }
    }
  })

  it('refuses nonsense with a sentence and what to type', () => {
    for (const input of calculator.inputs) {
      if (!given.has(input.name)) continue
      for (const wrong of nonsense(input)) {
        const calculation = calculator.run(new Map([...given, [input.name, wrong]]))
        expect(calculation.ok, `${input.name} = ${wrong}`).toBe(false)
        if (calculation.ok) continue
        expect(calculation.problem.input).toBe(input.name)
        expect(calculation.problem.message).toMatch(/[.!]$/)
        expect(calculation.problem.advice).toMatch(/\.$/)
      }
      if (!input.optional)
        expect(calculator.run(new Map([...given].filter(([name]) => name !== input.name))).ok).toBe(false)
    }
    expect(calculator.run(new Map([...given, ['no-such-input', '1']])).ok).toBe(false)
    expect(calculator.inputs.every(({ optional }) => optional) && calculator.run(new Map()).ok).toBe(false)
  })
})

/** A figure written out in words keeps the unit that was typed. */
function isFigureInWords(value: string): boolean {
  return /^-?\d[\d.]* \S/.test(value)
}

/** The same job typed in other units of each kind; plain numbers, words and sizes as they are. */
function inOtherUnits(
  calculator: Calculator,
  given: ReadonlyMap<string, string>,
  turn: number,
): ReadonlyMap<string, string> {
  return new Map(
    [...given].map(([name, text]) => {
      const input = calculator.inputs.find((each) => each.name === name)
      if (!input || isPlain(input.kind) || calculator.name === 'dual-dimension') return [name, text]
      const items = input.list ? text.split(';') : [text]
      return [name, items.map((item) => inOtherUnit(item, input.kind, turn)).join('; ')]
    }),
  )
}

function inOtherUnit(text: string, kind: string, turn: number): string {
  const asked = kind.startsWith('any') ? undefined : kind
  const read = parseQuantity(text, asked)
  if (!read.ok) throw new Error(read.problem.message)
  const from = unitBySymbol(read.value.unit)
  const others = unitsOfKind(read.value.kind)
  const to = others[((from ? others.indexOf(from) : 0) + turn) % others.length]
  if (!from || !to) throw new Error(`no unit for ${text}`)
  return `${decimal(convertBetween(read.value.value, from, to))} ${to.symbol}`
}

function decimal(value: Rational): string {
  return toNumber(fromNumber(toNumber(value))).toPrecision(15)
}

function nonsense(input: CalculatorInput): readonly string[] {
  if (input.kind === 'word') return ['banana']
  if (input.kind === 'size') return ['banana', '1/0-13', 'M0', '-1/2-13']
  if (input.kind === 'text') return ['banana']
  const unit = input.unit ?? ''
  return ['banana', `banana ${unit}`, ...(input.kind === 'number' ? ['3 kg'] : ['3 furlongs'])]
}

describe('whatever is typed', () => {
  const typed = fc.oneof(
    fc.string({ maxLength: 12 }),
    fc.constantFrom(
      '0',
      '0 mm',
      '1e30 m',
      '1e-30 in',
      '-1e30 N',
      '9/0 in',
      '1e30 psi',
      '1e29 kg',
      '1; 2; 3',
      ';',
      '1 mm;',
      '0 h; 0 h',
      '1e-30 1/K',
    ),
    fc
      .tuple(
        fc.integer({ min: -1000, max: 1000 }),
        fc.constantFrom('mm', 'in', 'N', 'lbf', 'psi', 'bar', 'N·m', '°', '%', '°C', 'h', 'L', 'm³', 'kg', 'J', ''),
      )
      .map(([number, unit]) => `${number} ${unit}`.trim()),
  )

  it.each(tried.map((each) => [each.name, each] as const))(
    '%s gives numbers or a sentence',
    (_, { calculator, given }) => {
      const names = calculator.inputs.map(({ name }) => name)
      fc.assert(
        fc.property(fc.array(fc.tuple(fc.constantFrom(...names), typed), { minLength: 1, maxLength: 3 }), (changes) => {
          const calculation = calculator.run(new Map([...given, ...changes]))
          if (!calculation.ok) expect(calculation.problem.message.length).toBeGreaterThan(5)
          else expect(calculation.results.map(({ value }) => value).join()).not.toMatch(/NaN|Infinity|undefined/)
        }),
        { seed: 20260302, numRuns: 60 },
      )
    },
  )
})

describe('numbers that are no measure of anything', () => {
  it.each(tried.map((each) => [each.name, each] as const))(
    '%s refuses 0 and less where nothing can be so small',
    (_, { calculator, given }) => {
      for (const input of calculator.inputs) {
        const typed = given.get(input.name)
        if (
          typed === undefined ||
          input.list ||
          ['word', 'size', 'text'].includes(input.kind) ||
          input.kind.startsWith('temperature')
        )
          continue
        const negative = typed.replace(/^\s*-?\s*\d[\d.e/-]*/, '-1')
        const calculation = calculator.run(new Map([...given, [input.name, negative]]))
        // Positions, offsets and readings may be negative; whatever comes out must be a number then.
        const isSigned =
          /offset|target|sag|reading|on-fixed|on-moved|face|rim|extension|angle|gauge|first|second|left|right|lower|upper|value|least|most/.test(
            input.name,
          )
        if (!isSigned) expect(calculation.ok, `${input.name} = ${negative}`).toBe(false)
        if (calculation.ok) for (const { value } of calculation.results) expect(value).not.toMatch(/NaN|Infinity/)
      }
    },
  )
})
