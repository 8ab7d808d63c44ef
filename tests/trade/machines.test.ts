import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { add, compare, divide, multiply, negate, one, rational, subtract, zero } from '../../src/quantities/rational.ts'
import { toNumber } from '../../src/trade/binary.ts'
import { calculators } from '../../src/trade/calculators.ts'
import { cylinderForces } from '../../src/trade/hydraulics/pressure.ts'
import {
  gasEnergy,
  gasEnergyOf,
  isothermalEnergy,
  leastDistance,
  scaledDistance,
} from '../../src/trade/hydraulics/stored-energy.ts'
import { decide, guarded, isIn, zoneExists } from '../../src/trade/measurement/decision.ts'
import {
  isConsistent,
  limitInDigits,
  roundedSum,
  significantDigits,
} from '../../src/trade/measurement/printed-figures.ts'
import { convertUcum, readUcum } from '../../src/trade/measurement/ucum.ts'
import { rootSumOfSquares, standardOfHalfWidth } from '../../src/trade/measurement/uncertainty.ts'
import { chainElongation, chainWearLimit } from '../../src/trade/wear/chain.ts'
import { chainPitches } from '../../src/trade/wear/chain-drive.ts'
import { earliestAtLimit, timeAtLimit, trendOf } from '../../src/trade/wear/trend.ts'
import { clearanceState, clearances } from '../../src/trade/wear/wear.ts'

const seed = { seed: 20260302 }
const positive = fc.integer({ min: 1, max: 1_000_000 }).map((value) => rational(value, 1000))
const any = fc.integer({ min: -1_000_000, max: 1_000_000 }).map((value) => rational(value, 1000))

function results(name: string, given: Readonly<Record<string, string>>): Readonly<Record<string, string>> {
  const calculation = calculators.find((each) => each.name === name)?.run(new Map(Object.entries(given)))
  if (!calculation?.ok) throw new Error(calculation?.problem.message ?? `no calculator ${name}`)
  return Object.fromEntries(calculation.results.map((each) => [each.name, `${each.value} ${each.unit}`.trim()]))
}

describe('cylinders', () => {
  it('pull less than they push, and a blocked rod side stands above the supply by as much', () => {
    fc.assert(
      fc.property(positive, positive, positive, (pressure, rod, wall) => {
        const { push, pull, blocked } = cylinderForces(pressure, add(rod, wall), rod)
        expect(compare(pull, zero)).toBe(1)
        expect(compare(pull, push)).toBe(-1)
        expect(divide(blocked, pressure)).toEqual(divide(push, pull))
      }),
      seed,
    )
  })
})

describe('stored energy', () => {
  const air = rational(101_000)

  it('grows with pressure and volume, and a slow expansion gives more than a quick one', () => {
    fc.assert(
      fc.property(positive, positive, positive, (over, volume, more) => {
        const pressure = add(air, multiply(over, rational(1000)))
        const energy = gasEnergy(pressure, volume, air)
        expect(compare(energy, zero)).toBe(1)
        expect(compare(gasEnergy(add(pressure, multiply(more, rational(1000))), volume, air), energy)).toBe(1)
        expect(compare(isothermalEnergy(pressure, volume, air), energy)).toBe(1)
        const [single, double] = [energy, gasEnergy(pressure, multiply(volume, rational(2)), air)].map(toNumber)
        expect(double).toBeCloseTo(2 * (single ?? 0), -3)
      }),
      seed,
    )
  })

  it('of air by its own exponent is the usual formula to a thousandth', () => {
    for (const bar of [2, 8, 40, 200]) {
      const pressure = rational(bar * 100_000)
      const ratio = toNumber(divide(gasEnergyOf(pressure, one, air, rational(14n, 10n)), gasEnergy(pressure, one, air)))
      expect(Math.abs(ratio - 1)).toBeLessThan(0.001)
    }
  })

  it('never asks for less distance where there is more of it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2000 }), fc.integer({ min: 0, max: 500 }), (megajoules, more) => {
        const at = (mega: number) => {
          const energy = rational(mega * 1_000_000)
          return leastDistance(energy, divide(energy, rational(4_266_920)))
        }
        expect(compare(at(megajoules + more), at(megajoules))).not.toBe(-1)
        expect(compare(at(megajoules), rational(30))).not.toBe(-1)
      }),
      seed,
    )
    expect(toNumber(scaledDistance(rational(1n, 2n)))).toBeCloseTo(20, 9)
  })

  it('takes absolute pressures only, and says so', () => {
    const calculation = calculators.find(({ name }) => name === 'stored-gas-energy')
    const refused = calculation?.run(
      new Map([
        ['absolute-pressure', '100 kPa'],
        ['volume', '1 m³'],
      ]),
    )
    expect(refused?.ok === false && refused.problem.advice).toContain('gauge reading plus the air')
  })
})

