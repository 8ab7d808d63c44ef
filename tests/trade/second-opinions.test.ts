import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Rational } from '../../src/quantities/quantity-types.ts'
import { rational } from '../../src/quantities/rational.ts'
import { reverseDials, rimAndFace } from '../../src/trade/alignment/alignment.ts'
import type { Answer } from '../../src/trade/answer.ts'
import { fromNumber, toNumber } from '../../src/trade/binary.ts'
import { calculators } from '../../src/trade/calculators.ts'
import { legTension } from '../../src/trade/lifting/leg-tension.ts'
import { tiltedHang } from '../../src/trade/lifting/off-centre.ts'
import { crewSchedule } from '../../src/trade/schedule/crew.ts'
import { chanceToFinish } from '../../src/trade/schedule/estimates.ts'
import { criticalPath } from '../../src/trade/schedule/network.ts'
import { supportReactions } from '../../src/trade/support/reactions.ts'
import { noiseDose } from '../../src/trade/thresholds/noise.ts'
import { trendOf } from '../../src/trade/wear/trend.ts'

/* A second way to each result, from first principles and with nothing of src in it: none of these follows the formula that is judged. */

const runs = { seed: 20260302, numRuns: 200 }

function of<T>(answered: Answer<T>): T {
  if (!answered.ok) throw new Error(answered.problem.message)
  return answered.value
}

/** Solves A x = b by elimination with pivots. */
function solve(rows: readonly (readonly number[])[], right: readonly number[]): readonly number[] {
  const m = rows.map((row, index) => [...row, right[index] ?? 0])
  const at = (row: number, column: number) => m[row]?.[column] ?? 0
  for (let column = 0; column < m.length; column++) {
    let best = column
    for (let row = column + 1; row < m.length; row++)
      if (Math.abs(at(row, column)) > Math.abs(at(best, column))) best = row
    const [upper, lower] = [m[best] ?? [], m[column] ?? []]
    m[column] = upper
    if (best !== column) m[best] = lower
    for (let row = 0; row < m.length; row++) {
      if (row === column) continue
      const factor = at(row, column) / at(column, column)
      m[row] = (m[row] ?? []).map((value, index) => value - factor * at(column, index))
    }
  }
  return m.map((_, row) => at(row, m.length) / at(row, row))
}

