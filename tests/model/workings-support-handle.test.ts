import { describe, expect, it } from 'vitest'
import { compileText } from '../compile-text.ts'
import { figuresOf, loadText, workingsOf } from './loads-text.ts'

const STANDS = 'stand-a: { name: stand, capacity: 25 t }\nstand-b: { name: stand, capacity: 15 t }'
const found = (gear: string, block: string) => compileText(loadText(gear, block)).findings.map(({ name }) => name)

describe('supports', () => {
  it('gives each its share of the most that it may weigh', () => {
    const [working] = workingsOf(STANDS, 'support: { axle: "28 t ± 10 %, on stand-a stand-b, share 55 45 %" }')
    // 28 t × 1.1 = 30.8 t; 55 % of it 16.94 t, 45 % of it 13.86 t.
    expect(figuresOf(working)).toEqual({
      'share:stand-a': '16.94 t',
      'use:stand-a': '67.76 %',
      'share:stand-b': '13.86 t',
      'use:stand-b': '92.4 %',
    })
    expect(working?.says).toMatchInlineSnapshot(
      `"Stand a carries 16.94 t, 67.8 % of its capacity. Stand b carries 13.86 t, 92.4 % of its capacity."`,
    )
  })

  // Statics: 0.9 m from the middle to the side and 2.1 m up give atan(0.9/2.1) = 23.2°, and a push of 28 t × 0.9/2.1 = 12 t.
  it('says how near to tipping it is', () => {
    const [working] = workingsOf(
      STANDS,
      'support: { axle: "28 t ± 10 %, on stand-a stand-b, share 55 45 %, spread 1.8 m, height 2.1 m" }',
    )
    expect(figuresOf(working)).toMatchObject({ 'tipping-angle': '23.1 °', 'tipping-push': '12 t' })
  })

  it('takes even shares where none are told, and says so', () => {
    const [working] = workingsOf(STANDS, 'support: { axle: "20 t ± 10 %, on stand-a stand-b" }')
    expect(figuresOf(working)['share:stand-b']).toBe('11 t')
    expect(working?.says).toContain('No shares are given')
  })

  it('tells a share over the capacity, and shares that are off', () => {
    const on = (share: string) => `support: { axle: "28 t ± 10 %, on stand-a stand-b, share ${share} %" }`
    expect(found(STANDS, on('50 50'))).toContain('support/over-capacity')
    expect(found(STANDS, on('55 45'))).not.toContain('support/over-capacity')
    expect(found(STANDS, on('55 35'))).toContain('support/shares-off')
    expect(found(STANDS, on('55'))).toContain('support/shares-off')
    const three = `${STANDS}\nstand-c: { name: stand, capacity: 25 t }`
    const thirds = 'support: { axle: "28 t ± 10 %, on stand-a stand-b stand-c, share 33 33 33 %" }'
    expect(found(three, thirds)).not.toContain('support/shares-off')
  })
})

describe('lifting by hand', () => {
  const handled = (load: string) => figuresOf(workingsOf(STANDS, `handle: { cover: "${load}" }`)[0])

  // Formulas of the Applications Manual (NIOSH 94-110), 1.3: 51 × 10/12 × .85 × .88 × .856 × .88 × .95 = 22.75 lb; 40 lb give 1.758.
  it('follows the manual, inch form', () => {
    const figures = handled(
      '40 lb, by 1, reach 12 in, from-height 10 in, to-height 40 in, turn 45°, grip fair, rate 3/min, for 1 h',
    )
    expect(Number.parseFloat(figures['recommended-weight'] ?? '')).toBeCloseTo(22.75, 1)
    expect(figures['lifting-index']).toBe('1.76')
    expect(figures.FM).toBe('0.88')
  })

  // The same manual, example 1 (loading punch press stock), from memory: at the destination 14.5 lb with rounded multipliers, 44 lb give 3.0.
  it('takes the harder end', () => {
    const figures = handled('44 lb, by 1, reach 23 in, from-height 15 in, to-height 64 in, turn 0°, grip fair, for 1 h')
    expect(Math.abs(Number.parseFloat(figures['recommended-weight'] ?? '') - 14.5)).toBeLessThan(0.5)
  })

  // The same manual, 1.3: under the best conditions one person may lift 23 kg.
  it('reaches the load constant under the best conditions', () => {
    expect(handled('23 kg, by 1, reach 25 cm, from-height 75 cm, to-height 75 cm, grip good')['lifting-index']).toBe(
      '1',
    )
  })

  // HSE L23, from memory: two may lift two thirds of what both may lift alone, three half.
  it('finds how many people are needed', () => {
    const figures = handled('30 kg, by 2, reach 25 cm, from-height 75 cm, to-height 75 cm, grip good')
    expect(figures['team-limit']).toBe('30.66 kg')
    expect(figures['people-needed']).toBe('2')
    expect(figures['lifting-index']).toBe('0.979')
  })

  it('says nothing that it does not know', () => {
    expect(workingsOf(STANDS, 'handle: { caliper: "38 kg, by 2" }')).toEqual([])
    expect(found(STANDS, 'handle: { caliper: "38 kg, by 2" }')).not.toContain('handling/heavy')
    expect(found(STANDS, 'handle: { caliper: "38 kg, by 1" }')).toContain('handling/heavy')
    expect(found(STANDS, 'handle: { caliper: "80 kg, by 1" }')).toContain('handling/too-heavy')
  })
})

describe('what is built without a stamp', () => {
  const GEAR = 'one: { name: timber post }\ntwo: { name: timber post }'
  const used = (built: string, load = '2 t') =>
    figuresOf(workingsOf(GEAR, `support: { frame: { load: ${load} ± 0 %, on: [one, two], ${built} } }`)[0])['use:one']

  // By hand: 2² × (150 mm)² × 3.4 MPa = 306 kN, as much as 31 203 kg press; 1 000 kg of it.
  it('a crib', () => {
    expect(used('crib: "timbers 2, timber 150 mm, base 900 mm, height 1.2 m, strength 3.4 MPa"')).toBe('3.205 %')
  })

  // By hand: 2 × 230 mm × (63 mm)² × 8 MPa/(3 × 1.2 m) = 4 057 N, 413.7 kg for 300 kg; the sag is 2.1 mm of 20 mm.
  it('a plank, by bending', () => {
    expect(
      Number.parseFloat(
        used('plank: "span 1.2 m, width 230 mm, thickness 63 mm, strength 8 MPa, stiffness 9 GPa"', '600 kg') ?? '',
      ),
    ).toBeCloseTo(72.5, 0)
  })

  // By hand: I = π/64 (89⁴ − 79⁴) mm⁴ = 1.168 × 10⁶ mm⁴; π² × 210 GPa × I/(2.4 m)² = 420 kN; crushing 235 MPa × 1 319 mm² = 310 kN; over 3.
  it('a prop, by what fails first', () => {
    expect(
      Number.parseFloat(
        used('prop: "outside 89 mm, inside 79 mm, length 2.4 m, strength 235 MPa, stiffness 210 GPa"') ?? '',
      ),
    ).toBeCloseTo(9.49, 1)
  })
})