describe('chains', () => {
  it('are worn by nothing when new, and by the part they are longer', () => {
    fc.assert(
      fc.property(positive, fc.integer({ min: 1, max: 200 }), positive, (pitch, count, part) => {
        const pitches = rational(count)
        const fresh = multiply(pitch, pitches)
        expect(chainElongation(fresh, pitch, pitches)).toEqual(zero)
        expect(chainElongation(multiply(fresh, add(one, part)), pitch, pitches)).toEqual(part)
      }),
      seed,
    )
  })

  it('are allowed less with more teeth, and least on fixed centres', () => {
    for (let teeth = 10; teeth < 150; teeth++) {
      const [here, next] = [chainWearLimit(rational(teeth), true), chainWearLimit(rational(teeth + 1), true)]
      expect(compare(next, here)).not.toBe(1)
      expect(compare(chainWearLimit(rational(teeth), false), here)).not.toBe(1)
    }
  })

  it('are as long one way around as the other', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 30, max: 80 }),
        fc.integer({ min: 9, max: 30 }),
        fc.integer({ min: 9, max: 60 }),
        (centres, a, b) => {
          const [small, large] = [rational(a), rational(b)]
          expect(chainPitches(rational(centres), small, large)).toEqual(chainPitches(rational(centres), large, small))
        },
      ),
      seed,
    )
  })

  it('count pins as one more than pitches', () => {
    const job = { pitch: '1 in', measured: '12.36 in' }
    expect(results('chain-elongation', { ...job, pins: '13' })).toEqual(
      results('chain-elongation', { ...job, pitches: '12' }),
    )
  })
})

describe('clearances and states', () => {
  it('of single parts is bore less shaft; of limits it spans every pairing', () => {
    fc.assert(
      fc.property(
        fc.array(positive, { minLength: 1, maxLength: 4 }),
        fc.array(positive, { minLength: 1, maxLength: 4 }),
        (bores, shafts) => {
          const { least, most } = clearances(bores, shafts)
          for (const bore of bores)
            for (const shaft of shafts) {
              const clearance = subtract(bore, shaft)
              expect(compare(clearance, least)).not.toBe(-1)
              expect(compare(clearance, most)).not.toBe(1)
            }
        },
      ),
      seed,
    )
  })

  it('get worse and never better as the reading grows', () => {
    const order = ['below new minimum', 'as new', 'worn, usable', 'replace']
    fc.assert(
      fc.property(positive, positive, positive, positive, positive, (low, width, wear, reading, more) => {
        const [high, limit] = [add(low, width), add(add(low, width), wear)]
        const [here, there] = [reading, add(reading, more)].map((each) =>
          order.indexOf(clearanceState(each, low, high, limit)),
        )
        expect(there).toBeGreaterThanOrEqual(here ?? 0)
      }),
      seed,
    )
  })
})

