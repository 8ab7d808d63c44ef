import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Rational } from '../../src/quantities/quantity-types.ts'
import {
  absolute,
  add,
  compare,
  divide,
  multiply,
  negate,
  rational,
  subtract,
  zero,
} from '../../src/quantities/rational.ts'
import { lineThroughPlanes, reverseDials, rimAndFace } from '../../src/trade/alignment/alignment.ts'
import { angularShim, withoutSag } from '../../src/trade/alignment/indicator.ts'
import { coldTarget, thermalGrowth } from '../../src/trade/alignment/thermal.ts'
import { calculators } from '../../src/trade/calculators.ts'

/* Judged by plane geometry: the moved shaft is a line, the dials are read off the rims it carries. */

const seed = { seed: 20260302 }
const height = fc.integer({ min: -2000, max: 2000 }).map((value) => rational(value, 1000))
const slope = fc.integer({ min: -500, max: 500 }).map((value) => rational(value, 100_000))
const distance = fc.integer({ min: 50, max: 2000 }).map((value) => rational(value))
const two = rational(2)

const lineAt = (offset: Rational, tilt: Rational, at: Rational) => add(offset, multiply(tilt, at))

/** Bottom reading of a dial set to 0 at the top, stem in positive, from its stem lengths. */
function bottomReading(carrierHeight: Rational, rimHeight: Rational): Rational {
  const [arm, rim] = [rational(200), rational(100)]
  const stemAtTop = subtract(add(carrierHeight, arm), add(rimHeight, rim))
  const stemAtBottom = subtract(subtract(rimHeight, rim), subtract(carrierHeight, arm))
  return subtract(stemAtTop, stemAtBottom)
}

describe('reverse dials', () => {
  it('find the line of the moved shaft that the dials were read from', () => {
    fc.assert(
      fc.property(height, slope, distance, distance, distance, (offset, tilt, apart, toFront, beyond) => {
        const onFixed = bottomReading(offset, zero)
        const onMoved = bottomReading(zero, lineAt(offset, tilt, apart))
        const found = reverseDials(onFixed, onMoved, apart, toFront, add(toFront, beyond))
        expect(found.offset).toEqual(offset)
        expect(found.slope).toEqual(tilt)
        expect(found.front).toEqual(lineAt(offset, tilt, toFront))
        expect(found.rear).toEqual(lineAt(offset, tilt, add(toFront, beyond)))
      }),
      seed,
    )
  })

  it('see through a bar that sags', () => {
    fc.assert(
      fc.property(height, height, (offset, droopEitherWay) => {
        const droop = absolute(droopEitherWay)
        // The bar sinks by the droop, at the top towards the rim and at the bottom away from it.
        const onPipe = negate(multiply(two, droop))
        const raw = add(bottomReading(offset, zero), onPipe)
        expect(withoutSag(raw, onPipe)).toEqual(bottomReading(offset, zero))
      }),
      seed,
    )
  })

  it('ask for no shim where the shafts are in line, and for the targets where those are set', () => {
    const job = { 'on-fixed': '0 mm', 'on-moved': '0 mm', apart: '200 mm', 'to-front': '300 mm', 'to-rear': '900 mm' }
    const run = (given: Readonly<Record<string, string>>) => {
      const calculation = calculators.find(({ name }) => name === 'reverse-dial')?.run(new Map(Object.entries(given)))
      if (!calculation?.ok) throw new Error('refused')
      return calculation.results.map(({ name, value }) => [name, value])
    }
    expect(run(job)).toEqual([
      ['offset', '0'],
      ['slope', '0'],
      ['front', '0'],
      ['rear', '0'],
      ['front-move', '0'],
      ['rear-move', '0'],
    ])
    expect(run({ ...job, 'target-front': '-0.1 mm', 'target-rear': '0.2 mm' }).slice(-2)).toEqual([
      ['front-move', '-0.1'],
      ['rear-move', '0.2'],
    ])
  })
})

describe('rim and face', () => {
  it('give the shims that bring the moved shaft into line', () => {
    fc.assert(
      fc.property(height, slope, distance, distance, distance, (offset, tilt, circle, toFront, beyond) => {
        // Rear low, tilt below 0: the gap is open at the top by the tilt over the circle.
        const face = negate(multiply(tilt, circle))
        const toRear = add(toFront, beyond)
        const shims = rimAndFace(face, multiply(two, offset), circle, toFront, toRear, false)
        expect(add(lineAt(offset, tilt, toFront), shims.front)).toEqual(zero)
        expect(add(lineAt(offset, tilt, toRear), shims.rear)).toEqual(zero)
      }),
      seed,
    )
  })

  it('swap sign with the machine: what is added on one side is subtracted on the other', () => {
    fc.assert(
      fc.property(height, height, distance, distance, distance, (face, rim, circle, toFront, beyond) => {
        const there = rimAndFace(face, rim, circle, toFront, add(toFront, beyond), true)
        const back = rimAndFace(face, negate(rim), circle, toFront, add(toFront, beyond), false)
        expect(there).toEqual(back)
      }),
      seed,
    )
  })

  it('agree with a line through two planes', () => {
    fc.assert(
      fc.property(height, slope, distance, distance, (offset, tilt, apart, toFront) => {
        const line = lineThroughPlanes(offset, lineAt(offset, tilt, apart), apart, toFront, multiply(two, toFront))
        expect([line.slope, line.front]).toEqual([tilt, lineAt(offset, tilt, toFront)])
      }),
      seed,
    )
  })
})

describe('shims and growth', () => {
  it('take out an angle: the shim stands to the feet as the reading to the circle', () => {
    fc.assert(
      fc.property(distance, distance, height, (feet, circle, reading) => {
        expect(divide(angularShim(feet, reading, circle), feet)).toEqual(divide(reading, circle))
      }),
      seed,
    )
  })

  it('set a machine that grows more low, and one that grows alike level', () => {
    fc.assert(
      fc.property(distance, distance, (more, length) => {
        const expansion = rational(115n, 10_000_000n)
        const [fixed, moved] = [
          thermalGrowth(expansion, length, rational(20)),
          thermalGrowth(expansion, length, add(rational(20), more)),
        ]
        expect(compare(coldTarget(moved, fixed), zero)).toBe(-1)
        expect(coldTarget(fixed, fixed)).toEqual(zero)
      }),
      seed,
    )
  })
})
