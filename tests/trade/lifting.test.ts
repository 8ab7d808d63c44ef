import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Rational } from '../../src/quantities/quantity-types.ts'
import { add, compare, multiply, rational, subtract } from '../../src/quantities/rational.ts'
import type { Answer } from '../../src/trade/answer.ts'
import { fromNumber, toNumber } from '../../src/trade/binary.ts'
import { chainWornOut, heatReduction } from '../../src/trade/lifting/chain-condition.ts'
import { chainRatings, chainSizes, ratingsFromSingle } from '../../src/trade/lifting/chain-sling.ts'
import { percentAtAngle, weakestItem } from '../../src/trade/lifting/hardware.ts'
import { percentAtChoke, percentOverBend } from '../../src/trade/lifting/hitch.ts'
import { carryingLegs, legTension, sharesOfTwo, slingCapacity } from '../../src/trade/lifting/leg-tension.ts'
import { designLoad, estimateHolds, volumeOf } from '../../src/trade/lifting/load.ts'
import { offCentreLevel, offCentreMeasured, tiltedHang } from '../../src/trade/lifting/off-centre.ts'
import {
  angleOfRise,
  fromHorizontal,
  judgeAngle,
  riseFromLengths,
  riseOfLeg,
} from '../../src/trade/lifting/sling-angle.ts'
import { slingCalculators } from '../../src/trade/lifting/sling-calculators.ts'

const seed = { seed: 20260302 }

function of<T>(answered: Answer<T>): T {
  if (!answered.ok) throw new Error(answered.problem.message)
  return answered.value
}

const positive = fc.integer({ min: 1, max: 1_000_000 }).map((value) => rational(value, 100))
const degree = fc.integer({ min: 10, max: 900 }).map((tenths) => rational(tenths, 10))

describe('leg tension', () => {
  it('rises as the angle falls, and is the share itself at 90 degrees', () => {
    fc.assert(
      fc.property(positive, fc.integer({ min: 1, max: 4 }), degree, degree, (load, legs, a, b) => {
        const [flat, steep] = compare(a, b) <= 0 ? [a, b] : [b, a]
        const flatPull = of(legTension(load, legs, riseOfLeg(flat)))
        const steepPull = of(legTension(load, legs, riseOfLeg(steep)))
        expect(compare(flatPull, steepPull)).toBeGreaterThanOrEqual(0)
        expect(multiply(of(legTension(load, legs, riseOfLeg(rational(90)))), rational(legs))).toEqual(load)
      }),
      seed,
    )
  })

  it('balances the load: carrying legs times pull times rise', () => {
    fc.assert(
      fc.property(positive, positive, fc.integer({ min: 1, max: 4 }), (height, more, legs) => {
        const rise = of(riseFromLengths(height, add(height, more)))
        const tension = of(legTension(rational(1000), legs, rise))
        expect(multiply(multiply(tension, rational(legs)), rise)).toEqual(rational(1000))
        expect(of(slingCapacity(tension, legs, rise))).toEqual(rational(1000))
      }),
      seed,
    )
  })

  it('takes the three ways of telling an angle for the same leg', () => {
    fc.assert(
      fc.property(degree, (angle) => {
        const vertical = subtract(rational(90), angle)
        expect(of(fromHorizontal(vertical, 'from-vertical'))).toEqual(angle)
        expect(of(fromHorizontal(multiply(rational(2), vertical), 'included'))).toEqual(angle)
        expect(toNumber(angleOfRise(riseOfLeg(angle)))).toBeCloseTo(toNumber(angle), 5)
      }),
      seed,
    )
    expect(riseOfLeg(rational(30))).toEqual(rational(1, 2))
    expect(judgeAngle(rational(30))).toBe('steeper is better')
    expect(judgeAngle(rational(299, 10))).toBe('not allowed')
    // H/L of exactly one half is 30 degrees to the last digit.
    expect(judgeAngle(angleOfRise(of(riseFromLengths(rational(1), rational(2)))))).toBe('steeper is better')
    expect(judgeAngle(rational(45))).toBe('allowed')
  })

  it('counts on two of four legs unless told', () => {
    expect([1, 2, 3, 4].map((legs) => of(carryingLegs(legs)))).toEqual([1, 2, 2, 2])
    expect([3, 4].map((legs) => of(carryingLegs(legs, 'three-carry')))).toEqual([3, 3])
    expect(of(carryingLegs(4, 'all-carry'))).toBe(4)
  })

  it('refuses nonsense in a clear sentence', () => {
    const refusals = [
      legTension(rational(-1), 2, rational(1)),
      legTension(rational(0), 2, rational(1)),
      legTension(rational(1), 0, rational(1)),
      legTension(rational(1), 5, rational(1)),
      legTension(rational(1), Number.NaN, rational(1)),
      legTension(rational(1), 2, rational(0)),
      legTension(rational(1), 2, rational(2)),
      fromHorizontal(rational(0), 'from-horizontal'),
      fromHorizontal(rational(180), 'included'),
      fromHorizontal(rational(-5), 'from-vertical'),
      riseFromLengths(rational(3), rational(2)),
      sharesOfTwo(rational(1), rational(-1), rational(4)),
      sharesOfTwo(rational(1), rational(0), rational(0)),
    ]
    for (const refusal of refusals) {
      expect(refusal.ok).toBe(false)
      if (!refusal.ok)
        expect(`${refusal.problem.message} ${refusal.problem.advice}`).not.toMatch(/NaN|undefined|Infinity/)
    }
  })
})

