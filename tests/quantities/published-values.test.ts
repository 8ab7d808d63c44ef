import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { checkExpression } from '../../src/quantities/check-expression.ts'
import { convertValue } from '../../src/quantities/convert.ts'
import { evaluateExpression } from '../../src/quantities/evaluate-expression.ts'
import { itemsInUnit, valueOfQuantities } from '../../src/quantities/expression-values.ts'
import { judge } from '../../src/quantities/judge-reading.ts'
import { parseExpression } from '../../src/quantities/parse-expression.ts'
import { parseLimit } from '../../src/quantities/parse-limit.ts'
import { parseNumber } from '../../src/quantities/parse-number.ts'
import { parseQuantity } from '../../src/quantities/parse-quantity.ts'
import { printLimit, printQuantity } from '../../src/quantities/print-limit.ts'
import type { Limit, Quantity, Rational } from '../../src/quantities/quantity-types.ts'
import { rational, toDecimalText, toExactText } from '../../src/quantities/rational.ts'
import measurement from '../values/measurement.json' with { type: 'json' }
import unitValues from '../values/units.json' with { type: 'json' }

/* Each case names its source in `tests/values/*.json`, under `source`. */

interface Value {
  readonly value: number | string | readonly number[]
  readonly unit: string
  readonly tol?: number
}
interface Case {
  readonly id: string
  readonly title: string
  readonly inputs: Readonly<Record<string, Value>>
  readonly expected: Readonly<Record<string, Value | boolean | string>>
}

const unitCases = unitValues.cases as unknown as readonly Case[]
const measurementCases = measurement.cases as unknown as readonly Case[]

/** Unit names of the files in our symbols. */
const symbols: Readonly<Record<string, string>> = {
  'lbf.ft': 'lbf·ft',
  'ft.lbf': 'ft·lbf',
  'lbf.in': 'lbf·in',
  'N.m': 'N·m',
  gal_us: 'US gal',
  in3: 'in³',
  oz: 'oz av',
  ton_uk: 'long ton',
  degF: '°F',
  degC: '°C',
  'degF (interval)': 'Δ°F',
  'degC (interval)': 'Δ°C',
  Btu_IT: 'Btu',
  cal_th: 'cal',
  'kgf/cm2': 'kgf/cm²',
  '[in_i]': 'in',
}

const symbolOf = (unit: string) => symbols[unit] ?? unit

function exact(value: number | string): Rational {
  const parsed = parseNumber(String(value))
  if (!parsed.ok) throw new Error(parsed.problem.message)
  return parsed.value.value
}

function asNumber(value: Rational): number {
  return Number(toDecimalText(value, 12))
}

function caseOf(cases: readonly Case[], id: string): Case {
  const found = cases.find((candidate) => candidate.id === id)
  if (!found) throw new Error(`no case ${id}`)
  return found
}

function quantity(text: string): Quantity {
  const parsed = parseQuantity(text)
  if (!parsed.ok) throw new Error(`${text}: ${parsed.problem.message}`)
  return parsed.value
}

function limit(text: string): Limit {
  const parsed = parseLimit(text)
  if (!parsed.ok) throw new Error(`${text}: ${parsed.problem.message}`)
  return parsed.value
}

/** Works out an expression over typed readings and writes the result in a unit. */
function worked(text: string, readings: Readonly<Record<string, string | readonly string[]>>, unit: string): number {
  const names = new Map(
    Object.entries(readings).map(([name, typed]) => {
      const typedList = [typed].flat()
      const value = valueOfQuantities(typedList.map(quantity), Array.isArray(typed))
      if (value?.is !== 'quantity') throw new Error(`${name} is no quantity`)
      return [name, value] as const
    }),
  )
  const expression = parseExpression(text)
  if (!expression.ok) throw new Error(expression.problem.message)
  const infos = new Map(
    [...names].map(([name, value]) => [
      name,
      { kind: { is: 'quantity', kind: value.kind, isList: value.isList }, hasLimit: false } as const,
    ]),
  )
  expect(checkExpression(expression.value, { names: infos, tables: new Map() }).problems).toEqual([])
  const values = new Map([...names].map(([name, latest]) => [name, { latest }]))
  const result = evaluateExpression(expression.value, { values, limits: new Map(), tables: new Map() })
  if (!result.ok) throw new Error(result.problem.message)
  const [item] = itemsInUnit(result.value, unit) ?? []
  if (!item) throw new Error(`not in ${unit}`)
  return asNumber(item)
}

