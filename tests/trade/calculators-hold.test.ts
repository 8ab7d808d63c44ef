import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { convertBetween, toBase } from '../../src/quantities/convert.ts'
import { parseQuantity } from '../../src/quantities/parse-quantity.ts'
import { fromExactText, zero } from '../../src/quantities/rational.ts'
import { unitBySymbol, unitsOfKind } from '../../src/quantities/units.ts'
import { toNumber } from '../../src/trade/binary.ts'
import type { Calculator, CalculatorInput } from '../../src/trade/calculator.ts'
import { handlingCalculators } from '../../src/trade/handling/handling-calculators.ts'
import { chainCalculators } from '../../src/trade/lifting/chain-calculators.ts'
import { gearCalculators } from '../../src/trade/lifting/gear-calculators.ts'
import { loadCalculators } from '../../src/trade/lifting/load-calculators.ts'
import { slingCalculators } from '../../src/trade/lifting/sling-calculators.ts'
import { scheduleCalculators } from '../../src/trade/schedule/schedule-calculators.ts'
import { supportCalculators } from '../../src/trade/support/support-calculators.ts'
import { thresholdCalculators } from '../../src/trade/thresholds/threshold-calculators.ts'
import { workCalculators } from '../../src/trade/thresholds/work-calculators.ts'
import { judgedExamples } from './judged-examples.ts'

const calculators: readonly Calculator[] = [
  ...loadCalculators,
  ...slingCalculators,
  ...gearCalculators,
  ...chainCalculators,
  ...supportCalculators,
  ...handlingCalculators,
  ...scheduleCalculators,
  ...thresholdCalculators,
  ...workCalculators,
]

/** One job for each, away from limits and rows of tables, so that a change of units changes no verdict. */
const examples: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'load-weight': { material: 'steel', shape: 'tube', length: '1.2 m', diameter: '200 mm', wall: '12 mm' },
  'lift-design-load': { weight: '1000 kg', uncertainty: '10 %', 'dynamic-factor': '1.1', gear: '40 kg' },
  'proof-load': { rated: '4000 lb' },
  'sling-leg-tension': { load: '10000 lb', legs: '4', angle: '55°', 'angle-is': 'from-horizontal' },
  'sling-capacity': { rating: '2 t', legs: '2', length: '4 m', height: '3 m' },
  'off-centre-lift': { load: '10000 lb', 'first-distance': '2 ft', 'second-distance': '8 ft', height: '6 ft' },
  'tilted-lift': {
    load: '1000 kg',
    'first-length': '2 m',
    'second-length': '2.1 m',
    span: '2 m',
    centre: '0.8 m',
    depth: '0.5 m',
  },
  'hitch-rating': {
    rating: '2 t',
    hitch: 'basket',
    angle: '55°',
    'angle-is': 'included',
    bend: '110 mm',
    rope: '10 mm',
  },
  'chain-sling': { grade: '80', size: '3/8', temperature: '650 °F' },
  'wire-rope-sling': { size: '1/2', material: 'synthetic webbing', temperature: '100 °F' },
  'chain-wear': { stock: '13 mm', worn: '12 mm' },
  'hoist-chain-wear': { nominal: '75 mm' },
  'angled-hardware': { part: 'shoulder-eyebolt', rating: '1550 lb', angle: '40°' },
  'lifting-train': { names: 'hook; sling; shackle', ratings: '5 t; 2 t; 3 t', pulls: '3 t; 1.9 t; 1.9 t' },
  'stand-loads': {
    load: '4000 kg',
    names: 'LF; RF; LR; RR',
    x: '0 m; 0 m; 2 m; 2 m',
    y: '0 m; 1 m; 0 m; 1 m',
    ratings: '3 t; 3 t; 3 t; 3 t',
    'centre-x': '0.9 m',
    'centre-y': '0.45 m',
    'centre-height': '1.2 m',
  },
  'crib-load': { timber: '3.5 in', timbers: '2', base: '18 in', height: '3 ft', 'bearing-strength': '500 psi' },
  'plank-load': {
    load: '1 kN',
    span: '2 m',
    width: '225 mm',
    thickness: '38 mm',
    'bending-strength': '8 MPa',
    stiffness: '8000 MPa',
  },
  'prop-load': {
    outside: '48.3 mm',
    inside: '41.9 mm',
    length: '2.5 m',
    stiffness: '205000 MPa',
    strength: '235 MPa',
    'safety-factor': '3',
  },
  'lifting-index': {
    load: '20 lb',
    horizontal: '18.5 in',
    vertical: '43 in',
    travel: '37 in',
    twist: '31°',
    rate: '4.5 1/min',
    duration: 'short',
    coupling: 'fair',
    form: 'inch',
  },
  'composite-lifting-index': {
    names: 'a; b',
    loads: '10 kg; 5 kg',
    limits: '12 kg; 14 kg',
    rates: '1.1 1/min; 2.2 1/min',
    heights: '80 cm; 30 cm',
    duration: 'moderate',
  },
  'people-needed': { load: '29 kg', limit: '23 kg' },
  'three-point-estimate': { shortest: '4 h; 8 h', likeliest: '7 h; 12 h', longest: '10 h; 16 h', target: '20 h' },
  'finish-chance': { expected: '43 week', deviation: '2.38 week', target: '40 week' },
  'job-schedule': {
    steps: 'jack; wheel; paint; fit',
    times: '1 h; 2 h; 1 h; 2 h',
    after: '-; jack; jack; wheel + paint: 4 h',
    people: '2; 2; 1; 2',
    crew: '2',
  },
  'crew-time': { times: '2 h; 1.5 h; 0.5 h', people: '2; 1; 3' },
  'fall-protection': { height: '1.5 m', work: 'construction', 'top-rail': '42 in' },
  'fire-watch': { distance: '36 ft', after: '31 min', 'rule-set': 'us-osha-general-industry' },
  'confined-space-air': { oxygen: '19.4 %', gas: 'hydrogen sulfide', reading: '12 ppm' },
  'noise-dose': { levels: '92 dB(A); 87 dB(A)', hours: '3 h; 5 h', rule: 'canada' },
  'hardware-rating': { part: 'shackle', size: '1/2' },
  'jack-check': {
    rating: '20 t',
    load: '18 t',
    marked: 'yes',
    stop: 'yes',
    defect: 'no',
    supports: 'jack; stands',
    use: 'shock',
  },
  'hoist-check': { 'side-pull': 'no', authorised: 'no', wraps: '3' },
  'lockout-order': { steps: 'prepare; stop; isolate; lock; bleed; try' },
}

