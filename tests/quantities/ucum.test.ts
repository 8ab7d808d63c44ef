import ucumPackage from '@lhncbc/ucum-lhc'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { convertBetween, convertValue } from '../../src/quantities/convert.ts'
import type { Rational } from '../../src/quantities/quantity-types.ts'
import { compare, fromDecimalText, rational, toDecimalText } from '../../src/quantities/rational.ts'
import { type Unit, units } from '../../src/quantities/unit-table.ts'
import { unitBySpelling } from '../../src/quantities/units.ts'
import { runs } from './runs.ts'

const withCode = units.filter(({ ucum }) => ucum !== '')
const codes = new Set(withCode.map(({ ucum }) => ucum))

function unitByCode(code: string): Unit {
  const unit = withCode.find(({ ucum }) => ucum === code)
  if (!unit) throw new Error(`no unit has the UCUM code ${code}`)
  return unit
}

function decimal(text: string): Rational {
  const value = fromDecimalText(text)
  if (!value) throw new Error(`"${text}" is no decimal`)
  return value
}

/*
 * Source: UCUM functional tests, history entry of 11 October 2018, as kept in the public repository FHIR/Ucum-java
 * (src/test/resources/UcumFunctionalTests.xml, 575 cases). No package of the registry brings the file; here stand the cases
 * that concern units of this program, by their numbers: codes that are valid, codes that are not, names, conversions.
 */
const validCases: Readonly<Record<string, string>> = {
  m: '1-101 1-109 1-152 1-233 1-239 k=1=159',
  mm: '1-153 1-234 1-295 k=1=264',
  cm: '1-139 1-230 1-258 k=1=125',
  km: '1-238 1-272',
  um: 'k=1=203',
  '[in_i]': '1-124 1-226',
  '[ft_i]': '1-123 1-225',
  '[yd_i]': '1-125 1-229 1-236',
  g: '1-145 1-200 1-231 1-262 k=1=213',
  kg: '1-150 1-201 1-232 k=1=182',
  mg: '1-156 1-157 1-205 1-276 k=1=104',
  t: 'k=1=266',
  '[lb_av]': '1-127 1-191 1-227 k=1=031',
  '[oz_av]': '1-128 1-192 1-228',
  L: 'k=1=262',
  mL: '1-284 k=1=184',
  cm3: '1-141 1-199',
  mm3: '1-164 1-208',
  '[gal_br]': '1-126 1-188',
  '[qt_br]': '1-130 1-194',
  '[pt_br]': '1-129 1-193',
  '[foz_br]': '1-122 1-187',
  mm2: '1-163 1-207',
  cm2: '1-140 1-198',
  m2: '1-154 1-203 k=1=175',
  '[sin_i]': '1-132 1-190',
  '[sft_i]': '1-131 1-189',
  s: '1-176 1-223 1-327',
  ms: '1-169 k=1=201',
  min: '1-159 1-221 1-283',
  h: '1-148 1-220 1-271 k=1=134',
  d: '1-142 1-219 k=1=141',
  wk: '1-184 1-224 1-351',
  'm/s2': 'k=1=167',
  deg: '1-237 k=1=157',
  '%': '1-120 1-185 1-240 k=1=100',
  '[ppth]': 'k=1=071',
  '[ppm]': 'k=1=064',
  '/min': 'k=1=132 k=1=148',
  V: 'k=1=259',
  mV: 'k=1=209',
  Ohm: 'k=1=178',
  Pa: 'k=1=063',
  kPa: 'k=1=246',
  bar: 'k=1=101',
  mbar: 'k=1=199',
  'mm[Hg]': '1-162 1-297 k=1=008',
  "[in_i'Hg]": 'k=1=076',
  Cel: '1-257 k=1=117',
  'L/min': 'k=1=135',
  'L/s': 'k=1=143',
  'L/h': 'k=1=027',
  'mL/min': '1-294 k=1=248',
  dB: 'k=1=149',
}

/** Near misses of our units that the standard does not take: 1-102, k=1=010 (a nought for an O). */
const invalidCodes = ['m/', 'cm[H20]']

/** 2-102, 2-103, 2-109: the name that a code displays as. */
const displayed = { m: 'meter', mm: 'millimeter', Pa: 'pascal' }

/** 3-101, 3-102, 3-103, 3-118, 3-119: value and unit, the outcome with the digits that it has. */
const conversions = [
  ['6.3', 'm', 'm', '6.3'],
  ['6.3', 'mm', 'm', '0.0063'],
  ['6.3', 'mm', 'cm', '0.63'],
  ['6.30', '[in_i]', 'm', '0.160'],
  ['6.300', '[in_i]', 'cm', '16.0'],
] as const

