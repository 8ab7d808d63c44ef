import type { Rational } from '../../quantities/quantity-types.ts'
import { divide, fromDecimalText, multiply, one, powerOfTen, rational } from '../../quantities/rational.ts'
import { pi } from '../binary.ts'

/**
 * Unit codes of UCUM (The Unified Code for Units of Measure, version 2.1, sections 2 and 3; case-sensitive): whether a code is well formed of known
 * units, and exact conversion between two codes of one dimension. Units with an offset (Cel, [degF]) or a logarithm are left out.
 */

export interface UcumUnit {
  /** In base units: m, s, g, K, C (coulomb), cd; radians and counts are plain. */
  readonly factor: Rational
  /** Exponents of m, s, g, K, C, cd. */
  readonly dimension: readonly number[]
}

const prefixes: Readonly<Record<string, number>> = {
  Y: 24,
  Z: 21,
  E: 18,
  P: 15,
  T: 12,
  G: 9,
  M: 6,
  k: 3,
  h: 2,
  da: 1,
  d: -1,
  c: -2,
  m: -3,
  u: -6,
  n: -9,
  p: -12,
  f: -15,
  a: -18,
  z: -21,
  y: -24,
}

const baseUnits = ['m', 's', 'g', 'K', 'C', 'cd'] as const

/** Code, whether it takes prefixes, factor, the unit it is counted in. Values: UCUM tables 1 to 14. */
const derived: readonly (readonly [code: string, isMetric: boolean, factor: string, unit: string])[] = [
  ['rad', true, '1', '1'],
  ['sr', true, '1', '1'],
  ['mol', true, '602214076000000000000000', '1'],
  ['Hz', true, '1', '/s'],
  ['N', true, '1', 'kg.m/s2'],
  ['Pa', true, '1', 'N/m2'],
  ['J', true, '1', 'N.m'],
  ['W', true, '1', 'J/s'],
  ['A', true, '1', 'C/s'],
  ['V', true, '1', 'J/C'],
  ['Ohm', true, '1', 'V/A'],
  ['F', true, '1', 'C/V'],
  ['S', true, '1', '/Ohm'],
  ['Wb', true, '1', 'V.s'],
  ['T', true, '1', 'Wb/m2'],
  ['H', true, '1', 'Wb/A'],
  ['lm', true, '1', 'cd'],
  ['lx', true, '1', 'lm/m2'],
  ['l', true, '1', 'dm3'],
  ['L', true, '1', 'dm3'],
  ['t', true, '1000', 'kg'],
  ['bar', true, '100000', 'Pa'],
  ['ar', true, '100', 'm2'],
  ['min', false, '60', 's'],
  ['h', false, '60', 'min'],
  ['d', false, '24', 'h'],
  ['wk', false, '7', 'd'],
  ['a', false, '365.25', 'd'],
  ['%', false, '0.01', '1'],
  ['[ppth]', false, '0.001', '1'],
  ['[ppm]', false, '0.000001', '1'],
  ['circ', false, '2', '[pi].rad'],
  ['[in_i]', false, '2.54', 'cm'],
  ['[ft_i]', false, '12', '[in_i]'],
  ['[yd_i]', false, '3', '[ft_i]'],
  ['[mi_i]', false, '5280', '[ft_i]'],
  ['[mil_i]', false, '0.001', '[in_i]'],
  ['[sin_i]', false, '1', '[in_i]2'],
  ['[sft_i]', false, '1', '[ft_i]2'],
  ['[cin_i]', false, '1', '[in_i]3'],
  ['[cft_i]', false, '1', '[ft_i]3'],
  ['[lb_av]', false, '453.59237', 'g'],
  ['[oz_av]', false, '28.349523125', 'g'],
  ['[gr]', false, '0.06479891', 'g'],
  ['[ston_av]', false, '2000', '[lb_av]'],
  ['[lton_av]', false, '2240', '[lb_av]'],
  ['[g]', true, '9.80665', 'm/s2'],
  ['gf', true, '1', 'g.[g]'],
  ['[lbf_av]', false, '1', '[lb_av].[g]'],
  ['[psi]', false, '1', '[lbf_av]/[in_i]2'],
  ['[gal_us]', false, '231', '[in_i]3'],
  ['[qt_us]', false, '0.25', '[gal_us]'],
  ['[pt_us]', false, '0.5', '[qt_us]'],
  ['[foz_us]', false, '0.0078125', '[gal_us]'],
  ['[gal_br]', false, '4.54609', 'l'],
  ['[HP]', false, '550', '[ft_i].[lbf_av]/s'],
  ['cal_th', true, '4.184', 'J'],
  ['[Btu_IT]', false, '1055.05585262', 'J'],
  ['atm', false, '101325', 'Pa'],
]

