import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { add, compare, multiply, rational, subtract, zero } from '../../src/quantities/rational.ts'
import type { Answer } from '../../src/trade/answer.ts'
import { toNumber } from '../../src/trade/binary.ts'
import { type CrewedActivity, crewSchedule, crewTotals } from '../../src/trade/schedule/crew.ts'
import {
  chanceToFinish,
  expectedForChance,
  sumOfEstimates,
  threePointEstimate,
} from '../../src/trade/schedule/estimates.ts'
import { type Activity, activitiesOfArrows, circleOf, criticalPath } from '../../src/trade/schedule/network.ts'
import { scheduleCalculators } from '../../src/trade/schedule/schedule-calculators.ts'

const seed = { seed: 20260302 }

function of<T>(answered: Answer<T>): T {
  if (!answered.ok) throw new Error(answered.problem.message)
  return answered.value
}

/** Each waits only for earlier ones: never a circle. */
const networks = fc
  .array(
    fc.tuple(
      fc.integer({ min: 0, max: 9 }),
      fc.array(fc.nat(), { maxLength: 3 }),
      fc.integer({ min: 0, max: 3 }),
      fc.integer({ min: 0, max: 2 }),
    ),
    {
      minLength: 1,
      maxLength: 9,
    },
  )
  .map((rows) =>
    rows.map(
      ([duration, before, people, wait], index): CrewedActivity => ({
        name: `a${index}`,
        duration: rational(duration),
        people,
        after:
          index === 0
            ? []
            : [...new Set(before.map((each) => each % index))].map((each) => ({
                name: `a${each}`,
                wait: rational(wait),
              })),
      }),
    ),
  )

describe('critical path', () => {
  it('starts nothing before what it waits for, and slips nothing on the critical path', () => {
    fc.assert(
      fc.property(networks, (activities) => {
        const { length, critical, times } = of(criticalPath(activities))
        const byName = new Map(times.map((each) => [each.name, each]))
        for (const { name, after } of activities)
          for (const before of after) {
            const ready = add(byName.get(before.name)?.earlyFinish ?? zero, before.wait ?? zero)
            expect(compare(byName.get(name)?.earlyStart ?? zero, ready)).toBeGreaterThanOrEqual(0)
          }
        expect(times.every(({ slack }) => compare(slack, zero) >= 0)).toBe(true)
        expect(critical.length).toBeGreaterThan(0)
        expect(times.some(({ earlyFinish }) => compare(earlyFinish, length) === 0)).toBe(true)
        expect(times.every(({ lateFinish }) => compare(lateFinish, length) <= 0)).toBe(true)
      }),
      seed,
    )
  })

  it('grows by what is added to a critical step, and not within the slack of another', () => {
    fc.assert(
      fc.property(networks, fc.nat(), (activities, pick) => {
        const { length, times } = of(criticalPath(activities))
        const chosen = times[pick % times.length]
        if (!chosen) return
        const longer = activities.map((each) =>
          each.name === chosen.name ? { ...each, duration: add(each.duration, add(chosen.slack, rational(1))) } : each,
        )
        expect(of(criticalPath(longer)).length).toEqual(add(length, rational(1)))
      }),
      seed,
    )
  })

  it('names a circle, a step that is not there, and a name that stands twice', () => {
    const step = (name: string, ...after: string[]): Activity => ({
      name,
      duration: rational(1),
      after: after.map((each) => ({ name: each })),
    })
    const problemOf = (activities: readonly Activity[]) => {
      const path = criticalPath(activities)
      return path.ok ? '' : `${path.problem.message} ${path.problem.advice}`
    }
    expect(problemOf([step('A', 'C'), step('B', 'A'), step('C', 'B')])).toContain('"A", "B", "C"')
    expect(circleOf([step('A'), step('B', 'A', 'D'), step('C', 'B'), step('D', 'C')])).toEqual(['B', 'C', 'D'])
    expect(problemOf([step('jack'), step('wheel', 'jakc')])).toContain('Did you mean "jack"?')
    expect(problemOf([step('A'), step('A')])).toContain('twice')
    expect(problemOf([])).toContain('no activity')
    expect(problemOf([{ ...step('A'), duration: rational(-1) }])).toContain('less than no time')
    expect(activitiesOfArrows([{ name: '12', duration: rational(1) }]).ok).toBe(false)
  })
})