/** Where a function of one number is least, by golden section. */
function least(work: (at: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2
  let [low, high] = [from, to]
  for (let step = 0; step < 200; step++) {
    const [one, two] = [high - golden * (high - low), low + golden * (high - low)]
    if (work(one) < work(two)) high = two
    else low = one
  }
  return (low + high) / 2
}

const length = fc.integer({ min: 10, max: 500 }).map((value) => value / 100)

describe('sling legs', () => {
  it('of three balance the load in space', () => {
    fc.assert(
      fc.property(length, length, fc.integer({ min: 0, max: 359 }), (radius, height, turn) => {
        const ways = [0, 120, 240].map((angle) => {
          const around = ((angle + turn) * Math.PI) / 180
          const leg = Math.hypot(radius, height)
          return [(radius * Math.cos(around)) / leg, (radius * Math.sin(around)) / leg, height / leg]
        })
        const pulls = solve(
          [0, 1, 2].map((axis) => ways.map((way) => way[axis] ?? 0)),
          [0, 0, 1000],
        )
        const rise = fromNumber(height / Math.hypot(radius, height))
        for (const pull of pulls) expect(pull).toBeCloseTo(toNumber(of(legTension(rational(1000), 3, rise))), 6)
      }),
      runs,
    )
  })

  it('of unequal length hang where the centre of gravity is lowest, and take moments', () => {
    const share = fc.integer({ min: 1, max: 39 }).map((value) => value / 10)
    fc.assert(
      fc.property(share, length, length, fc.integer({ min: -5, max: 30 }), (centre, a, b, deep) => {
        const [first, second, span, depth] = [2.1 + a, 2.1 + b, 4, deep / 10]
        const hang = tiltedHang({
          load: rational(1000),
          firstLength: fromNumber(first),
          secondLength: fromNumber(second),
          span: rational(span),
          centre: fromNumber(centre),
          depth: fromNumber(depth),
        })
        if (!hang.ok) return
        // The hook in the frame of the load, where both slings are taut: by halving, not by the cosine rule.
        const hookX = least((x) => Math.abs(first ** 2 - x ** 2 - (second ** 2 - (span - x) ** 2)), -first, first)
        const hookY = Math.sqrt(first ** 2 - hookX ** 2)
        // Turned about the hook by an angle, the height of the centre of gravity; it hangs where that is least.
        const turned = (angle: number) => {
          const [x, y] = [centre - hookX, -depth - hookY]
          return x * Math.sin(angle) + y * Math.cos(angle)
        }
        const tilt = least(turned, -Math.PI / 2, Math.PI / 2)
        expect((tilt * 180) / Math.PI).toBeCloseTo(-toNumber(hang.value.tilt), 4)
        const place = (x: number, y: number) => [
          (x - hookX) * Math.cos(tilt) - (y - hookY) * Math.sin(tilt),
          (x - hookX) * Math.sin(tilt) + (y - hookY) * Math.cos(tilt),
        ]
        const [one = [], two = [], gravity = []] = [place(0, 0), place(span, 0), place(centre, -depth)]
        const arm = (point: readonly number[], along: readonly number[]) => {
          const size = Math.hypot(along[0] ?? 0, along[1] ?? 0)
          return ((point[0] ?? 0) * (along[1] ?? 0) - (point[1] ?? 0) * (along[0] ?? 0)) / size
        }
        // Moments about the second hook-on point: the weight against the first leg.
        const pull = (1000 * ((gravity[0] ?? 0) - (two[0] ?? 0))) / arm([-(two[0] ?? 0), -(two[1] ?? 0)], one)
        expect(Math.abs(pull)).toBeCloseTo(toNumber(hang.value.first.tension), 2)
      }),
      runs,
    )
  })
})

describe('four stands', () => {
  it('carry at most what the whole family of balanced loads allows', () => {
    const inside = fc.integer({ min: 1, max: 19 }).map((value) => value / 20)
    fc.assert(
      fc.property(inside, inside, fc.integer({ min: 1, max: 4 }), (x, y, long) => {
        const places = [
          [0, 0],
          [0, 1],
          [long, 0],
          [long, 1],
        ] as const
        const verdict = of(
          supportReactions(
            rational(1000),
            { x: fromNumber(x * long), y: fromNumber(y) },
            places.map(([px, py], index) => ({
              name: `${index}`,
              x: rational(px),
              y: rational(py),
              rating: rational(5000),
            })),
          ),
        )
        // One stand set to every load from none to all: the other three follow; what stays above nothing is possible.
        const most = [0, 0, 0, 0]
        for (let step = 0; step <= 2000; step++) {
          const set = step / 2
          const [p0 = [0, 0], p1 = [0, 0], p2 = [0, 0], p3 = [0, 0]] = places
          const rest = solve(
            [
              [1, 1, 1],
              [p1[0], p2[0], p3[0]],
              [p1[1], p2[1], p3[1]],
            ],
            [1000 - set, 1000 * x * long - set * p0[0], 1000 * y - set * p0[1]],
          )
          const all = [set, ...rest]
          if (all.some((each) => each < -1e-9)) continue
          all.forEach((each, index) => {
            most[index] = Math.max(most[index] ?? 0, each)
          })
        }
        verdict.items.forEach(({ most: told }, index) => {
          expect(Math.abs(toNumber(told) - (most[index] ?? 0))).toBeLessThanOrEqual(0.51)
        })
      }),
      { ...runs, numRuns: 40 },
    )
  })
})

/** Activities that only wait for earlier ones, so that there is no circle. */
const network = fc
  .array(
    fc.record({
      time: fc.integer({ min: 1, max: 9 }),
      before: fc.integer({ min: 0, max: 255 }),
      people: fc.integer({ min: 1, max: 2 }),
    }),
    {
      minLength: 1,
      maxLength: 6,
    },
  )
  .map((rows) =>
    rows.map(({ time, before, people }, index) => ({
      name: `n${index}`,
      time,
      people,
      after: rows.flatMap((_, other) => (other < index && (before >> other) & 1 ? [`n${other}`] : [])),
    })),
  )

describe('schedules', () => {
  it('are as long as the longest of all ways, one after another', () => {
    fc.assert(
      fc.property(network, (rows) => {
        const found = of(
          criticalPath(
            rows.map(({ name, time, after }) => ({
              name,
              duration: rational(time),
              after: after.map((each) => ({ name: each })),
            })),
          ),
        )
        const ways: { names: readonly string[]; long: number }[] = []
        const follow = (names: readonly string[], long: number) => {
          const next = rows.filter(({ after }) => after.includes(names.at(-1) ?? ''))
          if (next.length === 0) ways.push({ names, long })
          for (const { name, time } of next) follow([...names, name], long + time)
        }
        for (const { name, time, after } of rows) if (after.length === 0) follow([name], time)
        const longest = Math.max(...ways.map(({ long }) => long))
        const critical = new Set(ways.filter(({ long }) => long === longest).flatMap(({ names }) => names))
        expect(toNumber(found.length)).toBe(longest)
        expect(new Set(found.critical)).toEqual(critical)
      }),
      runs,
    )
  })

  it('of a crew are never shorter than the shortest of all orders', () => {
    const orders = (names: readonly number[]): readonly (readonly number[])[] =>
      names.length === 0
        ? [[]]
        : names.flatMap((name) => orders(names.filter((other) => other !== name)).map((rest) => [name, ...rest]))
    let asShort = 0
    fc.assert(
      fc.property(network, (rows) => {
        const found = of(
          crewSchedule(
            rows.map(({ name, time, after, people }) => ({
              name,
              duration: rational(time),
              people,
              after: after.map((each) => ({ name: each })),
            })),
            2,
          ),
        )
        let shortest = Number.POSITIVE_INFINITY
        for (const order of orders(rows.map((_, index) => index))) {
          const ends = new Map<string, number>()
          const busy: number[] = []
          for (const index of order) {
            const row = rows[index]
            if (!row || row.after.some((name) => !ends.has(name))) break
            let start = Math.max(0, ...row.after.map((name) => ends.get(name) ?? 0))
            const isFree = (from: number) =>
              Array.from({ length: row.time }, (_, hour) => busy[from + hour] ?? 0).every(
                (used) => used + row.people <= 2,
              )
            while (!isFree(start)) start++
            for (let hour = 0; hour < row.time; hour++) busy[start + hour] = (busy[start + hour] ?? 0) + row.people
            ends.set(row.name, start + row.time)
          }
          if (ends.size === rows.length) shortest = Math.min(shortest, ...[Math.max(...ends.values())])
        }
        expect(toNumber(found.length)).toBeGreaterThanOrEqual(shortest)
        if (toNumber(found.length) === shortest) asShort++
      }),
      { ...runs, numRuns: 60 },
    )
    // A rule of thumb, and said to be one: it finds the shortest in most small jobs.
    expect(asShort).toBeGreaterThan(50)
  })

  it('have the chance that adding up the bell curve gives', () => {
    fc.assert(
      fc.property(fc.integer({ min: -400, max: 400 }), (hundredths) => {
        const z = hundredths / 100
        const density = (x: number) => Math.exp(-(x ** 2) / 2) / Math.sqrt(2 * Math.PI)
        const [pieces, from] = [2000, -9]
        const wide = (z - from) / pieces
        let sum = density(from) + density(z)
        for (let piece = 1; piece < pieces; piece++) sum += (piece % 2 === 1 ? 4 : 2) * density(from + piece * wide)
        const { chance } = of(chanceToFinish(rational(100), rational(1), fromNumber(100 + z)))
        expect(toNumber(chance)).toBeCloseTo((sum * wide) / 3, 9)
      }),
      { ...runs, numRuns: 60 },
    )
  })
})

describe('the line through readings', () => {
  it('leaves less square error than any line beside it', () => {
    const points = fc.array(fc.tuple(fc.integer({ min: 0, max: 99 }), fc.integer({ min: -50, max: 50 })), {
      minLength: 3,
      maxLength: 8,
    })
    fc.assert(
      fc.property(points, (pairs) => {
        const line = trendOf(
          pairs.map(([time]) => rational(time)),
          pairs.map(([, reading]) => rational(reading)),
        )
        if (line === null) return
        const error = (slope: number, start: number) =>
          pairs.reduce((sum, [time, reading]) => sum + (reading - start - slope * time) ** 2, 0)
        const [slope, start] = [toNumber(line.slope), toNumber(line.start)]
        for (const [more, up] of [
          [0.01, 0],
          [-0.01, 0],
          [0, 0.01],
          [0, -0.01],
          [0.001, -0.05],
        ] as const)
          expect(error(slope, start)).toBeLessThanOrEqual(error(slope + more, start + up) + 1e-9)
      }),
      runs,
    )
  })
})

describe('alignment', () => {
  /** A shaft that stands `offset` high at the coupling and rises by `slope`, and what dials on it show. */
  const shaft = fc.record({
    offset: fc.integer({ min: -50, max: 50 }),
    slope: fc.integer({ min: -30, max: 30 }),
    front: fc.integer({ min: 100, max: 400 }),
    more: fc.integer({ min: 50, max: 900 }),
  })
  const height = (offset: number, slope: number, distance: number) => offset / 1000 + (slope / 100_000) * distance

  it('by rim and face takes a shaft back into line', () => {
    fc.assert(
      fc.property(shaft, ({ offset, slope, front, more }) => {
        const circle = 120
        // The face of a coupling half stands square to its shaft: its top leans away by slope times radius, its bottom the other way.
        const top = -(slope / 100_000) * (circle / 2)
        const open = top - -top
        const rim = height(offset, slope, 0) - -height(offset, slope, 0)
        const feet = rimAndFace(...([open, rim, circle, front, front + more].map(fromNumber) as Five), false)
        expect(height(offset, slope, front) + toNumber(feet.front)).toBeCloseTo(0, 9)
        expect(height(offset, slope, front + more) + toNumber(feet.rear)).toBeCloseTo(0, 9)
      }),
      runs,
    )
  })

  it('by reverse dials finds where the feet stand', () => {
    fc.assert(
      fc.property(shaft, ({ offset, slope, front, more }) => {
        const apart = 150
        // 0 at the top, stem in positive. A dial on the moved shaft goes round the fixed rim, which lies below it by the offset; one on the
        // fixed shaft goes round the moved rim, which lies above.
        const onFixed = 2 * height(offset, slope, 0)
        const onMoved = -2 * height(offset, slope, apart)
        const found = reverseDials(...([onFixed, onMoved, apart, front, front + more].map(fromNumber) as Five))
        expect(toNumber(found.front)).toBeCloseTo(height(offset, slope, front), 9)
        expect(toNumber(found.rear)).toBeCloseTo(height(offset, slope, front + more), 9)
      }),
      runs,
    )
  })
})

type Five = [Rational, Rational, Rational, Rational, Rational]

describe('a day of noise', () => {
  it('with 3 dB for twice the time is the mean of its energy, but for 3 dB being 3.01', () => {
    const spell = fc.tuple(fc.integer({ min: 80, max: 100 }), fc.integer({ min: 1, max: 4 }))
    fc.assert(
      fc.property(fc.array(spell, { minLength: 1, maxLength: 4 }), (day) => {
        const { steadyLevel } = of(
          noiseDose(
            day.map(([level, hours]) => ({ level: rational(level), hours: rational(hours) })),
            'niosh',
          ),
        )
        const energy = day.reduce((sum, [level, hours]) => sum + hours * 10 ** (level / 10), 0) / 8
        expect(Math.abs(toNumber(steadyLevel ?? rational(0)) - 10 * Math.log10(energy))).toBeLessThan(0.1)
      }),
      runs,
    )
  })
})

describe('a chain drive', () => {
  it('is as long as the way round two circles and their tangents, to a fraction of a link', () => {
    const calculator = calculators.find(({ name }) => name === 'chain-length')
    fc.assert(
      fc.property(
        fc.integer({ min: 17, max: 40 }),
        fc.integer({ min: 0, max: 60 }),
        fc.integer({ min: 40, max: 80 }),
        (small, more, centres) => {
          const given = {
            pitch: '1 in',
            'teeth-one': `${small}`,
            'teeth-two': `${small + more}`,
            centres: `${centres} in`,
          }
          const worked = calculator?.run(new Map(Object.entries(given)))
          if (!worked?.ok) throw new Error('the chain does not fit')
          const pitches = Number(worked.results.find(({ name }) => name === 'pitches')?.value)
          const [r, R] = [small, small + more].map((teeth) => teeth / (2 * Math.PI)) as [number, number]
          const lean = Math.asin((R - r) / centres)
          const round = 2 * centres * Math.cos(lean) + r * (Math.PI - 2 * lean) + R * (Math.PI + 2 * lean)
          expect(Math.abs(pitches - round)).toBeLessThan(0.05)
        },
      ),
      runs,
    )
  })
})
