import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { add, compare, multiply, one, rational, subtract, zero } from '../../src/quantities/rational.ts'
import { toNumber } from '../../src/trade/binary.ts'
import { calculators } from '../../src/trade/calculators.ts'
import { boltStrength, gradeChoices } from '../../src/trade/fasteners/bolt-grades.ts'
import { threadShearAreas } from '../../src/trade/fasteners/strength.ts'
import { circleArea, stressArea } from '../../src/trade/fasteners/thread-area.ts'
import { readThreadSize } from '../../src/trade/fasteners/thread-size.ts'
import { circleOrder, rectangleOrder } from '../../src/trade/fasteners/tightening-order.ts'
import { scatterOf } from '../../src/trade/fasteners/tightening-tables.ts'
import {
  boltTensionOf,
  boltTorqueOf,
  effectiveTorque,
  preloadOfTurn,
  scatterOfTests,
  turnOfNut,
} from '../../src/trade/fasteners/torque.ts'
import { lengthening, torqueDelivered, wrenchSetting } from '../../src/trade/fasteners/wrench.ts'

const seed = { seed: 20260302 }
const positive = fc.integer({ min: 1, max: 1_000_000 }).map((value) => rational(value, 1000))

function run(name: string, given: Readonly<Record<string, string>>) {
  const calculation = calculators.find((each) => each.name === name)?.run(new Map(Object.entries(given)))
  if (!calculation) throw new Error(`no calculator ${name}`)
  return calculation
}

function result(name: string, given: Readonly<Record<string, string>>, which: string): string {
  const calculation = run(name, given)
  if (!calculation.ok) throw new Error(calculation.problem.message)
  const found = calculation.results.find((each) => each.name === which)
  return `${found?.value}${found?.unit ? ` ${found.unit}` : ''}`
}

