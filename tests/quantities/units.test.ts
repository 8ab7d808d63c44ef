import { createRequire } from 'node:module'
import { describe, expect, test } from 'vitest'
import { convertValue } from '../../src/quantities/convert.ts'
import type { Rational } from '../../src/quantities/quantity-types.ts'
import {
  add,
  divide,
  fromDecimalText,
  multiply,
  one,
  powerOfTen,
  toExactText,
  zero,
} from '../../src/quantities/rational.ts'
import { units } from '../../src/quantities/unit-table.ts'
import { readUnit, unitBySpelling, unitBySymbol, unitsOfKind } from '../../src/quantities/units.ts'

/*
 * Source of the factors: Unicode CLDR, supplemental data, units.json (exact expressions; `*` binds tighter than `/` there).
 */
interface CldrUnit {
  readonly _factor?: string
  readonly _offset?: string
}
const cldr = createRequire(import.meta.url)('cldr-core/supplemental/units.json').supplemental as {
  readonly unitConstants: Readonly<Record<string, { readonly _value: string }>>
  readonly convertUnits: Readonly<Record<string, CldrUnit>>
}
const prefixes: Readonly<Record<string, number>> = {
  micro: -6,
  milli: -3,
  centi: -2,
  hecto: 2,
  kilo: 3,
  mega: 6,
  giga: 9,
}

/** Our symbol, and the same unit put together from CLDR's. */
const sharedUnits: readonly (readonly [symbol: string, cldr: string])[] = [
  ['mm', 'milli meter'],
  ['cm', 'centi meter'],
  ['m', 'meter'],
  ['km', 'kilo meter'],
  ['µm', 'micro meter'],
  ['in', 'inch'],
  ['ft', 'foot'],
  ['yd', 'yard'],
  ['mi', 'mile'],
  ['thou', 'milli inch'],
  ['kg', 'kilogram'],
  ['g', 'gram'],
  ['mg', 'milli gram'],
  ['t', 'tonne'],
  ['lb', 'pound'],
  ['oz av', 'ounce'],
  ['gr', 'grain'],
  ['short ton', 'ton'],
  ['N', 'newton'],
  ['kN', 'kilo newton'],
  ['kgf', 'kilogram-force'],
  ['lbf', 'pound-force'],
  ['N·m', 'newton * meter'],
  ['N·cm', 'newton * centi meter'],
  ['kgf·m', 'kilogram-force * meter'],
  ['kgf·cm', 'kilogram-force * centi meter'],
  ['lbf·ft', 'pound-force * foot'],
  ['lbf·in', 'pound-force * inch'],
  ['Pa', 'pascal'],
  ['hPa', 'hecto pascal'],
  ['kPa', 'kilo pascal'],
  ['MPa', 'mega pascal'],
  ['bar', 'bar'],
  ['mbar', 'milli bar'],
  ['atm', 'atmosphere'],
  ['psi', 'pound-force / inch * inch'],
  ['kgf/cm²', 'kilogram-force / centi meter * centi meter'],
  ['mmHg', 'milli meter * ofhg'],
  ['inHg', 'inch * ofhg'],
  ['L', 'liter'],
  ['mL', 'milli liter'],
  ['US gal', 'gallon'],
  ['US qt', 'quart'],
  ['US pt', 'pint'],
  ['US fl oz', 'fluid-ounce'],
  ['imp gal', 'gallon-imperial'],
  ['imp qt', 'quart-imperial'],
  ['imp pt', 'pint-imperial'],
  ['imp fl oz', 'fluid-ounce-imperial'],
  ['cm³', 'centi meter * centi meter * centi meter'],
  ['in³', 'inch * inch * inch'],
  ['ft³', 'foot * foot * foot'],
  ['mm²', 'milli meter * milli meter'],
  ['in²', 'inch * inch'],
  ['ft²', 'foot * foot'],
  ['ms', 'milli second'],
  ['min', 'minute'],
  ['h', 'hour'],
  ['d', 'day'],
  ['week', 'week'],
  ['km/h', 'kilo meter / hour'],
  ['mph', 'mile / hour'],
  ['ft/min', 'foot / minute'],
  ['°', 'degree'],
  ['′', 'arc-minute'],
  ['arcsec', 'arc-second'],
  ['turn', 'revolution'],
  ['%', 'percent'],
  ['‰', 'permille'],
  ['hp', 'horsepower'],
  ['kW', 'kilo watt'],
  ['J', 'joule'],
  ['kJ', 'kilo joule'],
  ['kWh', 'kilo watt * hour'],
  ['ft·lbf', 'foot * pound-force'],
  ['Btu', 'british-thermal-unit-it'],
  ['cal', 'calorie'],
  ['L/min', 'liter / minute'],
  ['US gal/min', 'gallon / minute'],
  ['ft³/min', 'foot * foot * foot / minute'],
  ['lbf/in', 'pound-force / inch'],
  ['kΩ', 'kilo ohm'],
  ['MΩ', 'mega ohm'],
  ['kHz', 'kilo hertz'],
  ['°C', 'celsius'],
  ['°F', 'fahrenheit'],
  ['K', 'kelvin'],
  ['Δ°F', 'fahrenheit'],
]