/** Cases with one value in and the same value in another unit out. */
const plainConversions = unitCases.filter(
  ({ inputs, expected }) =>
    Object.keys(inputs).length === 1 &&
    ['y', 't', 'dt', 'p'].includes(Object.keys(expected)[0] ?? '') &&
    Object.keys(expected).length === 1,
)

describe('units', () => {
  test.each(plainConversions.map((each) => [each.id, each] as const))('%s', (_, { inputs, expected }) => {
    const from = Object.values(inputs)[0] as Value
    const to = Object.values(expected)[0] as Value
    const converted = convertValue(exact(from.value as number), symbolOf(from.unit), symbolOf(to.unit))
    expect(converted.ok && Math.abs(asNumber(converted.value) - Number(to.value))).toBeLessThanOrEqual(
      (to.tol ?? 0) + 1e-12,
    )
  })

  test('most of the file are plain conversions, and all of them were tried', () => {
    expect(plainConversions.length).toBeGreaterThanOrEqual(22)
  })

  test('units.torque_vs_energy', () => {
    const { inputs, expected } = caseOf(unitCases, 'units.torque_vs_energy')
    for (const [name, { value, unit }] of Object.entries(inputs)) {
      const to = expected[name] as Value
      const converted = convertValue(exact(value as number), symbolOf(unit), symbolOf(to.unit))
      expect(converted.ok && Math.abs(asNumber(converted.value) - Number(to.value))).toBeLessThanOrEqual(to.tol ?? 0)
    }
    expect(convertValue(rational(1), 'lbf·ft', 'J').ok).toBe(expected.interchangeable)
  })

  test('units.inlb_ftlb', () => {
    expect(convertValue(rational(100), 'lbf·in', 'lbf·ft')).toEqual({ ok: true, value: rational(25, 3) })
    expect(convertValue(rational(25), 'lbf·ft', 'lbf·in')).toEqual({ ok: true, value: rational(300) })
  })

  test('units.sp811_36ft: rounded as exactly as it was typed', () => {
    expect(printQuantity(quantity('36 ft'), ['metric']).text).toBe('11.0 m')
  })

  test('units.limit_11mm: original limits are not violated', () => {
    const resolution = { value: rational(1, 1000), unit: 'in' }
    expect(printLimit(limit('11 mm ± 0.3 mm'), { systems: ['inch'], resolution }).text).toBe('0.422 to 0.444 in')
  })

  test('units.limit_236: a reading is not rounded before it is judged', () => {
    expect(judge(limit('min 0.24 in'), '.236 in').verdict).toBe('low')
  })

  test.each([
    ['max 2.7 kgf/cm²', 'units.shopmanual_upper'],
    ['min 2.7 kgf/cm²', 'units.shopmanual_lower'],
  ])('%s on a gauge that reads whole psi (%s)', (typed, id) => {
    const { psi } = caseOf(unitCases, id).expected as { psi: Value }
    const printed = printLimit(limit(typed), { systems: ['inch'], resolution: { value: rational(1), unit: 'psi' } })
    expect(printed.text).toContain(`${psi.value} psi`)
  })

  const dualPairs = unitCases.filter(({ inputs, id }) => 'pairs' in inputs && id.startsWith('units.dual'))
  test.each(dualPairs.map((each) => [each.id, each] as const))(
    '%s: both printed values agree to half a last place',
    (_, { inputs }) => {
      for (const [a, unitA, b, unitB] of (inputs.pairs as Value).value as unknown as [
        number,
        string,
        number,
        string,
      ][]) {
        const converted = convertValue(exact(a), symbolOf(unitA), symbolOf(unitB))
        const places = String(b).split('.')[1]?.length ?? 0
        expect(converted.ok && toDecimalText(converted.value, places)).toBe(b.toFixed(places))
      }
    },
  )

  test.each([
    ['units.trap_4127', '1.624 in', 'mm', 2, '41.25'],
    ['units.trap_615', '61.5 lbf·ft', 'N·m', 1, '83.4'],
    ['units.frac_100_64', '100/64 in', 'mm', 2, '39.69'],
    ['units.frac_3_8', '3/8 in', 'mm', 3, '9.525'],
    ['units.frac_7_16', '7/16 in', 'mm', 4, '11.1125'],
  ])('%s: %s in %s', (id, typed, unit, places, expected) => {
    expect(caseOf(unitCases, id).id).toBe(id)
    const { value, unit: from } = quantity(typed)
    const converted = convertValue(value, from, unit)
    expect(converted.ok && toDecimalText(converted.value, places)).toBe(expected)
  })

  test('units.mm04409_sum', () => {
    const sum = worked('a + b + c + d + e', { a: '142.6', b: '21.12', c: '1.456', d: '0.0357', e: '0.00612' }, '')
    expect(sum.toFixed(1)).toBe('165.2')
  })
})

