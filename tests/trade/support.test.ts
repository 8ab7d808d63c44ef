import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { add, compare, divide, multiply, rational, subtract } from '../../src/quantities/rational.ts'
import type { Answer } from '../../src/trade/answer.ts'
import { toNumber } from '../../src/trade/binary.ts'
import { type Support, stabilityOf, supportReactions } from '../../src/trade/support/reactions.ts'
import { cribCapacity, plankBending, propCapacity } from '../../src/trade/support/timber.ts'

const seed = { seed: 20260302 }

function of<T>(answered: Answer<T>): T {
  if (!answered.ok) throw new Error(answered.problem.message)
  return answered.value
}

const stand = (name: string, x: number, y: number, rating = 1000): Support => ({
  name,
  x: rational(x),
  y: rational(y),
  rating: rational(rating),
})

const four = [stand('LF', 0, 0), stand('RF', 0, 1), stand('LR', 2, 0), stand('RR', 2, 1)]

describe('stands', () => {
  it('carry the load between three of them, in balance around every axis', () => {
    const share = fc.integer({ min: 0, max: 100 })
    fc.assert(
      fc.property(share, share, (a, b) => {
        fc.pre(a + b <= 100)
        const centre = { x: rational(2 * a, 100), y: rational(b, 100) }
        const three = [stand('A', 0, 0), stand('B', 2, 0), stand('C', 0, 1)]
        const { items } = of(supportReactions(rational(900), centre, three))
        const loads = items.map(({ most }) => most)
        expect(loads.reduce(add)).toEqual(rational(900))
        const moment = loads.map((load, index) => multiply(load, three[index]?.x ?? rational(0))).reduce(add)
        expect(moment).toEqual(multiply(rational(900), centre.x))
      }),
      seed,
    )
  })

  it('of four are each asked for more than an even share', () => {
    const inside = fc.integer({ min: 1, max: 99 })
    fc.assert(
      fc.property(inside, inside, (a, b) => {
        const centre = { x: rational(2 * a, 100), y: rational(b, 100) }
        const { items } = of(supportReactions(rational(1000), centre, four))
        const most = items.reduce((so, { most }) => (compare(most, so) > 0 ? most : so), rational(0))
        expect(compare(most, rational(250))).toBe(1)
        const turned = of(supportReactions(rational(1000), { x: subtract(rational(2), centre.x), y: centre.y }, four))
        expect(turned.items.map((each) => each.most)).toEqual([2, 3, 0, 1].map((index) => items[index]?.most))
      }),
      seed,
    )
    const even = of(supportReactions(rational(1000), { x: rational(1), y: rational(1, 2) }, four))
    expect(even.items.map(({ most }) => toNumber(most))).toEqual([500, 500, 500, 500])
    expect(toNumber(even.margin)).toBeCloseTo(0.5, 12)
    expect(even.isEnough).toBe(true)
    expect(of(supportReactions(rational(2001), { x: rational(1), y: rational(1, 2) }, four)).isEnough).toBe(false)
  })

  it('are refused where the load would tip or nothing holds it', () => {
    const centre = { x: rational(1), y: rational(1, 2) }
    for (const refusal of [
      supportReactions(rational(1), { x: rational(3), y: rational(0) }, four),
      supportReactions(rational(1), centre, four.slice(0, 2)),
      supportReactions(rational(-1), centre, four),
      supportReactions(rational(1), centre, [stand('A', 0, 0), stand('B', 1, 0), stand('C', 2, 0)]),
      supportReactions(rational(1), centre, [...four, stand('E', 1, 0, 0)]),
      stabilityOf(rational(1), rational(1), rational(0)),
    ])
      expect(refusal.ok).toBe(false)
    const stability = of(stabilityOf(rational(1000), rational(1), rational(1)))
    expect(toNumber(stability.tippingAngle)).toBeCloseTo(45, 10)
    expect(stability.tippingPush).toEqual(rational(1000))
  })
})

describe('timber and props', () => {
  const crib = {
    timberWidth: rational(35, 10),
    timbersInLayer: 2,
    baseWidth: rational(36),
    height: rational(108),
    bearingStrength: rational(500),
  }

  it('carry as the shoring guide says', () => {
    // US Army Corps of Engineers and FEMA, Shoring Operations Guide: 4 × 4 in 24 000 lbf, 6 × 6 in 60 000 lbf; from memory, rounded down there.
    expect(toNumber(of(cribCapacity(crib)).capacity)).toBe(24_500)
    expect(toNumber(of(cribCapacity({ ...crib, timberWidth: rational(55, 10) })).capacity)).toBe(60_500)
    expect(of(cribCapacity(crib)).isLowEnough).toBe(true)
    expect(of(cribCapacity({ ...crib, height: rational(109) })).isLowEnough).toBe(false)
    expect(cribCapacity({ ...crib, timbersInLayer: 1 }).ok).toBe(false)
    expect(cribCapacity({ ...crib, height: rational(-1) }).ok).toBe(false)
    expect(cribCapacity({ ...crib, timberWidth: rational(20) }).ok).toBe(false)
  })

  it('bend less when thicker and shorter', () => {
    const plank = {
      load: rational(1000),
      span: rational(2),
      width: rational(1, 4),
      thickness: rational(1, 20),
      bendingStrength: rational(8_000_000),
      stiffness: rational(8_000_000_000),
    }
    const bent = of(plankBending(plank))
    // 3 · 1000 · 2/(2 · 0.25 · 0.05²) Pa and 1000 · 8/(4 · 8e9 · 0.25 · 0.05³) m, by hand.
    expect(toNumber(bent.stress)).toBe(4_800_000)
    expect(toNumber(bent.sag)).toBe(0.008)
    const thick = of(plankBending({ ...plank, thickness: rational(1, 10) }))
    expect(thick.stress).toEqual(divide(bent.stress, rational(4)))
    expect(thick.sag).toEqual(divide(bent.sag, rational(8)))
    expect(of(plankBending({ ...plank, load: rational(5000) })).isEnough).toBe(false)
    expect(plankBending({ ...plank, thickness: rational(0) }).ok).toBe(false)
  })

  it('buckle when long, are crushed when short, and carry less when longer', () => {
    const prop = {
      outside: rational(48, 1000),
      inside: rational(42, 1000),
      length: rational(3),
      stiffness: rational(205_000_000_000),
      strength: rational(235_000_000),
      safetyFactor: rational(3),
    }
    const long = of(propCapacity(prop))
    expect(long.fails).toBe('buckling')
    expect(of(propCapacity({ ...prop, length: rational(1, 10) })).fails).toBe('crushing')
    const half = of(propCapacity({ ...prop, length: rational(6) }))
    expect(half.capacity).toEqual(divide(long.capacity, rational(4)))
    expect(propCapacity({ ...prop, inside: rational(48, 1000) }).ok).toBe(false)
    expect(propCapacity({ ...prop, safetyFactor: rational(1) }).ok).toBe(false)
  })
})