describe('off-centre lifts', () => {
  it('are symmetric, balance sideways and carry the load', () => {
    fc.assert(
      fc.property(positive, positive, positive, (first, second, height) => {
        const lift = { load: rational(1000), firstDistance: first, secondDistance: second, height }
        const pulls = of(offCentreLevel(lift))
        const turned = of(offCentreLevel({ ...lift, firstDistance: second, secondDistance: first }))
        expect(turned.first).toEqual(pulls.second)
        expect(pulls.horizontalDifference).toEqual(rational(0))
        const up = [pulls.first, pulls.second].map(
          ({ tension, length }) => (toNumber(tension) * toNumber(height)) / toNumber(length),
        )
        expect((up[0] ?? 0) + (up[1] ?? 0)).toBeCloseTo(1000, 6)
      }),
      seed,
    )
  })

  it('hang level from legs that fit, and tilted from others', () => {
    const level = of(
      offCentreLevel({
        load: rational(1000),
        firstDistance: rational(1),
        secondDistance: rational(3),
        height: rational(4),
      }),
    )
    const hung = {
      load: rational(1000),
      firstLength: level.first.length,
      secondLength: level.second.length,
      span: rational(4),
      centre: rational(1),
      depth: rational(0),
    }
    const hang = of(tiltedHang(hung))
    expect(toNumber(hang.tilt)).toBeCloseTo(0, 9)
    expect(toNumber(hang.first.tension)).toBeCloseTo(toNumber(level.first.tension), 8)
    expect(toNumber(hang.second.angle)).toBeCloseTo(toNumber(level.second.angle), 8)
    const equal = of(tiltedHang({ ...hung, firstLength: rational(5), secondLength: rational(5) }))
    expect(toNumber(equal.tilt)).toBeLessThan(0)
    // The end with the centre of gravity pulls more.
    expect(compare(equal.first.tension, equal.second.tension)).toBe(1)
    expect(of(tiltedHang({ ...hung, depth: rational(-1, 10) })).isTopHeavy).toBe(true)
  })

  it('balance the load however they hang', () => {
    const between = fc.integer({ min: 1, max: 99 }).map((share) => rational(share, 25))
    fc.assert(
      fc.property(between, fc.integer({ min: 21, max: 80 }), fc.integer({ min: 21, max: 80 }), (centre, a, b) => {
        const hang = tiltedHang({
          load: rational(1000),
          firstLength: rational(a, 10),
          secondLength: rational(b, 10),
          span: rational(4),
          centre,
          depth: rational(1),
        })
        if (!hang.ok) return
        const up = [hang.value.first, hang.value.second].map(
          ({ tension, angle }) => toNumber(tension) * Math.sin((toNumber(angle) * Math.PI) / 180),
        )
        const across = [hang.value.first, hang.value.second].map(
          ({ tension, angle }) => toNumber(tension) * Math.cos((toNumber(angle) * Math.PI) / 180),
        )
        expect((up[0] ?? 0) + (up[1] ?? 0)).toBeCloseTo(1000, 5)
        expect(Math.abs(across[0] ?? 0)).toBeCloseTo(Math.abs(across[1] ?? 0), 4)
      }),
      seed,
    )
  })

  it('say when measured lengths do not fit', () => {
    const lift = { load: rational(4000), firstDistance: rational(2), secondDistance: rational(10), height: rational(3) }
    expect(of(offCentreMeasured(lift, fromNumber(Math.sqrt(13)), fromNumber(Math.sqrt(109)))).isConsistent).toBe(true)
    expect(of(offCentreMeasured(lift, rational(4), rational(10))).isConsistent).toBe(false)
  })

  it('are refused where a leg would hang slack or nothing is above', () => {
    const base = {
      load: rational(1),
      firstLength: rational(2),
      secondLength: rational(2),
      span: rational(2),
      centre: rational(1),
      depth: rational(0),
    }
    expect(tiltedHang(base).ok).toBe(true)
    expect(tiltedHang({ ...base, centre: rational(5) }).ok).toBe(false)
    expect(tiltedHang({ ...base, span: rational(4) }).ok).toBe(false)
    expect(tiltedHang({ ...base, depth: rational(-3) }).ok).toBe(false)
    expect(tiltedHang({ ...base, load: rational(0) }).ok).toBe(false)
    expect(tiltedHang({ ...base, secondLength: rational(9) }).ok).toBe(false)
  })
})