describe('measurement', () => {
  test('measurement.guard_10: in, in doubt, out by guard bands', () => {
    const { inputs, expected } = caseOf(measurementCases, 'measurement.guard_10')
    const readings = inputs.readings?.value as readonly number[]
    const words = { in: 'pass', high: 'fail', low: 'fail' } as const
    const decided = readings.map((reading) => {
      const { verdict, leans } = judge(limit('9.95 to 10.05 mm'), String(reading), { uncertainty: quantity('0.01 mm') })
      if (verdict === 'in-doubt') return leans === 'in' ? 'conditional pass' : 'conditional fail'
      return verdict === 'unreadable' ? verdict : words[verdict]
    })
    expect(decided).toEqual((expected.decision as unknown as Value).value)
  })

  test('measurement.simple_accept: on the limit is in', () => {
    const { inputs, expected } = caseOf(measurementCases, 'measurement.simple_accept')
    const readings = inputs.readings?.value as readonly number[]
    const passed = readings.map((reading) => judge(limit('9.95 to 10.05 mm'), String(reading)).verdict === 'in')
    expect(passed).toEqual((expected.pass as unknown as Value).value)
  })

  test('measurement.ilac_no_zone: an uncertainty as wide as the limit accepts nothing', () => {
    const { guard, verdict } = judge(limit('9.99 to 10.01 mm'), '10', { uncertainty: quantity('0.012 mm') })
    expect(guard?.acceptsNothing).toBe(true)
    expect(verdict).toBe('in-doubt')
  })

  test.each([
    ['measurement.mic_712', '7 * 0.1 in + 12 * 0.001 in', {}, 'in', 0.712],
    ['measurement.mic_4815', '4 * 0.1 in + 3 * 0.025 in + 6 * 0.001 in + 5 * 0.0001 in', {}, 'in', 0.4815],
    [
      'measurement.shim_072',
      'reading * distance / circle',
      { reading: '0.012 in', distance: '30 in', circle: '5 in' },
      'in',
      0.072,
    ],
    ['measurement.tir_half', 'tir / 2', { tir: '0.006 in' }, 'in', 0.003],
    [
      'measurement.pin_bushing',
      'min(bore) - max(pin)',
      { bore: ['0.9903 in', '0.9906 in'], pin: ['0.9899 in', '0.9901 in'] },
      'in',
      0.0002,
    ],
    [
      'measurement.pin_bushing',
      'max(bore) - min(pin)',
      { bore: ['0.9903 in', '0.9906 in'], pin: ['0.9899 in', '0.9901 in'] },
      'in',
      0.0007,
    ],
    [
      'measurement.taper_roundness',
      'max(span(top), span(bottom))',
      { top: ['3.5003 in', '3.5007 in'], bottom: ['3.5005 in', '3.5012 in'] },
      'in',
      0.0007,
    ],
    [
      'measurement.taper_roundness',
      'abs(max(top) - max(bottom))',
      { top: ['3.5003 in', '3.5007 in'], bottom: ['3.5005 in', '3.5012 in'] },
      'in',
      0.0005,
    ],
    ['measurement.clearance_calc', 'bore - journal', { bore: '3.0021 in', journal: '2.9993 in' }, 'in', 0.0028],
    ['measurement.ratio_10', 'tolerance / 10', { tolerance: '0.05 mm' }, 'mm', 0.005],
    ['measurement.ratio_4', 'tolerance / 4', { tolerance: '0.05 mm' }, 'mm', 0.0125],
  ] as const)('%s: %s', (id, expression, readings, unit, expected) => {
    const { expected: published } = caseOf(measurementCases, id)
    const values = Object.values(published).map((each) => (typeof each === 'object' ? each.value : each))
    expect(values).toContain(expected)
    expect(worked(expression, readings, unit)).toBe(expected)
  })

  test('measurement.washer_pick: the washer is the one row of the table that fits', () => {
    const table = {
      columns: ['corrected', 'washer'],
      rows: [
        ['under 0.0165 in', 'standard'],
        ['0.0165 to 0.0264 in', '+.005'],
        ['0.0265 to 0.0364 in', '+.010'],
        ['over 0.0364 in', 'replace'],
      ],
    }
    const pick = (corrected: string) => {
      const expression = parseExpression('lookup(washers, washer, corrected)')
      const latest = valueOfQuantities([quantity(corrected)], false)
      if (!expression.ok || !latest) throw new Error('not readable')
      const known = {
        values: new Map([['corrected', { latest }]]),
        limits: new Map(),
        tables: new Map([['washers', table]]),
      }
      expect(
        checkExpression(expression.value, {
          names: new Map([['corrected', { kind: { is: 'quantity', kind: 'length', isList: false }, hasLimit: false }]]),
          tables: known.tables,
        }).problems,
      ).toEqual([])
      const picked = evaluateExpression(expression.value, known)
      return picked.ok ? picked.value.items[0] : picked.problem.message
    }
    expect(pick('0.030 in')).toBe(caseOf(measurementCases, 'measurement.washer_pick').expected.washer)
    expect(pick('0.020 in')).toBe(caseOf(measurementCases, 'measurement.washer_pick2').expected.washer)
    expect(pick('0.02645 in')).toBe('No row of "washers" fits.')
  })

  test('measurement.clearance_calc: exact, where binary arithmetic says .00279999', () => {
    expect(judge(limit('0.0016 to 0.0028 in'), toExactText(rational(28, 10000))).verdict).toBe('in')
  })
})