const MOST_LETTERS = 200
const LARGEST_EXPONENT = 99

const plain: UcumUnit = { factor: one, dimension: baseUnits.map(() => 0) }
const known = new Map<string, { readonly unit: UcumUnit; readonly isMetric: boolean }>([
  ...baseUnits.map(
    (code) =>
      [
        code,
        { unit: { factor: one, dimension: baseUnits.map((each) => (each === code ? 1 : 0)) }, isMetric: true },
      ] as const,
  ),
  ['10*', { unit: { factor: rational(10), dimension: plain.dimension }, isMetric: false }],
  ['10^', { unit: { factor: rational(10), dimension: plain.dimension }, isMetric: false }],
  ['[pi]', { unit: { factor: pi, dimension: plain.dimension }, isMetric: false }],
])
known.set('deg', {
  unit: { factor: divide(multiply(rational(2), pi), rational(360)), dimension: plain.dimension },
  isMetric: false,
})
for (const [code, isMetric, factor, unit] of derived) {
  const counted = readUcum(unit)
  const size = fromDecimalText(factor)
  if (counted && size)
    known.set(code, { unit: { factor: multiply(size, counted.factor), dimension: counted.dimension }, isMetric })
}

/** Reads a code; null where it is not well formed or names an unknown unit. */
export function readUcum(code: string): UcumUnit | null {
  if (code === '' || code.length > MOST_LETTERS) return null
  const reading = { text: code, at: 0 }
  const unit = readTerm(reading)
  return unit && reading.at === code.length ? unit : null
}

/** `value` of one code in another; null where either is unknown or they are of different dimensions. Exact but for π. */
export function convertUcum(value: Rational, from: string, to: string): Rational | null {
  const [source, target] = [readUcum(from), readUcum(to)]
  if (!source || !target || source.dimension.some((power, index) => power !== target.dimension[index])) return null
  return divide(multiply(value, source.factor), target.factor)
}

interface Reading {
  readonly text: string
  at: number
}

/** `/m`, `a.b/c`: from left to right. */
function readTerm(reading: Reading): UcumUnit | null {
  let unit: UcumUnit = plain
  let isBelow = reading.text[reading.at] === '/'
  if (isBelow) reading.at++
  for (;;) {
    const part = readComponent(reading)
    if (!part) return null
    unit = joined(unit, part, isBelow ? -1 : 1)
    const mark = reading.text[reading.at]
    if (mark !== '.' && mark !== '/') return unit
    isBelow = mark === '/'
    reading.at++
  }
}

function readComponent(reading: Reading): UcumUnit | null {
  const rest = reading.text.slice(reading.at)
  if (rest.startsWith('(')) {
    reading.at++
    const inner = readTerm(reading)
    if (!inner || reading.text[reading.at] !== ')') return null
    reading.at++
    return inner
  }
  const note = /^\{[!-z|~]*\}/.exec(rest)
  if (note) {
    reading.at += note[0].length
    return plain
  }
  const symbol = /^(?:10[*^]|(?:[A-Za-z%'"_]|\[[^\][]*\])+)([+-]?\d+)?(\{[!-z|~]*\})?/.exec(rest)
  if (symbol) {
    const [whole, exponent = ''] = symbol
    const bare = whole.replace(/\{.*$/, '').slice(0, -exponent.length || undefined)
    const power = exponent === '' ? 1 : Number(exponent)
    const unit = namedUnit(bare)
    if (!unit || Math.abs(power) > LARGEST_EXPONENT) return null
    reading.at += whole.length
    return joined(plain, unit, power)
  }
  const factor = /^\d+/.exec(rest)
  if (!factor || factor[0].length > 30 || /^0+$/.test(factor[0])) return null
  reading.at += factor[0].length
  return { factor: rational(BigInt(factor[0])), dimension: plain.dimension }
}

function namedUnit(code: string): UcumUnit | null {
  const whole = known.get(code)
  if (whole) return whole.unit
  const prefix = Object.keys(prefixes).find(
    (each) => code.startsWith(each) && known.get(code.slice(each.length))?.isMetric,
  )
  const unit = prefix === undefined ? undefined : known.get(code.slice(prefix.length))?.unit
  return unit && prefix !== undefined
    ? { factor: multiply(unit.factor, powerOfTen(prefixes[prefix] ?? 0)), dimension: unit.dimension }
    : null
}

function joined(unit: UcumUnit, other: UcumUnit, power: number): UcumUnit {
  let factor = unit.factor
  for (let count = 0; count < Math.abs(power); count++)
    factor = power < 0 ? divide(factor, other.factor) : multiply(factor, other.factor)
  return { factor, dimension: unit.dimension.map((each, index) => each + power * (other.dimension[index] ?? 0)) }
}
