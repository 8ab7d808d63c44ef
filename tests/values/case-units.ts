import { unitBySymbol } from '../../src/quantities/units.ts'

/** Units as the files write them, in our symbols; where kinds share one, the wanted kind chooses. */
const symbols: Readonly<Record<string, string | Readonly<Record<string, string>>>> = {
  'lbf.ft': { energy: 'ft·lbf', '': 'lbf·ft' },
  'ft.lbf': { torque: 'lbf·ft', '': 'ft·lbf' },
  'lbf.in': 'lbf·in',
  'kgf.m': 'kgf·m',
  'ozf.in': 'ozf·in',
  'N.m': 'N·m',
  gal_us: 'US gal',
  gal: 'US gal',
  oz: 'oz av',
  ton_us: 'short ton',
  ton_uk: 'long ton',
  degF: { 'temperature-difference': 'Δ°F', 'any-difference': 'Δ°F', '': '°F' },
  degC: { 'temperature-difference': 'Δ°C', 'any-difference': 'Δ°C', '': '°C' },
  K: { 'temperature-difference': 'ΔK', '': 'K' },
  'degF (interval)': 'Δ°F',
  'degC (interval)': 'Δ°C',
  '1/degF': '1/°F',
  '1/degC': '1/K',
  deg: '°',
  Btu_IT: 'Btu',
  cal_th: 'cal',
  'kgf/cm2': 'kgf/cm²',
  'N/cm2': 'N/cm²',
  '[in_i]': 'in',
  in2: 'in²',
  mm2: 'mm²',
  cm2: 'cm²',
  m2: 'm²',
  ft2: 'ft²',
  in3: 'in³',
  ft3: 'ft³',
  m3: 'm³',
  cm3: 'cm³',
  um: 'µm',
  'short ton': 'short ton',
  dBA: 'dB(A)',
  // Squares of a time, in the square of the unit that the case is in.
  week2: '',
  day2: '',
  h2: '',
  // Counted things and plain ratios.
  '1/in': '',
  '1': '',
  pitch: '',
  'in/in': '',
  'mm/mm': '',
}

/** Our symbol, or null for a unit that none stands for. */
export function symbolOf(written: string, kind = ''): string | null {
  const known = symbols[written]
  const symbol = typeof known === 'object' ? (known[kind] ?? known[''] ?? null) : (known ?? written)
  return symbol !== null && unitBySymbol(symbol) ? symbol : null
}