function cldrNumber(text: string): Rational {
  const [above = '1', ...below] = text.split('/')
  const product = (part: string) =>
    part
      .split('*')
      .map((word) => cldrWord(word.trim()))
      .reduce(multiply, one)
  return below.reduce((so, part) => divide(so, product(part)), product(above))
}

function cldrWord(word: string): Rational {
  const constant = cldr.unitConstants[word]
  if (constant) return cldrNumber(constant._value)
  const plain = fromDecimalText(word)
  if (!plain) throw new Error(`CLDR says "${word}", which this test cannot read`)
  return plain
}

function cldrFactor(expression: string): Rational {
  const [above = '', below = ''] = expression.split(' / ')
  const product = (part: string) => part.split(' * ').filter(Boolean).map(cldrUnit).reduce(multiply, one)
  return divide(product(above), product(below))
}

function cldrUnit(words: string): Rational {
  const [first = '', second] = words.trim().split(' ')
  const unit = cldr.convertUnits[second ?? first]
  if (!unit) throw new Error(`CLDR has no unit "${words}"`)
  const factor = unit._factor === undefined ? one : cldrNumber(unit._factor)
  return second === undefined ? factor : multiply(powerOfTen(prefixes[first] ?? Number.NaN), factor)
}

test.each(sharedUnits)('%s has the factor that Unicode CLDR gives for %s', (symbol, expression) => {
  expect(toExactText(unitBySymbol(symbol)?.factor ?? zero)).toBe(toExactText(cldrFactor(expression)))
})

test('the offsets of the temperature scales are those of Unicode CLDR', () => {
  for (const [symbol, name] of [
    ['°C', 'celsius'],
    ['°F', 'fahrenheit'],
  ] as const)
    expect(toExactText(unitBySymbol(symbol)?.offset ?? zero)).toBe(
      toExactText(cldrNumber(cldr.convertUnits[name]?._offset ?? '0')),
    )
})

test('a radian is within one part in 10^40 of 1 / 2π', () => {
  // π to 50 decimals, from memory; the cut-off can be seen in the 41st.
  const pi = fromDecimalText('3.14159265358979323846264338327950288419716939937510') ?? one
  const radian = unitBySymbol('rad')?.factor ?? zero
  const turns = multiply(radian, multiply(pi, fromDecimalText('2') ?? one))
  const error = add(turns, fromDecimalText('-1') ?? zero)
  expect(Math.abs(Number(error.numerator) / Number(error.denominator))).toBeLessThan(1e-39)
})

describe('the table', () => {
  test('has every symbol once, and every counterpart in it, of the same kind and the other family', () => {
    expect(new Set(units.map(({ symbol }) => symbol)).size).toBe(units.length)
    for (const unit of units) {
      if (unit.counterpart === undefined) continue
      const other = unitBySymbol(unit.counterpart)
      expect(other, unit.symbol).toMatchObject({ kind: unit.kind })
      expect([unit.system, other?.system].sort(), unit.symbol).toEqual(['inch', 'metric'])
    }
  })

  test('gives every spelling to one unit of a kind', () => {
    for (const unit of units)
      for (const spelling of unit.spellings)
        expect(unitBySpelling(spelling, unit.kind)?.symbol, spelling).toBe(unit.symbol)
  })
})