describe('UCUM functional tests', () => {
  test('as many cases as the file has of our units were tried', () => {
    const valid = Object.values(validCases).join(' ').split(' ')
    expect(new Set(valid).size).toBe(valid.length)
    const tried = valid.length + invalidCodes.length + Object.keys(displayed).length + conversions.length
    console.info(`UCUM functional tests: ${tried} of 575 cases tried; the others concern units that are not ours.`)
    expect(tried).toBeGreaterThan(120)
  })

  test('codes that are valid stand for a unit of ours, codes that are not stand for none', () => {
    expect(Object.keys(validCases).filter((code) => !codes.has(code))).toEqual([])
    expect(invalidCodes.filter((code) => codes.has(code))).toEqual([])
  })

  test.each(Object.entries(displayed))('%s is read from its display name, %s', (code, name) => {
    expect(unitBySpelling(name)?.ucum).toBe(code)
  })

  test.each(conversions)('%s %s in %s is %s', (value, from, to, outcome) => {
    const places = outcome.split('.')[1]?.length ?? 0
    const converted = convertBetween(decimal(value), unitByCode(from), unitByCode(to))
    expect(toDecimalText(converted, places)).toBe(outcome)
  })

  test('a code stands for one size only, within a kind', () => {
    for (const unit of withCode)
      for (const other of withCode)
        if (unit.ucum === other.ucum && unit.kind === other.kind)
          expect(compare(unit.factor, other.factor), `${unit.symbol} and ${other.symbol}`).toBe(0)
  })
})

/*
 * Second opinion: the package @lhncbc/ucum-lhc, an implementation of UCUM by others. What is known of it:
 * it works in binary numbers (6.3 in is 0.16002000000000002 m), takes codes only, has °F as a point and not as a difference
 * ([degR] serves), and lets a torque become an energy.
 */
const second = ucumPackage.UcumLhcUtils.getInstance()

/**
 * A double is off by half a unit in its last place, 2^-53 or 1.1e-16 of itself, after each operation; a conversion takes fewer
 * than forty of them, the making of both factors included: 4.4e-15. Measured over all pairs: 6.6e-16 at most.
 */
const RELATIVE = 5e-15
/** Temperatures go by way of kelvin, so that their error is one of numbers as large as 273. */
const NEAR_ZERO = 300

/** Where the two standards differ, and by how much: UCUM rounds mercury to 133.3220 kPa a metre, CLDR has 13595.1 kg/m³ under g. */
const knownDifference: Readonly<Record<string, number>> = { mmHg: 3e-6, inHg: 3e-6 }

const pairs = withCode.flatMap((from) =>
  withCode.filter((to) => to.kind === from.kind && to !== from).map((to) => [from, to] as const),
)

describe('a second implementation of UCUM', () => {
  test('takes every code that we write', () => {
    const refused = withCode.filter(({ ucum }) => second.validateUnitString(ucum).status !== 'valid')
    expect(refused.map(({ symbol, ucum }) => `${symbol}: ${ucum}`)).toEqual([])
  })

  test('converts alike between all pairs of units of a kind, whatever the number', () => {
    const number = fc.tuple(fc.integer({ min: -999_999, max: 999_999 }), fc.integer({ min: -3, max: 3 }))
    fc.assert(
      fc.property(fc.constantFrom(...pairs), number, ([from, to], [digits, exponent]) => {
        const value = digits * 10 ** exponent
        const exact = exponent < 0 ? rational(digits, 10 ** -exponent) : rational(digits * 10 ** exponent)
        const theirs = second.convertUnitTo(from.ucum, value, to.ucum)
        expect(theirs.status, `${from.symbol} to ${to.symbol}: ${theirs.msg?.join(' ')}`).toBe('succeeded')
        const ours = asNumber(convertBetween(exact, from, to))
        const isPoint = from.kind === 'temperature'
        const scale = Math.max(Math.abs(ours), isPoint ? NEAR_ZERO : 0)
        const allowed = Math.max(RELATIVE, knownDifference[from.symbol] ?? 0, knownDifference[to.symbol] ?? 0)
        expect(Math.abs((theirs.toVal ?? Number.NaN) - ours)).toBeLessThanOrEqual(allowed * scale)
      }),
      runs(),
    )
  })

  test('would tell a wrong factor: a foot taken for a yard is seen', () => {
    const theirs = second.convertUnitTo('[yd_i]', 1, 'm').toVal ?? 0
    const ours = convertValue(rational(1), 'ft', 'm')
    expect(ours.ok && Math.abs(theirs - asNumber(ours.value)) > RELATIVE * theirs).toBe(true)
  })
})

/** The nearest double, by 25 digits. */
function asNumber(value: Rational): number {
  const size = value.denominator.toString().length - value.numerator.toString().length
  return Number(toDecimalText(value, Math.max(0, size) + 25))
}