describe('sling tables', () => {
  it('follow the rule of the chain table within the 100 lb of its rounding', () => {
    for (const grade of ['80', '100'] as const)
      for (const size of chainSizes(grade)) {
        const printed = of(chainRatings(grade, size, 'printed'))
        const worked = of(ratingsFromSingle(printed.single))
        const stricter = of(chainRatings(grade, size))
        for (const column of ['double', 'tripleOrQuad'] as const)
          for (const index of [0, 1, 2] as const) {
            const difference = toNumber(subtract(printed[column][index], worked[column][index]))
            expect(Math.abs(difference)).toBeLessThanOrEqual(100)
            expect(compare(stricter[column][index], printed[column][index])).toBeLessThanOrEqual(0)
            expect(compare(stricter[column][index], worked[column][index])).toBeLessThanOrEqual(0)
          }
      }
  })

  it('never give more for a hotter chain, a larger angle, a harder choke or a tighter bend', () => {
    const tens = fc.integer({ min: -4, max: 100 }).map((value) => rational(value * 10))
    fc.assert(
      fc.property(tens, tens, fc.constantFrom('80' as const, '100' as const), (a, b, grade) => {
        const [cool, hot] = compare(a, b) <= 0 ? [a, b] : [b, a]
        const percent = (at: Rational) => of(heatReduction(at, grade)).reduction
        expect(compare(percent(hot), percent(cool))).toBeGreaterThanOrEqual(0)
        for (const table of ['newer', 'older'] as const)
          expect(compare(percent(hot), of(heatReduction(hot, grade, table)).reduction)).toBeGreaterThanOrEqual(0)
      }),
      seed,
    )
    const falls = (values: readonly Rational[]) =>
      values.every((value, index) => index === 0 || compare(value, values[index - 1] ?? value) <= 0)
    const angles = Array.from({ length: 91 }, (_, angle) => rational(angle))
    expect(falls(angles.map((angle) => of(percentAtAngle(angle, 'shoulder-eyebolt'))))).toBe(true)
    expect(falls(angles.map((angle) => of(percentAtAngle(angle, 'shackle-side-pull'))))).toBe(true)
    expect(falls(angles.toReversed().map((angle) => of(percentAtChoke(angle))))).toBe(true)
    expect(falls([40, 20, 8, 3, 1].map((bend) => of(percentOverBend(rational(bend), rational(1)))))).toBe(true)
    expect(percentAtAngle(rational(10), 'plain-eyebolt').ok).toBe(false)
    expect(heatReduction(rational(1001), '80').ok).toBe(false)
  })

  it('take the stricter wear rule unless told', () => {
    expect(of(chainWornOut(rational(100), rational(85)))).toBe(true)
    expect(of(chainWornOut(rational(100), rational(90)))).toBe(false)
    expect(of(chainWornOut(rational(100), rational(80), 'quarter-of-stock'))).toBe(false)
    expect(of(chainWornOut(rational(100), rational(75), 'quarter-of-stock'))).toBe(false)
    expect(of(chainWornOut(rational(100), rational(74), 'quarter-of-stock'))).toBe(true)
    expect(chainWornOut(rational(100), rational(101)).ok).toBe(false)
  })

  it('name the weakest of the whole train', () => {
    const item = (name: string, rating: number, pull: number) => ({
      name,
      rating: rational(rating),
      pull: rational(pull),
    })
    const verdict = of(weakestItem([item('hook', 5000, 3000), item('sling', 2000, 1900), item('eyebolt', 900, 950)]))
    expect(verdict).toMatchObject({ weakest: 'eyebolt', isEnough: false })
    expect(weakestItem([]).ok).toBe(false)
    expect(weakestItem([item('hook', 0, 1)]).ok).toBe(false)
  })
})