describe('crew', () => {
  it('keeps within the crew, the order and the bounds, whatever the network', () => {
    fc.assert(
      fc.property(networks, fc.integer({ min: 3, max: 5 }), (activities, crew) => {
        const schedule = of(crewSchedule(activities, crew))
        const starts = new Map(schedule.starts.map((each) => [each.name, each]))
        expect(compare(schedule.length, schedule.lengthWithoutLimit)).toBeGreaterThanOrEqual(0)
        expect(compare(multiply(schedule.length, rational(crew)), schedule.personHours)).toBeGreaterThanOrEqual(0)
        for (const { name, after } of activities)
          for (const before of after)
            expect(
              compare(
                starts.get(name)?.start ?? zero,
                add(starts.get(before.name)?.finish ?? zero, before.wait ?? zero),
              ),
            ).toBeGreaterThanOrEqual(0)
        for (const { start } of schedule.starts) {
          const busy = activities.filter(({ name }) => {
            const own = starts.get(name)
            return own && compare(own.start, start) <= 0 && compare(own.finish, start) > 0
          })
          expect(busy.reduce((sum, { people }) => sum + people, 0)).toBeLessThanOrEqual(crew)
        }
        expect(schedule.mostPeople).toBeLessThanOrEqual(crew)
      }),
      seed,
    )
  })

  it('is the critical path where people do not matter', () => {
    fc.assert(
      fc.property(networks, (activities) => {
        expect(of(crewSchedule(activities, 99)).length).toEqual(of(criticalPath(activities)).length)
      }),
      seed,
    )
  })

  it('refuses a step that the crew is too small for, half people and no crew', () => {
    const step = { name: 'lift', duration: rational(1), people: 3, after: [] }
    expect(crewSchedule([step], 2).ok).toBe(false)
    expect(crewSchedule([{ ...step, people: 0.5 }], 2).ok).toBe(false)
    expect(crewSchedule([step], 0).ok).toBe(false)
    expect(crewTotals([]).ok).toBe(false)
    expect(crewTotals([{ time: rational(1), people: -1 }]).ok).toBe(false)
  })
})

describe('estimates', () => {
  const triples = fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 3, maxLength: 3 }).map((values) => {
    const [shortest = 0, likeliest = 0, longest = 0] = values.toSorted((a, b) => a - b)
    return { shortest: rational(shortest), likeliest: rational(likeliest), longest: rational(longest) }
  })

  it('lie between shortest and longest, and add up', () => {
    fc.assert(
      fc.property(triples, triples, (a, b) => {
        const [first, second] = [of(threePointEstimate(a)), of(threePointEstimate(b))]
        expect(compare(first.expected, a.shortest)).toBeGreaterThanOrEqual(0)
        expect(compare(first.expected, a.longest)).toBeLessThanOrEqual(0)
        expect(sumOfEstimates([first, second])).toEqual(sumOfEstimates([second, first]))
      }),
      seed,
    )
    expect(threePointEstimate({ shortest: rational(3), likeliest: rational(2), longest: rational(4) }).ok).toBe(false)
    expect(threePointEstimate({ shortest: rational(-3), likeliest: rational(2), longest: rational(4) }).ok).toBe(false)
  })

  it('give a chance that rises with the target and is one half at the expected time', () => {
    const chance = (target: number) => toNumber(of(chanceToFinish(rational(20), rational(4), rational(target))).chance)
    expect(chance(20)).toBe(0.5)
    fc.assert(
      fc.property(fc.integer({ min: -20, max: 60 }), fc.integer({ min: 0, max: 30 }), (target, more) => {
        expect(chance(target + more)).toBeGreaterThanOrEqual(chance(target))
        expect(chance(target) + chance(40 - target)).toBeCloseTo(1, 12)
      }),
      seed,
    )
    // Standard normal distribution, tables of NIST/SEMATECH e-Handbook 1.3.6.7.1, from memory.
    expect(chance(22)).toBeCloseTo(0.841344746068543, 12)
    expect(chance(14)).toBeCloseTo(0.00134989803163, 12)
    expect(of(chanceToFinish(rational(2), zero, rational(2)))).toEqual({ z: null, chance: rational(1) })
    expect(chanceToFinish(rational(2), rational(-1), rational(2)).ok).toBe(false)
    const expected = of(expectedForChance(rational(30), rational(2), rational(3, 2)))
    expect(subtract(rational(30), expected)).toEqual(rational(3))
  })
})

describe('the calculator', () => {
  const run = (name: string, given: Readonly<Record<string, string>>) =>
    scheduleCalculators.find((each) => each.name === name)?.run(new Map(Object.entries(given)))

  it('lays out a job with waits, work side by side and a small crew', () => {
    const job = {
      steps: 'jack; wheel; paint; fit',
      times: '1 h; 2 h; 60 min; 2 h',
      after: '-; jack; jack; wheel + paint: 4 h',
    }
    const wide = run('job-schedule', job)
    expect(wide?.ok && wide.results.map(({ name, value }) => [name, value])).toEqual([
      ['length', '8'],
      ['critical', 'jack, paint, fit'],
      ['slack', 'jack 0; wheel 3; paint 0; fit 0'],
    ])
    const small = run('job-schedule', { ...job, people: '2; 2; 1; 2', crew: '2' })
    expect(small?.ok && small.results.find(({ name }) => name === 'person-hours')?.value).toBe('11')
    const wrong = run('job-schedule', { ...job, after: '-; jack; jack; wheel + paint: 4 kg' })
    expect(wrong?.ok).toBe(false)
  })
})
