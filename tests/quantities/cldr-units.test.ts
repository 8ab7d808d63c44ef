import { createRequire } from 'node:module'
import { expect, test } from 'vitest'
import type { Rational } from '../../src/quantities/quantity-types.ts'
import { divide, fromDecimalText, multiply, one, powerOfTen, toExactText, zero } from '../../src/quantities/rational.ts'
import { units } from '../../src/quantities/unit-table.ts'
import { unitBySymbol } from '../../src/quantities/units.ts'

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
  ['GPa', 'giga pascal'],
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
  ['yd³', 'yard * yard * yard'],
  ['mN·m', 'milli newton * meter'],
  ['kN·m', 'kilo newton * meter'],
  ['N/mm²', 'newton / milli meter * milli meter'],
  ['N/cm²', 'newton / centi meter * centi meter'],
  ['ΔK', 'kelvin'],
  ['Δ°C', 'celsius'],
  ['1/K', ' / kelvin'],
  ['1/°F', ' / fahrenheit'],
  ['mm³', 'milli meter * milli meter * milli meter'],
  ['m³', 'meter * meter * meter'],
  ['cm²', 'centi meter * centi meter'],
  ['m²', 'meter * meter'],
  ['s', 'second'],
  ['m/s', 'meter / second'],
  ['m/min', 'meter / minute'],
  ['mm/s', 'milli meter / second'],
  ['mm/min', 'milli meter / minute'],
  ['ft/s', 'foot / second'],
  ['in/s', 'inch / second'],
  ['in/min', 'inch / minute'],
  ['m/s²', 'meter / second * second'],
  ['ft/s²', 'foot / second * second'],
  ['r/min', 'revolution / minute'],
  ['r/s', 'revolution / second'],
  ['mm/m', 'milli meter / meter'],
  ['in/ft', 'inch / foot'],
  ['ppm', 'micro part'],
  ['Hz', 'hertz'],
  ['1/min', ' / minute'],
  ['V', 'volt'],
  ['mV', 'milli volt'],
  ['kV', 'kilo volt'],
  ['A', 'ampere'],
  ['mA', 'milli ampere'],
  ['µA', 'micro ampere'],
  ['Ω', 'ohm'],
  ['µΩ', 'micro ohm'],
  ['mΩ', 'milli ohm'],
  ['GΩ', 'giga ohm'],
  ['W', 'watt'],
  ['MW', 'mega watt'],
  ['MJ', 'mega joule'],
  ['L/s', 'liter / second'],
  ['L/h', 'liter / hour'],
  ['mL/min', 'milli liter / minute'],
  ['m³/h', 'meter * meter * meter / hour'],
  ['m³/min', 'meter * meter * meter / minute'],
  ['US gal/h', 'gallon / hour'],
  ['imp gal/h', 'gallon-imperial / hour'],
  ['imp gal/min', 'gallon-imperial / minute'],
  ['in³/min', 'inch * inch * inch / minute'],
  ['N/mm', 'newton / milli meter'],
  ['kN/m', 'kilo newton / meter'],
  ['N/m', 'newton / meter'],
  ['mm²/s', 'milli meter * milli meter / second'],
  ['Pa·s', 'pascal * second'],
  ['mPa·s', 'milli pascal * second'],
  ['A·h', 'ampere * hour'],
  ['mA·h', 'milli ampere * hour'],
]

/** Units that CLDR has not, or not exactly, with what holds them instead. */
const notInCldr: Readonly<Record<string, string>> = {
  '': 'a plain number',
  ozf·in: 'a sixteenth of lbf·in, below',
  'long ton': '2240 lb, below',
  kip: '1000 lbf, below',
  ksi: '1000 psi, below',
  'mmH₂O': 'g × 1 kg/m² exactly, below',
  'inH₂O': '25.4 mmH₂O, below',
  cSt: 'mm²/s by another name, below',
  cP: 'mPa·s by another name, below',
  rad: 'π has no end; CLDR cuts it earlier than we do (`units.test.ts`)',
  mrad: 'likewise',
  'dB(A)': 'a level, converted to nothing',
  dB: 'a level, converted to nothing',
}

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

/** A CLDR unit, alone or with a prefix or a number before it. */
function cldrUnit(words: string): Rational {
  const [first = '', second] = words.trim().split(' ')
  const unit = cldr.convertUnits[second ?? first]
  if (!unit) throw new Error(`CLDR has no unit "${words}"`)
  const factor = unit._factor === undefined ? one : cldrNumber(unit._factor)
  return second === undefined ? factor : multiply(prefixFactor(first), factor)
}

function prefixFactor(prefix: string): Rational {
  const power = prefixes[prefix]
  const factor = power === undefined ? fromDecimalText(prefix) : powerOfTen(power)
  if (!factor) throw new Error(`"${prefix}" is no prefix`)
  return factor
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

test('every unit of the table is either held against Unicode CLDR or named with what holds it instead', () => {
  const held = sharedUnits.map(([symbol]) => symbol)
  expect(new Set(held).size).toBe(held.length)
  expect([...held, ...Object.keys(notInCldr)].sort()).toEqual(units.map(({ symbol }) => symbol).sort())
})

/*
 * Conventional water column: 1 mmH₂O is 1 kg/m² under standard gravity, 9.80665 Pa (NIST SP 811, 2008, B.8, from memory).
 * Stokes and poise: 1 cSt is 1 mm²/s, 1 cP is 1 mPa·s; long ton 2240 lb, kip 1000 lbf (the same, B.8, from memory).
 */
test.each([
  ['mmH₂O', '9.80665 Pa'],
  ['inH₂O', '25.4 mmH₂O'],
  ['ozf·in', '0.0625 lbf·in'],
  ['long ton', '2240 lb'],
  ['kip', '1000 lbf'],
  ['ksi', '1000 psi'],
  ['cSt', '1 mm²/s'],
  ['cP', '1 mPa·s'],
])('%s is %s', (symbol, expected) => {
  const [number = '', other = ''] = expected.split(' ')
  const factor = multiply(fromDecimalText(number) ?? zero, unitBySymbol(other)?.factor ?? zero)
  expect(toExactText(unitBySymbol(symbol)?.factor ?? zero)).toBe(toExactText(factor))
})