describe('the load', () => {
  it('is the sum of its pieces and never lighter than weighed', () => {
    fc.assert(
      fc.property(positive, positive, positive, (a, b, c) => {
        const whole = of(volumeOf({ shape: 'cylinder', diameter: a, length: add(b, c) }))
        const pieces = add(
          of(volumeOf({ shape: 'cylinder', diameter: a, length: b })),
          of(volumeOf({ shape: 'cylinder', diameter: a, length: c })),
        )
        expect(whole).toEqual(pieces)
        expect(compare(of(designLoad(a, b, add(c, rational(1)), rational(0))), a)).toBe(1)
      }),
      seed,
    )
    // A tube whose wall is half its diameter is a rod.
    expect(of(volumeOf({ shape: 'tube', diameter: rational(2), wall: rational(1), length: rational(5) }))).toEqual(
      of(volumeOf({ shape: 'cylinder', diameter: rational(2), length: rational(5) })),
    )
    expect(volumeOf({ shape: 'tube', diameter: rational(2), wall: rational(2), length: rational(5) }).ok).toBe(false)
    expect(of(estimateHolds(rational(10), rational(9)))).toBe(false)
    expect(designLoad(rational(10), rational(0), rational(9, 10), rational(0)).ok).toBe(false)
  })
})

describe('unit systems', () => {
  it('change nothing in a leg', () => {
    const calculator = slingCalculators.find(({ name }) => name === 'sling-leg-tension')
    const run = (load: string, length: string, height: string) => {
      const calculation = calculator?.run(new Map(Object.entries({ load, legs: '2', length, height })))
      if (!calculation?.ok) throw new Error('refused')
      return calculation.results
    }
    const inch = run('1000 lb', '10 ft', '6 ft')
    const metric = run('453.59237 kg', '3048 mm', '1.8288 m')
    expect(inch[0]).toMatchObject({ unit: 'lb', exact: '2500/3' })
    expect(metric[0]).toMatchObject({ unit: 'kg' })
    const factor = rational(45359237, 100000000)
    expect(multiply(rational(2500, 3), factor)).toEqual(
      multiply(
        rational(BigInt(metric[0]?.exact?.split('/')[0] ?? 0), BigInt(metric[0]?.exact?.split('/')[1] ?? 1)),
        rational(1),
      ),
    )
    expect(inch.slice(1)).toEqual(metric.slice(1))
  })
})