describe('thread sizes', () => {
  const read = (typed: string) => {
    const reading = readThreadSize(typed)
    if (!reading.ok) return reading.message
    const { diameter, pitch } = reading.size
    return [diameter, pitch].map((length) => toNumber(length) * 1000)
  }

  it.each([
    ['1/2-13 UNC', '0.5000-13'],
    ['1/2-13 UNC-2A', '1/2 - 13'],
    ['1 1/4-12 UN', '1-1/4-12'],
    ['10-32', '#10-32'],
    ['No. 10-32 UNF', '0.190-32'],
    ['M20', 'M20×2.5'],
    ['M20x1.5', 'M20-1.5'],
    ['M8 - 6g', 'M8×1.25'],
    ['1-8 UNC-2B', '1.000-8'],
  ])('reads %s as %s', (typed, same) => {
    expect(read(typed)).toEqual(read(same))
    expect(read(typed)).toEqual([expect.any(Number), expect.any(Number)])
  })

  // ASME B1.1: number sizes are 0.060 in + 0.013 in a number; #10 is 0.190 in, #4 is 0.112 in.
  it.each([
    ['4-40', 0.112],
    ['10-24', 0.19],
    ['12-28', 0.216],
    ['0-80', 0.06],
    ['8-8', 8],
    ['1-8', 1],
    ['1-64', 0.073],
  ])('takes %s for %f in', (typed, inches) => {
    expect((read(typed) as number[])[0]).toBeCloseTo(inches * 25.4, 9)
  })

  it.each(['1/2', 'M21', 'M20×11', 'M', '1/2-0', '-13', 'banana', '', '1/2-13-13', 'M20x', '#1/2-13', '1/0-13'])(
    'refuses "%s" with what to type',
    (typed) => {
      const reading = readThreadSize(typed)
      expect(reading.ok).toBe(false)
      if (!reading.ok) expect(reading.advice).toMatch(/`/)
    },
  )

  it('names coarse and fine where the pitch was left out', () => {
    const reading = readThreadSize('1/2')
    expect(!reading.ok && reading.advice).toBe('Type `1/2-13` (coarse) or `1/2-20` (fine).')
  })
})

describe('thread areas', () => {
  it('lie between the core and the whole bolt, and grow with the bolt', () => {
    fc.assert(
      fc.property(positive, fc.integer({ min: 2, max: 30 }), positive, (pitch, times, more) => {
        const diameter = multiply(pitch, rational(times))
        for (const system of ['metric', 'inch'] as const) {
          const area = stressArea(diameter, pitch, system)
          expect(compare(area, circleArea(diameter))).toBe(-1)
          expect(compare(area, circleArea(subtract(diameter, multiply(pitch, rational(13n, 10n)))))).toBe(1)
          expect(compare(stressArea(add(diameter, more), pitch, system), area)).toBe(1)
        }
      }),
      seed,
    )
  })

  // ISO 898-1, table: M20 245 mm², M30 561 mm²; ASME B1.1: 1-1/4-12 1.073 in² (all from memory).
  it.each([
    [{ thread: 'M20' }, '244.8 mm²'],
    [{ thread: 'M30' }, '560.6 mm²'],
    [{ thread: '1-1/4-12' }, '1.073 in²'],
  ])('of %j is %s', (given, area) => {
    expect(result('thread-stress-area', given, 'stress-area')).toBe(area)
  })

  it('in shear are larger in the nut than on the screw', () => {
    fc.assert(
      fc.property(positive, fc.integer({ min: 4, max: 30 }), positive, (pitch, times, engaged) => {
        const { screw, nut } = threadShearAreas(multiply(pitch, rational(times)), pitch, engaged)
        expect(compare(screw, zero)).toBe(1)
        expect(compare(nut, screw)).toBe(1)
      }),
      seed,
    )
  })
})

describe('grades', () => {
  it('are stronger in tension than in proof, and no stronger in thicker bolts of one inch grade', () => {
    for (const grade of gradeChoices) {
      const sizes = [6, 10, 16, 20, 25, 30, 38].map((size) => boltStrength(grade, rational(size, 1000)))
      for (const strength of sizes) if (strength) expect(compare(strength.proof, strength.tensile)).toBe(-1)
      const proofs = sizes.flatMap((strength) => (strength ? [toNumber(strength.proof)] : []))
      if (grade.startsWith('SAE')) expect(proofs).toEqual([...proofs].sort((a, b) => b - a))
    }
  })

  // Stress areas 0.3345 and 0.4617 in², 55 and 33 ksi.
  it('drop where the standards step: grade 2 above 3/4 in, grade 5 above 1 in', () => {
    expect(result('bolt-proof-load', { thread: '3/4-10', grade: 'SAE 2' }, 'proof-load')).toBe('18395 lbf')
    expect(result('bolt-proof-load', { thread: '7/8-9', grade: 'SAE 2' }, 'proof-load')).toBe('15237 lbf')
  })

  it('are refused in a size that they are not made in, or unknown, with the choices', () => {
    expect(run('bolt-proof-load', { thread: 'M42', grade: '8.8' }).ok).toBe(false)
    const unknown = run('bolt-proof-load', { thread: 'M20', grade: '8.9' })
    expect(!unknown.ok && unknown.problem.advice).toContain('8.8')
  })
})

describe('torque and tension', () => {
  it('undo one another exactly', () => {
    fc.assert(
      fc.property(positive, positive, positive, (factor, diameter, force) => {
        expect(boltTensionOf(boltTorqueOf(factor, diameter, force), factor, diameter)).toEqual(force)
      }),
      seed,
    )
  })

  it('want the nut factor said once', () => {
    const job = { diameter: '1/2 in', preload: '9046 lbf' }
    expect(run('bolt-torque', job).ok).toBe(false)
    expect(run('bolt-torque', { ...job, 'nut-factor': '0.2', finish: 'lubricated' }).ok).toBe(false)
    expect(result('bolt-torque', { ...job, finish: 'plain and dry' }, 'torque')).toBe('75.4 lbf·ft')
  })

  it('scatter of like tests is none, and does not care how strong the bolts were', () => {
    fc.assert(
      fc.property(fc.array(positive, { minLength: 2, maxLength: 12 }), positive, (preloads, times) => {
        const scatter = scatterOfTests(preloads)
        expect(compare(scatter.above, zero)).not.toBe(-1)
        expect(compare(scatter.below, zero)).not.toBe(-1)
        const scaled = scatterOfTests(preloads.map((each) => multiply(each, times)))
        expect([scaled.above, scaled.below]).toEqual([scatter.above, scatter.below])
        const [first = one] = preloads
        expect(scatterOfTests([first, first]).above).toEqual(zero)
      }),
      seed,
    )
  })

  it('running torque leaves less, never more, at both ends', () => {
    fc.assert(
      fc.property(positive, positive, positive, positive, (torque, tolerance, smallestBreakaway, largestLocking) => {
        const above = effectiveTorque(torque, tolerance, null)
        const total = effectiveTorque(torque, tolerance, { smallestBreakaway, largestLocking })
        expect(compare(total.largest, above.largest)).toBe(-1)
        expect(compare(total.smallest, above.smallest)).toBe(-1)
      }),
      seed,
    )
  })

  it('by turn is the inverse of the turn for a stress', () => {
    fc.assert(
      fc.property(positive, positive, positive, positive, positive, (stress, length, modulus, lead, area) => {
        const turns = turnOfNut(stress, length, modulus, lead)
        expect(preloadOfTurn(turns, lead, modulus, area, length)).toEqual(multiply(stress, area))
      }),
      seed,
    )
  })

  it('count the wider scatter where nobody says whether the threads are lubricated', () => {
    expect(['lubricated', 'dry', null].map((threads) => scatterOf('torque wrench', threads))).toEqual([25, 35, 35])
    expect(scatterOf('bolt elongation', null)).toBe(5)
  })

  it('warns when the scatter reaches past the proof load', () => {
    const calculation = run('bolt-preload', { thread: '1/2-13', grade: 'SAE 5', fraction: '0.9', scatter: '0.25' })
    expect(calculation.ok && calculation.working.at(-1)).toContain('above the proof load')
    const gentle = run('bolt-preload', { thread: '1/2-13', grade: 'SAE 5', fraction: '0.75', scatter: '0.25' })
    expect(gentle.ok && gentle.working.at(-1)).not.toContain('Caution')
  })
})

describe('wrench extensions', () => {
  it('undo one another exactly; longer means a lower setting', () => {
    fc.assert(
      fc.property(positive, positive, positive, positive, (torque, length, added, more) => {
        const setting = wrenchSetting(torque, length, added)
        expect(torqueDelivered(setting, length, added)).toEqual(torque)
        expect(compare(setting, torque)).toBe(-1)
        expect(compare(wrenchSetting(torque, length, add(added, more)), setting)).toBe(-1)
      }),
      seed,
    )
  })

  it('change nothing at a right angle, count in full straight ahead, and do not care for which side', () => {
    fc.assert(
      fc.property(positive, fc.integer({ min: -720, max: 720 }), (extension, degrees) => {
        const at = (angle: number) => toNumber(lengthening(extension, rational(angle, 360)))
        const size = toNumber(extension)
        expect(at(90)).toBe(0)
        expect(at(0)).toBe(size)
        expect(at(180)).toBe(-size)
        expect(Math.abs(at(degrees) - at(-degrees))).toBeLessThanOrEqual(size * 1e-12)
        expect(Math.abs(at(degrees))).toBeLessThanOrEqual(size * (1 + 1e-12))
      }),
      seed,
    )
  })

  it('never point back past the grip', () => {
    const job = { torque: '100 N·m', 'wrench-length': '300 mm' }
    expect(run('wrench-extension', { ...job, extension: '-300 mm' }).ok).toBe(false)
    expect(run('wrench-extension', { ...job, extension: '400 mm', angle: '180°' }).ok).toBe(false)
    expect(run('wrench-extension', { ...job, extension: '100 mm', setting: '80 N·m' }).ok).toBe(false)
  })
})

describe('tightening order', () => {
  it('takes each bolt once, whatever the count', () => {
    for (let count = 2; count <= 240; count++)
      expect(circleOrder(count).toSorted((a, b) => a - b)).toEqual(
        Array.from({ length: count }, (_, index) => index + 1),
      )
    for (let rows = 1; rows <= 9; rows++)
      for (let columns = 1; columns <= 9; columns++)
        expect(rectangleOrder(rows, columns).toSorted((a, b) => a - b)).toEqual(
          Array.from({ length: rows * columns }, (_, index) => index + 1),
        )
  })

  it('goes to the opposite bolt at once where there is one', () => {
    for (let count = 2; count <= 240; count += 2) {
      const order = circleOrder(count)
      for (let index = 0; index < count; index += 2)
        expect(Math.abs((order[index] ?? 0) - (order[index + 1] ?? 0))).toBe(count / 2)
    }
  })

  it('never leaves two neighbours first where there are five bolts or more', () => {
    for (let count = 5; count <= 60; count++) {
      const [first = 0, second = 0] = circleOrder(count)
      const gap = Math.abs(first - second)
      expect(Math.min(gap, count - gap)).toBeGreaterThan(1)
    }
  })

  // Common star pattern of 4, 8 and 12 bolt flanges: ASME PCC-1 (from memory).
  it('is the star that flanges are known for', () => {
    expect(circleOrder(4)).toEqual([1, 3, 2, 4])
    expect(circleOrder(8)).toEqual([1, 5, 3, 7, 2, 6, 4, 8])
    expect(circleOrder(12)).toEqual([1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12])
  })

  it('begins a rectangle in its middle and ends at its corners', () => {
    const order = rectangleOrder(3, 5)
    expect(order[0]).toBe(8)
    expect(order.slice(-4).toSorted((a, b) => a - b)).toEqual([1, 5, 11, 15])
  })

  it('refuses half bolts, one bolt and a thousand', () => {
    for (const bolts of ['1', '2.5', '1000'])
      expect(run('tightening-order', { pattern: 'flange', bolts }).ok).toBe(false)
    expect(run('tightening-order', { pattern: 'rectangle', rows: '2' }).ok).toBe(false)
  })
})

describe('sums with a known size', () => {
  it('strip the softer part first, and the bolt where the engagement is long', () => {
    const job = { thread: 'M12', 'screw-strength': '800 MPa', 'nut-strength': '250 MPa' }
    expect(result('thread-stripping', { ...job, engagement: '8 mm' }, 'breaks-first')).toBe('thread')
    expect(result('thread-stripping', { ...job, engagement: '24 mm' }, 'breaks-first')).toBe('bolt')
    expect(result('thread-stripping', { ...job, engagement: '8 mm' }, 'weaker')).toBe('nut or tapped part')
  })
})
