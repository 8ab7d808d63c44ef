import { describe, expect, test } from 'vitest'
import { convertValue } from '../../src/quantities/convert.ts'
import { add, fromDecimalText, multiply, one, zero } from '../../src/quantities/rational.ts'
import { units } from '../../src/quantities/unit-table.ts'
import { readUnit, unitBySpelling, unitBySymbol, unitsOfKind } from '../../src/quantities/units.ts'

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