/** Spellings that real procedures use (army and navy manuals, open build guides), and those of shop instruments. */
test.each([
  ['N·m', 'Nm N-m N.m N⋅m'],
  ['lbf·ft', 'lb-ft|ft-lb|lb ft|ft·lbf|ft-lbs|foot-pounds|lbf ft|FT-LB|Foot-Pounds|pound-feet|ft.lb'],
  ['lbf·in', 'lb in|lb-in|in-lb|inch-pounds|in·lbf|in.-lb'],
  ['kgf·m', 'kg·m|kgf·m|kgm'],
  ['kgf·cm', 'cm-kg|kgf cm|kg-cm'],
  ['psi', 'psi|PSI|psig|lbf/in²|lb/in2'],
  ['kPa', 'kPa'],
  ['MPa', 'MPa'],
  ['in', 'in|in.|inch|inches|Inches|"'],
  ['thou', 'thou|mil|mils'],
  ['µm', 'µm|μm|um|microns'],
  ['cm³', 'cm³|cm3|cm^3|cc'],
  ['°F', 'F|°F|deg F|degF|℉|º F'],
  ['°C', 'C|°C|deg C|degC|℃'],
  ['Δ°C', 'Δ°C|∆°C'],
  ['°', '°|deg|degrees'],
  ['Ω', 'ohm|ohms|Ω|Ω'],
  ['MΩ', 'megohm|megohms|Mohm|MΩ'],
  ['L', 'L|l|litres|liters'],
  ['m', 'm|metre|meters'],
  ['h', 'h|hour|hours|hr'],
  ['min', 'min|minutes'],
  ['turn', 'turn|turns|rev'],
  ['r/min', 'r/min|rpm|RPM|rev/min'],
  ['US gal', 'US gal|gal (US)|US gallons'],
  ['t', 't|tonne|tonnes'],
  ['kgf/cm²', 'kgf/cm²|kg/cm2|kgf/cm^2'],
  ['J', 'J|joules'],
  ['dB(A)', 'dB(A)|dBA'],
  ['%', '%|percent'],
])('%s is read from %s', (symbol, spellings) => {
  const separator = spellings.includes('|') ? '|' : ' '
  for (const spelling of spellings.split(separator)) expect(unitBySpelling(spelling)?.symbol, spelling).toBe(symbol)
})

test('the same letters mean different amounts in different case, and are not mixed up', () => {
  expect(unitBySpelling('MPa')?.symbol).toBe('MPa')
  expect(unitBySpelling('mPa·s')?.symbol).toBe('mPa·s')
  expect(unitBySpelling('mpa')).toBeNull()
  expect(unitBySpelling('mΩ')?.symbol).toBe('mΩ')
  expect(unitBySpelling('MΩ')?.symbol).toBe('MΩ')
  expect(unitBySpelling('nm')).toBeNull()
})

test('a torque is no energy and a temperature difference no temperature, unless asked for', () => {
  expect(unitBySpelling('ft-lb')?.kind).toBe('torque')
  expect(unitBySpelling('ft-lb', 'energy')?.symbol).toBe('ft·lbf')
  expect(unitBySpelling('K')?.kind).toBe('temperature')
  expect(unitBySpelling('K', 'temperature-difference')?.symbol).toBe('ΔK')
  expect(unitBySpelling('°C', 'temperature-difference')?.symbol).toBe('Δ°C')
  expect(convertValue(one, 'N·m', 'J')).toMatchObject({ ok: false })
  expect(convertValue(one, '°C', 'Δ°F')).toMatchObject({ ok: false })
  expect(unitsOfKind('torque').map(({ symbol }) => symbol)).not.toContain('J')
})

test('what is unclear or unknown is refused with what to type', () => {
  const said = (text: string, asked?: string) => {
    const reading = readUnit(text, asked)
    return reading.ok ? reading.unit.symbol : `${reading.problem.message} ${reading.problem.advice}`
  }
  const typed = [
    'ton',
    'gal',
    'oz',
    'qt',
    'fl oz',
    'gpm',
    "'",
    '″',
    'psia',
    'NM',
    'nmm',
    'mpa',
    'lbft/',
    'ft 2 in',
    'zzz',
  ]
  const asked = [
    ['lb', 'torque'],
    ['J', 'torque'],
    ['N·m', 'energy'],
    ['kg', 'force'],
    ['', 'length'],
  ] as const
  expect(
    [
      ...typed.map((text) => `${text} → ${said(text)}`),
      ...asked.map(([text, kind]) => `${text} as ${kind} → ${said(text, kind)}`),
    ].join('\n'),
  ).toMatchSnapshot()
})