/** Cases of the two files that are no matter of quantities alone, with where they are tried. */
const triedElsewhere: Readonly<Record<string, string>> = {
  'units.ucum_valid': 'this program writes UCUM codes and reads none; those it writes are checked in `ucum.test.ts`',
  'measurement.tar_trap': 'calculator accuracy-ratio, in `tests/values`',
  'measurement.k2': 'calculator combined-uncertainty, likewise',
  'measurement.rss': 'calculator combined-uncertainty, likewise',
  'measurement.rect': 'calculator half-width-uncertainty, likewise',
  'measurement.rimface_1': 'calculator rim-and-face, likewise',
  'measurement.selective_fit': 'calculator fit-clearance, likewise',
  'measurement.crank_limit_side': 'calculator wear-limit-side, likewise',
  'measurement.main_clear': 'calculator wear-state, likewise',
  'measurement.end_clear': 'calculator wear-state, likewise',
  'measurement.bend_half': 'calculator shaft-bend, likewise',
  'measurement.thermal_steel': 'calculator thermal-growth, likewise',
}

test('every case of both files is tried: as a conversion, as a pair, by its name above, or elsewhere', () => {
  const above = readFileSync(new URL(import.meta.url), 'utf8').split('const triedElsewhere')[0] ?? ''
  const byShape = [...plainConversions, ...unitCases.filter(({ id }) => id.startsWith('units.dual'))].map(
    ({ id }) => id,
  )
  const missing = [...unitCases, ...measurementCases]
    .map(({ id }) => id)
    .filter((id) => !byShape.includes(id) && !above.includes(`'${id}`) && !above.includes(`${id}:`))
  expect(missing.sort()).toEqual(Object.keys(triedElsewhere).sort())
})