describe('the trend of a reading', () => {
  it('finds a straight line exactly, whatever its times, and where it meets a limit', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 0, max: 5000 }), { minLength: 3, maxLength: 9 }),
        any,
        positive,
        (hours, start, slope) => {
          const times = hours.map((hour) => rational(hour))
          const trend = trendOf(
            times,
            times.map((time) => add(start, multiply(slope, time))),
          )
          expect(trend?.slope).toEqual(slope)
          expect(trend?.start).toEqual(start)
          expect(trend?.spread).toBe(0)
          if (!trend) return
          const at = rational(9000)
          expect(timeAtLimit(trend, add(start, multiply(slope, at)))).toEqual(at)
        },
      ),
      seed,
    )
  })

  it('may meet the limit before the line does, never after, and sooner the more it scatters', () => {
    const times = [0, 250, 500, 750, 1000].map((hour) => rational(hour))
    const scattered = (by: number) =>
      trendOf(
        times,
        times.map((time, index) => add(multiply(time, rational(1n, 1000n)), rational(index % 2 === 0 ? by : -by, 100))),
      )
    const limit = rational(3)
    const earliest = [0, 2, 6].map((by) => {
      const trend = scattered(by)
      const at = trend && timeAtLimit(trend, limit)
      if (!at) throw new Error('no limit met')
      const early = toNumber(earliestAtLimit(trend, limit, rational(1000), at))
      expect(early).toBeLessThanOrEqual(toNumber(at) + 1e-6)
      return early / toNumber(at)
    })
    expect(earliest).toEqual([...earliest].sort((a, b) => b - a))
    expect(earliest[2]).toBeLessThan(0.99)
  })

  it('gives dates from a first day, and no spread from two readings', () => {
    const job = { times: '0 d; 100 d', readings: '1.0 mm; 1.1 mm', limit: '1.3 mm', start: '2024-02-28' }
    expect(results('wear-trend', job)).toMatchObject({
      'time-at-limit': '300 d',
      'time-left': '200 d',
      'date-at-limit': '2024-12-24',
    })
    const calculation = calculators.find(({ name }) => name === 'wear-trend')?.run(new Map(Object.entries(job)))
    expect(calculation?.ok && calculation.working.at(-1)).toContain('Two readings')
  })

  it('is refused where readings go the other way, or times do not match', () => {
    const run = (given: Readonly<Record<string, string>>) =>
      calculators.find(({ name }) => name === 'wear-trend')?.run(new Map(Object.entries(given)))
    expect(run({ times: '1 h; 2 h', readings: '5 mm; 4 mm', limit: '9 mm' })?.ok).toBe(false)
    expect(run({ times: '1 h; 2 h', readings: '5 mm', limit: '9 mm' })?.ok).toBe(false)
    expect(run({ times: '1 h; 2 h', readings: '5 mm; 4 mm', limit: '3 mm' })?.ok).toBe(true)
    expect(run({ times: '1 h; 2 h', readings: '5 mm; 4 mm', limit: '3 bar' })?.ok).toBe(false)
    expect(run({ times: '1 h; 2 h', readings: '5 mm; 4 mm', limit: '3 mm', start: '2023-02-30' })?.ok).toBe(false)
  })
})

describe('decisions', () => {
  it('look the same in a mirror, and no reading that is further in is judged worse', () => {
    const order = ['pass', 'conditional pass', 'conditional fail', 'fail']
    fc.assert(
      fc.property(any, positive, positive, any, positive, (lower, width, band, reading, step) => {
        const zone = { lower, upper: add(lower, width) }
        const mirror = { lower: negate(zone.upper), upper: negate(lower) }
        expect(decide(negate(reading), mirror, band)).toBe(decide(reading, zone, band))
        const middle = add(lower, divide(width, rational(2)))
        const further = compare(reading, middle) >= 0 ? add(reading, step) : subtract(reading, step)
        expect(order.indexOf(decide(further, zone, band))).toBeGreaterThanOrEqual(
          order.indexOf(decide(reading, zone, band)),
        )
      }),
      seed,
    )
  })

  it('pass only what is in the limits for sure', () => {
    fc.assert(
      fc.property(any, positive, positive, any, any, (lower, width, band, reading, error) => {
        const zone = { lower, upper: add(lower, width) }
        const isSmall = compare(multiply(error, error), multiply(band, band)) <= 0
        if (isSmall && decide(reading, zone, band) === 'pass') expect(isIn(add(reading, error), zone)).toBe(true)
        if (isSmall && decide(reading, zone, band) === 'fail') expect(isIn(add(reading, error), zone)).toBe(false)
        if (!zoneExists(guarded(zone, band))) expect(decide(reading, zone, band)).not.toBe('pass')
      }),
      seed,
    )
  })

  it('hold for any kind of reading, and refuse a mixture', () => {
    expect(results('decision-rule', { upper: '95 °C', uncertainty: '2 °C', reading: '94 °C' }).decision).toBe(
      'conditional pass',
    )
    const mixed = calculators
      .find(({ name }) => name === 'decision-rule')
      ?.run(
        new Map([
          ['upper', '95 °C'],
          ['reading', '94 psi'],
        ]),
      )
    expect(mixed?.ok).toBe(false)
  })
})