function workedOut(calculator: Calculator, given: Readonly<Record<string, string>>) {
  const calculation = calculator.run(new Map(Object.entries(given)))
  if (!calculation.ok) throw new Error(`${calculation.problem.message} ${calculation.problem.advice}`)
  return calculation.results.map(({ name, value, worked, unit }) => {
    const symbol = unitBySymbol(unit)
    return [name, worked === null || !symbol ? value : toNumber(toBase(fromExactText(worked) ?? zero, symbol))] as const
  })
}

/** The same quantity in the `turn`-th next unit of its kind. */
function inOtherUnit(text: string, kind: string, turn: number): string {
  const read = parseQuantity(text, kind)
  if (!read.ok) return text
  const others = unitsOfKind(kind)
  const from = unitBySymbol(read.value.unit)
  const to = others[((from ? others.indexOf(from) : 0) + turn) % others.length]
  return from && to ? `${toNumber(convertBetween(read.value.value, from, to)).toPrecision(15)} ${to.symbol}` : text
}

/** What somebody may type for an input: mostly of its kind, sometimes anything. */
function typed(input: CalculatorInput): fc.Arbitrary<string | undefined> {
  const number = fc.oneof(fc.integer({ min: -5, max: 200 }), fc.constantFrom(0, 0.001, 1e9)).map(String)
  const one =
    input.kind === 'word'
      ? fc.constantFrom(...(input.choices ?? []), 'other')
      : input.kind === 'size' || input.kind === 'text'
        ? fc.constantFrom('3/8', '1/2', 'a', 'b', '-', 'a: 2 h', 'prepare', 'isolate', 'verify')
        : number.map((value) => (input.unit ? `${value} ${input.unit}` : value))
  const item = fc.oneof(
    { weight: 30, arbitrary: one },
    { weight: 1, arbitrary: fc.constantFrom('', '1/0', '∞', 'nan', '9e999 kg') },
  )
  const text = input.list ? fc.array(item, { minLength: 1, maxLength: 4 }).map((items) => items.join('; ')) : item
  return input.optional ? fc.option(text, { nil: undefined, freq: 2 }) : text
}

function givenTo(calculator: Calculator): fc.Arbitrary<ReadonlyMap<string, string>> {
  return fc.tuple(...calculator.inputs.map(typed)).map((texts) => {
    const pairs = calculator.inputs.map(({ name }, index) => [name, texts[index]] as const)
    return new Map(pairs.filter((pair): pair is readonly [string, string] => pair[1] !== undefined))
  })
}

describe.each(calculators.map((calculator) => [calculator.name, calculator] as const))('%s', (_, calculator) => {
  it('says what it does, where it holds and where it comes from', () => {
    for (const text of [calculator.what, calculator.formula, calculator.validity, calculator.source])
      expect(text.length).toBeGreaterThan(5)
  })

  it('works out its job the same in every unit', () => {
    const given = examples[calculator.name] ?? judgedExamples[calculator.name]?.given ?? {}
    const reference = workedOut(calculator, given)
    expect(reference.length).toBeGreaterThan(0)
    for (const turn of [1, 2, 3]) {
      const turned = Object.fromEntries(
        Object.entries(given).map(([name, text]) => {
          const input = calculator.inputs.find((each) => each.name === name)
          if (!input || ['number', 'word', 'size', 'text'].includes(input.kind)) return [name, text]
          const items = input.list ? text.split(';') : [text]
          return [name, items.map((item) => inOtherUnit(item, input.kind, turn)).join('; ')]
        }),
      )
      workedOut(calculator, turned).forEach(([name, value], index) => {
        const [, before] = reference[index] ?? []
        if (typeof value === 'string' || typeof before !== 'number')
          expect(`${name} ${value}`).toBe(`${name} ${before}`)
        else expect(Math.abs(value - before), name).toBeLessThanOrEqual(Math.abs(before) * 1e-9)
      })
    }
  })

  it('never breaks, never gives NaN, and refuses in sentences', () => {
    fc.assert(
      fc.property(givenTo(calculator), (given) => {
        const calculation = calculator.run(given)
        if (calculation.ok) {
          const said = calculation.working.join('\n')
          expect(said).not.toMatch(/NaN|Infinity|undefined|null|\[object/)
          // Every answer ends with its caution.
          expect(calculation.working.at(-1)).toMatch(/qualified|trained|competent|hurry/)
        } else {
          const said = `${calculation.problem.message} ${calculation.problem.advice}`
          expect(said).not.toMatch(/NaN|Infinity|undefined|\[object/)
          expect(calculation.problem.message).toMatch(/[.?]$/)
          expect(calculation.problem.advice).toMatch(/[.?]$/)
        }
      }),
      { seed: 20260302, numRuns: 150 },
    )
  })
})
