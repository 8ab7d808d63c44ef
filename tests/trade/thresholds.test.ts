import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compare, multiply, rational } from '../../src/quantities/rational.ts'
import { unitBySymbol } from '../../src/quantities/units.ts'
import type { Answer } from '../../src/trade/answer.ts'
import { toNumber } from '../../src/trade/binary.ts'
import {
  flammableVerdict,
  isConfinedSpace,
  oxygenVerdict,
  toxicVerdict,
} from '../../src/trade/thresholds/confined-space.ts'
import { type FallPlace, fallProtectionNeeded, fallRule } from '../../src/trade/thresholds/fall.ts'
import { fireWatchAfter, fireWatchLongEnough, fireWatchNeeded } from '../../src/trade/thresholds/hot-work.ts'
import { jackInspection, mayWorkUnder } from '../../src/trade/thresholds/jacks.ts'
import { lockoutOrder } from '../../src/trade/thresholds/lockout.ts'
import { allowedHours, type NoiseRuleName, noiseDose, noiseRuleOf } from '../../src/trade/thresholds/noise.ts'
import { follows, ruleSetNames, rulesFor } from '../../src/trade/thresholds/rule.ts'
import { thresholdRules } from '../../src/trade/thresholds/rules.ts'

const seed = { seed: 20260302 }

function of<T>(answered: Answer<T>): T {
  if (!answered.ok) throw new Error(answered.problem.message)
  return answered.value
}

describe('threshold rules', () => {
  it('each have a name of their own, a known unit, a rule set and a source', () => {
    expect(new Set(thresholdRules.map(({ name }) => name)).size).toBe(thresholdRules.length)
    for (const rule of thresholdRules) {
      expect(unitBySymbol(rule.unit)).not.toBeNull()
      expect(ruleSetNames).toContain(rule.set)
      expect(rule.source.length).toBeGreaterThan(10)
    }
  })

  it('change nothing with the unit, at the limit to the last digit', () => {
    const height = fc.integer({ min: 0, max: 40_000 }).map((value) => rational(value, 1000))
    fc.assert(
      fc.property(fc.constantFrom(...thresholdRules.filter(({ unit }) => unit === 'ft')), height, (rule, feet) => {
        const inches = of(follows(rule, multiply(feet, rational(12)), 'in'))
        const metres = of(follows(rule, multiply(feet, rational(3048, 10000)), 'm'))
        expect([inches, metres]).toEqual([of(follows(rule, feet, 'ft')), of(follows(rule, feet, 'ft'))])
      }),
      seed,
    )
    const construction = of(fallRule('construction'))
    expect(of(follows(construction, rational(18288, 10000), 'm'))).toBe(true)
    expect(of(follows(construction, rational(18287, 10000), 'm'))).toBe(false)
    expect(follows(construction, rational(6), 'kg').ok).toBe(false)
  })

  it('keep those that disagree side by side, the strictest first in force', () => {
    const minutes = (set: string | null) => toNumber(of(fireWatchAfter(set)).value)
    expect([minutes('OSHA'), minutes('owner'), minutes('us-fire-code-2018'), minutes(null)]).toEqual([30, 60, 30, 60])
    expect(of(fireWatchLongEnough(rational(45), 'min', null))).toBe(false)
    expect(of(fireWatchLongEnough(rational(45), 'min', 'OSHA'))).toBe(true)
    expect(fireWatchAfter('osah').ok).toBe(false)
    // A set that says nothing of a topic leaves it to the others.
    expect(of(rulesFor(thresholdRules, 'oxygen-low', 'canada-federal')).length).toBe(1)
  })
})

describe('work at height and hot work', () => {
  it('never lets a greater height or a nearer fire go free', () => {
    const tenths = fc.integer({ min: 0, max: 600 }).map((value) => rational(value, 10))
    fc.assert(
      fc.property(tenths, tenths, (a, b) => {
        const [low, high] = compare(a, b) <= 0 ? [a, b] : [b, a]
        if (of(fallProtectionNeeded(low, 'ft', {})).needed)
          expect(of(fallProtectionNeeded(high, 'ft', {})).needed).toBe(true)
        if (of(fireWatchNeeded({ unit: 'ft', distance: high })))
          expect(of(fireWatchNeeded({ unit: 'ft', distance: low }))).toBe(true)
      }),
      seed,
    )
    expect(of(fallProtectionNeeded(rational(1), 'ft', { isOverDangerous: true })).needed).toBe(true)
    const five = (place: FallPlace) => of(fallProtectionNeeded(rational(5), 'ft', place)).needed
    expect([
      five({}),
      five({ set: 'us-osha-construction' }),
      five({ set: 'great-britain' }),
      five({ set: 'nfpa-51b-2019' }),
    ]).toEqual([true, false, true, true])
    expect(five({ kind: 'scaffold', set: 'us-osha-general-industry' })).toBe(false)
    expect(fallProtectionNeeded(rational(-1), 'ft', {}).ok).toBe(false)
    expect(fallRule('scafold').ok).toBe(false)
    expect(fireWatchNeeded({ unit: 'ft', distance: rational(-1) }).ok).toBe(false)
    expect(of(fireWatchNeeded({ unit: 'ft', distance: rational(100), isLitThroughMetal: true }))).toBe(true)
  })
})