describe('uncertainties', () => {
  it('combine to no less than the largest and no more than their sum', () => {
    fc.assert(
      fc.property(fc.array(positive, { minLength: 1, maxLength: 6 }), (parts) => {
        const combined = toNumber(rootSumOfSquares(parts))
        const sizes = parts.map(toNumber)
        expect(combined).toBeGreaterThanOrEqual(Math.max(...sizes) * (1 - 1e-12))
        expect(combined).toBeLessThanOrEqual(sizes.reduce((sum, each) => sum + each, 0) * (1 + 1e-12))
        expect(combined).toBeCloseTo(toNumber(rootSumOfSquares([...parts].reverse())), 9)
      }),
      seed,
    )
  })

  it('of a triangle are smaller than of a rectangle', () => {
    expect(compare(standardOfHalfWidth(one, 'triangular'), standardOfHalfWidth(one))).toBe(-1)
  })
})

describe('printed figures', () => {
  it('are consistent where they were rounded from one another', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99_999 }), (thousandths) => {
        const inches = rational(thousandths, 1000)
        const millimetres = (thousandths * 0.0254).toFixed(2)
        const [whole = '0', decimals = ''] = millimetres.split('.')
        const second = rational(BigInt(whole + decimals), 100n)
        expect(isConsistent(inches, 'in', second, 'mm', 2)).toBe(true)
        expect(isConsistent(inches, 'in', add(second, rational(2n, 100n)), 'mm', 2)).toBe(false)
      }),
      seed,
    )
  })

  it('of a limit never get wider', () => {
    fc.assert(
      fc.property(positive, fc.integer({ min: 1, max: 6 }), (value, digits) => {
        expect(compare(limitInDigits(value, 'upper', digits), value)).not.toBe(1)
        expect(compare(limitInDigits(value, 'lower', digits), value)).not.toBe(-1)
      }),
      seed,
    )
  })

  it('count the digits as typed', () => {
    expect(['2.7', '450', '10.0', '0.0050', '7'].map(significantDigits)).toEqual([2, 2, 3, 2, 1])
    expect(roundedSum(['1.25', 'x'])).toBeNull()
  })
})

describe('codes of UCUM', () => {
  // UCUM 2.1: sections 2.1 to 2.4 and the tables of units.
  it.each([
    'm',
    'kPa',
    'N.m',
    'kg.m/s2',
    '/min',
    '10*3/ul',
    '[lbf_av].[ft_i]',
    '{rev}/min',
    'm2{net}',
    '(m/s)/s',
    'rad2',
  ])('knows %s', (code) => expect(readUcum(code)).not.toBeNull())

  it.each(['', 'm/', '10+3/ul', 'banana', 'm..s', '(m', 'm)', 'k[in_i]', 'kg m', '2.0', '0', 'm2-', '{', 'N·m'])(
    'refuses "%s"',
    (code) => expect(readUcum(code)).toBeNull(),
  )

  it.each([
    ['[psi]', 'kPa', 6.89475729316836],
    ['[lbf_av].[ft_i]', 'N.m', 1.355817948331],
    ['[mi_i]/h', 'km/h', 1.609344],
    ['deg', 'rad', Math.PI / 180],
    ['4.s/m', 's/m', 4],
    ['s/4/m', 's/m', 0.25],
  ])('1 %s in %s is %f', (from, to, value) => {
    const converted = convertUcum(one, from, to)
    expect(converted && toNumber(converted)).toBeCloseTo(value, 12)
  })

  it('converts there and back to the same number, and not at all between dimensions', () => {
    fc.assert(
      fc.property(
        positive,
        fc.constantFrom('m', '[ft_i]', '[in_i]', 'um', '[mi_i]'),
        fc.constantFrom('km', '[yd_i]', 'cm'),
        (value, a, b) => {
          const there = convertUcum(value, a, b)
          expect(there && convertUcum(there, b, a)).toEqual(value)
        },
      ),
      seed,
    )
    expect(convertUcum(one, 'm', 's')).toBeNull()
  })
})