describe('confined spaces', () => {
  it('takes the strictest limit unless a rule set is chosen', () => {
    const hazard = (percent: number, set: string | null) => of(oxygenVerdict(rational(percent, 10), set)).isHazardous
    expect([hazard(232, null), hazard(232, 'us-osha-general-industry'), hazard(194, null), hazard(209, null)]).toEqual([
      true,
      false,
      true,
      false,
    ])
    expect(of(toxicVerdict('hydrogen sulfide', rational(12), null)).by.map(({ set }) => set)).toEqual(['us-niosh'])
    expect(of(toxicVerdict('carbon monoxide', rational(36), 'OSHA')).isHazardous).toBe(false)
    for (const wrong of [
      oxygenVerdict(rational(101), null),
      flammableVerdict(rational(-1), null),
      toxicVerdict('helium', rational(1), null),
    ])
      expect(wrong.ok).toBe(false)
  })

  it('needs all three marks of a confined space', () => {
    const marks = { canEnter: true, isRestricted: true, isForContinuousStay: false }
    expect(isConfinedSpace(marks)).toBe(true)
    for (const mark of ['canEnter', 'isRestricted', 'isForContinuousStay'] as const)
      expect(isConfinedSpace({ ...marks, [mark]: !marks[mark] })).toBe(false)
  })
})

describe('noise', () => {
  const rules = ['osha', 'niosh', 'canada'] as const satisfies readonly NoiseRuleName[]

  it('halves the time with each exchange, and NIOSH never allows more than the others', () => {
    fc.assert(
      fc.property(fc.integer({ min: 850, max: 1250 }), (tenths) => {
        const level = rational(tenths, 10)
        const hours = rules.map((rule) => toNumber(of(allowedHours(level, rule))))
        expect(hours[1]).toBe(Math.min(...hours))
        const louder = toNumber(of(allowedHours(rational(tenths + 30, 10), 'niosh')))
        expect((hours[1] ?? 0) / louder).toBeCloseTo(2, 9)
      }),
      seed,
    )
    // 29 CFR 1910.95, table G-16A, from memory.
    const osha = (level: number) => toNumber(of(allowedHours(rational(level), 'osha')))
    expect([80, 85, 90, 95, 100, 105, 110, 115].map(osha)).toEqual([32, 16, 8, 4, 2, 1, 0.5, 0.25])
    expect(of(allowedHours(rational(88)))).toEqual(rational(4))
  })

  it('is chosen by the rule set of the site, the strict one where that has none', () => {
    const chosen = ['us-osha-construction', 'canada-federal', 'great-britain', null] as const
    expect(chosen.map((set) => noiseRuleOf(set))).toEqual(['osha', 'canada', 'niosh', 'niosh'])
  })

  it('adds doses up, and gives the level back for 8 hours of it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 80, max: 120 }), fc.constantFrom(...rules), (level, rule) => {
        const day = of(noiseDose([{ level: rational(level), hours: rational(8) }], rule))
        expect(toNumber(day.steadyLevel ?? rational(0))).toBeCloseTo(level, 8)
        const halves = { level: rational(level), hours: rational(4) }
        expect(toNumber(of(noiseDose([halves, halves], rule)).dose)).toBeCloseTo(toNumber(day.dose), 8)
      }),
      seed,
    )
    expect(of(noiseDose([{ level: rational(90), hours: rational(0) }])).steadyLevel).toBeNull()
    for (const wrong of [
      noiseDose([]),
      noiseDose([{ level: rational(90), hours: rational(25) }]),
      noiseDose([{ level: rational(90), hours: rational(-1) }]),
      allowedHours(rational(141)),
    ])
      expect(wrong.ok).toBe(false)
  })
})

describe('lockout and jacks', () => {
  const right = ['preparation', 'shutdown', 'isolation', 'device application', 'stored energy', 'verification']

  it('lets only the order itself pass, of all ways to lay six steps', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(right, { minLength: 6 }), (steps) => {
        expect(of(lockoutOrder(steps)).isValid).toBe(steps.every((step, index) => step === right[index]))
      }),
      seed,
    )
    expect(of(lockoutOrder(right.slice(0, 5)))).toMatchObject({ isValid: false, missing: ['verification'] })
    expect(lockoutOrder([]).ok).toBe(false)
  })

  it('knows the steps by the words of a procedure', () => {
    const told = [
      'Prepare for shutdown',
      'Tell everyone',
      'Stop the machine',
      'Isolate it',
      'Put locks and tags on',
      'Bleed the accumulator',
      'Try to start it',
    ]
    expect(of(lockoutOrder(told))).toMatchObject({ isValid: true, positions: [1, null, 2, 3, 4, 5, 6] })
    expect(of(lockoutOrder(['Release stored energy', ...told])).isValid).toBe(false)
  })

  it('keeps the local order apart from the national one', () => {
    const local = [...right.slice(0, 3), 'stored energy', 'device application', 'verification']
    expect(of(lockoutOrder(local)).isValid).toBe(false)
    expect(of(lockoutOrder(local, 'local: energy before locks')).isValid).toBe(true)
    expect(of(lockoutOrder(right, 'local: energy before locks')).isValid).toBe(true)
  })

  it('lets nobody under what only moves a load', () => {
    const under = (...supports: readonly string[]) => of(mayWorkUnder(supports))
    expect([under('hydraulic jack'), under('chain block'), under('crane'), under('jack, no stands')]).toEqual([
      false,
      false,
      false,
      false,
    ])
    expect([under('jack stands'), under('jack', 'cribbing'), under('timber blocks'), under('prop')]).toEqual([
      true,
      true,
      true,
      true,
    ])
    expect(mayWorkUnder([]).ok).toBe(false)
    expect(of(jackInspection('sent out to another site'))).toBe('out and return')
    expect(jackInspection('parked').ok).toBe(false)
  })
})
