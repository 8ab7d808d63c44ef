import { describe, expect, it } from 'vitest'
import { compileText } from '../compile-text.ts'
import { figuresOf, loadText, workingsOf } from './loads-text.ts'

const CRANE = 'crane: { name: bay crane, capacity: 60 000 lb }'

/** The figures of one lift, `load` in its short or long form. */
const lifted = (load: string, gear = CRANE) => figuresOf(workingsOf(gear, `lift: { motor: ${load} }`)[0])
const found = (load: string, gear = CRANE) =>
  compileText(loadText(gear, `lift: { motor: ${load} }`)).findings.map(({ name }) => name)

describe('pull in the legs, against published cases', () => {
  // Tables of sling factors: 1 000 lb on two legs pull 577, 707 and 1 000 lb at 60°, 45° and 30° from horizontal.
  it.each([
    ['60°', 577.4],
    ['45°', 707.1],
    ['30°', 1000],
  ])('1 000 lb on two legs at %s from horizontal', (angle, pull) => {
    const figures = lifted(`"1 000 lb ± 0 %, legs 2, angle ${angle} from horizontal, with crane"`)
    expect(Number.parseFloat(figures['leg-tension'] ?? '')).toBeCloseTo(pull, 0)
  })

  // University crane and rigging safety text: effective mass 1 154 lb at 30° and 2 000 lb at 60° from vertical.
  it.each([
    ['30° from vertical', 1154.7],
    ['60° between legs', 1154.7],
    ['60° from vertical', 2000],
  ])('2 000 lb on two legs at %s', (angle, pull) => {
    const figures = lifted(`"2 000 lb ± 0 %, legs 2, angle ${angle}, with crane"`)
    expect(Number.parseFloat(figures['leg-tension'] ?? '')).toBeCloseTo(pull, -1)
  })

  // Provincial crane-safety study quiz with answers: slings 16 ft, hook 12 ft above the load, 15 000 lb; shackle 13 000 lb is enough.
  it('slings of 16 ft under a hook 12 ft up, with the weakest item named', () => {
    const gear = `${CRANE}\nshackles: { name: bow shackle, quantity: 2, capacity: 13 000 lb }`
    const load =
      '{ load: 15 000 lb ± 0 %, legs: 2, leg-length: 16 ft, height: 12 ft, hook-points: 21 ft, with: [crane, shackles] }'
    expect(lifted(load, gear)).toMatchObject({
      'leg-tension': '10000 lb',
      'use:crane': '25 %',
      'use:shackles': '76.93 %',
      weakest: 'shackles',
    })
  })

  // NAVEDTRA 14251 (Steelworker), p. 6-36: of four legs on a stiff load two may carry all of it.
  it('four legs count as two', () => {
    expect(lifted('"10 000 lb ± 0 %, legs 4, angle 60° from horizontal, with crane"')['leg-tension']).toBe('5774 lb')
  })

  // University virtual-maritime training pages: 10 000 lb, D1 2 ft, D2 8 ft, H 6 ft: 8 432.7 and 3 333.3 lb, 36.87° the flatter leg.
  it('weight off the middle', () => {
    const load =
      '{ load: 10 000 lb ± 0 %, legs: 2, height: 6 ft, hook-points: 10 ft, centre-of-gravity: 3 ft towards the fan, with: [crane] }'
    const figures = lifted(load)
    expect(Number.parseFloat(figures['near-leg-tension'] ?? '')).toBeCloseTo(8432.7, -1)
    expect(Number.parseFloat(figures['far-leg-tension'] ?? '')).toBeCloseTo(3333.3, -1)
    expect(Number.parseFloat(figures['leg-angle'] ?? '')).toBeCloseTo(36.87, 1)
  })

  // The same quiz: a choker holds 75 % of the straight pull, 9 900 lb become 7 425 lb.
  it('a choked sling', () => {
    const gear = `${CRANE}\nstrop: { name: round sling, capacity: 9 900 lb }`
    expect(lifted('"7 425 lb ± 0 %, hitch choke, with crane strop"', gear)['use:strop']).toBe('100 %')
  })

  // Load table of a supplier: a shouldered eyebolt keeps 65 % at 30° from its axis; 1 550 lb become 1 007.5 lb.
  it('a shouldered eyebolt pulled at an angle', () => {
    const gear = `${CRANE}\neyes: { name: shouldered eyebolt, capacity: 1 550 lb }`
    const figures = lifted('"1 745 lb ± 0 %, legs 2, angle 60° from horizontal, with crane eyes"', gear)
    // 1 745/(2 sin 60°) = 1 007.5 lb.
    expect(Number.parseFloat(figures['use:eyes'] ?? '')).toBeCloseTo(100, 0)
  })

  it('the most that it may weigh, with jerk, is what counts', () => {
    expect(lifted('{ load: 2 t ± 10 %, shock: 25, with: [crane] }').load).toBe('2.75 t')
    expect(lifted('{ load: 1 900 to 2 200 kg, with: [crane] }').load).toBe('2200 kg')
    // 10 kN press as hard as 1 019.7 kg.
    expect(lifted('{ load: max 10 kN, with: [crane] }').load).toBe('1019.8 kg')
  })
})

describe('what a lift is told off for', () => {
  const sling = (capacity: string) => `${CRANE}\ntwo-leg: { name: two-leg chain sling, capacity: ${capacity} }`
  const legs = (angle: string) => `"650 kg ± 10 %, legs 2, angle ${angle}, with crane two-leg"`

  it('tells too little from just enough and from enough', () => {
    expect(found(legs('60° from horizontal'), sling('714 kg'))).toContain('lifting/over-capacity')
    expect(found(legs('60° from horizontal'), sling('715 kg'))).toContain('lifting/nothing-in-hand')
    const fine = found(legs('60° from horizontal'), sling('716 kg'))
    expect(fine).not.toContain('lifting/over-capacity')
    expect(fine).not.toContain('lifting/nothing-in-hand')
  })

  it('allows 30° itself, and is silent from 45° up', () => {
    expect(found(legs('29.9° from horizontal'), sling('4 t'))).toContain('lifting/legs-too-flat')
    expect(found(legs('30° from horizontal'), sling('4 t'))).not.toContain('lifting/legs-too-flat')
    expect(found(legs('44.9° from horizontal'), sling('4 t'))).toContain('lifting/legs-flat')
    expect(found(legs('45° from horizontal'), sling('4 t'))).not.toContain('lifting/legs-flat')
  })

  it('never takes one base of an angle for another', () => {
    expect(found(legs('60°'), sling('4 t'))).toContain('lifting/angle-base-missing')
    const open = workingsOf(sling('4 t'), 'lift: { motor: "650 kg ± 10 %, with crane two-leg" }')
    expect(figuresOf(open[0])['leg-tension']).toBeUndefined()
  })

  it('finds lengths that contradict the angle', () => {
    const load = (angle: string) =>
      `{ load: 650 kg ± 10 %, legs: 2, angle: ${angle} from horizontal, leg-length: 2 m, hook-points: 2 m, with: [crane, two-leg] }`
    expect(found(load('60°'), sling('4 t'))).not.toContain('lifting/legs-misfit')
    expect(found(load('45°'), sling('4 t'))).toContain('lifting/legs-misfit')
  })
})

it('says all of it in words that can be followed with a pencil', () => {
  const gear = `crane: { name: bay crane, capacity: 5 t }
two-leg: { name: two-leg chain sling, capacity: 2 t }
shackle: { name: bow shackle, quantity: 2, capacity: 1 t }`
  const [working] = workingsOf(
    gear,
    'lift: { hub: "640 kg ± 10 %, legs 2, angle 60° from horizontal, with crane two-leg shackle, tag-lines 1" }',
  )
  expect(working?.says).toMatchInlineSnapshot(
    `"Reckon with 704 kg. Each of 2 legs pulls 407 kg at 60° from horizontal. Weakest: bow shackle, used to 40.7 % of its capacity."`,
  )
  expect(working?.lines).toMatchInlineSnapshot(`
    [
      "Weight 640 kg ± 10 %: at most 704 kg",
      "Legs at 60° from horizontal: a = 60°",
      "T = 704 kg/(2 × 0.866) = 406.5 kg",
      "bay crane: takes the whole load: 704 kg of 5 t = 14.1 %",
      "two-leg chain sling: the angle on its tag is not told; taken as 60° or flatter",
      "two-leg chain sling: takes the whole load: 704 kg of 2 t = 35.2 %",
      "bow shackle: one in each leg: 406.5 kg of 1 t = 40.7 %",
    ]
  `)
})

describe('a sling whose tag is for another angle', () => {
  const sling = (more = '') => `${CRANE}\ntwo-leg: { name: two-leg chain sling, capacity: 20 800 lb${more} }`
  const load = (angle: string) => `"10 000 lb ± 0 %, legs 2, angle ${angle}, with crane two-leg"`

  // Chain sling table of a maker, grade 80, 1/2 in, double: 20 800 lb at 60°, 17 000 lb at 45° and 12 000 lb at 30° from horizontal.
  it.each([
    ['45° from horizontal', 17_000],
    ['30° from horizontal', 12_000],
    ['60° from vertical', 12_000],
    ['90° between legs', 17_000],
    ['60° from horizontal', 20_800],
    ['75° from horizontal', 20_800],
  ])('may lift what the table gives at %s', (angle, capacity) => {
    const used = lifted(load(angle), sling(', rated-at: 60° from horizontal'))['use:two-leg'] ?? ''
    expect(10_000 / (Number.parseFloat(used) / 100) / capacity).toBeCloseTo(1, 2)
  })

  it('shows the tag, both sines and what is left', () => {
    const [working] = workingsOf(
      sling(', rated-at: 30° from vertical'),
      `lift: { motor: ${load('45° from horizontal')} }`,
    )
    expect(working?.formula).toContain('rating at angle a = tag × sin a/sin a₀')
    expect(working?.lines.at(-2)?.replace(/\s/g, ' ')).toBe(
      'two-leg chain sling: tag 20 800 lb at a₀ = 60°, legs at a = 45°: 20 800 lb × 0.7071/0.866 = 16 980 lb',
    )
  })

  it('says what is missing where nobody told the angle, and asks for it where the legs are flat', () => {
    const [working] = workingsOf(sling(), `lift: { motor: ${load('45° from horizontal')} }`)
    expect(working?.says).toContain('Missing: the angle on the tag of the two-leg chain sling')
    expect(found(load('45° from horizontal'), sling())).toContain('lifting/tag-angle-missing')
    expect(found(load('45° from horizontal'), sling(', rated-at: 60°'))).toContain('lifting/tag-angle-missing')
    expect(found(load('60° from horizontal'), sling())).not.toContain('lifting/tag-angle-missing')
    expect(found(load('45° from horizontal'), sling(', rated-at: 60° from horizontal'))).not.toContain(
      'lifting/tag-angle-missing',
    )
  })

  it('is too weak where the table says so, and not before', () => {
    const heavy = (weight: string) => `"${weight} ± 0 %, legs 2, angle 30° from horizontal, with crane two-leg"`
    const gear = sling(', rated-at: 60° from horizontal')
    expect(found(heavy('12 000 lb'), gear)).not.toContain('lifting/over-capacity')
    expect(found(heavy('12 020 lb'), gear)).toContain('lifting/over-capacity')
  })
})

describe('lengths in place of an angle', () => {
  it.each([
    'leg-length: 16 ft, height: 12 ft',
    'leg-length: 16 ft, hook-points: 21.166 ft',
    'height: 12 ft, hook-points: 21.166 ft',
  ])('%s settle two legs', (lengths) => {
    const load = `{ load: 15 000 lb ± 0 %, legs: 2, ${lengths}, with: [crane] }`
    expect(found(load)).not.toContain('lifting/data-incomplete')
    expect(Number.parseFloat(lifted(load)['leg-tension'] ?? '')).toBeCloseTo(10_000, -2)
  })
})

describe('heat and wear', () => {
  // Alloy chain sling temperature table of a sling maker: 500 °F (260 °C) takes 15 % of grade 80 and 25 % of grade 100.
  it.each([
    ['alloy chain sling', '260 °C', '50 %'],
    ['alloy chain sling grade 100', '500 °F', '56.67 %'],
    ['alloy chain sling', '150 °C', '42.5 %'],
  ])('%s at %s', (name, temperature, used) => {
    const gear = `${CRANE}\nsling: { name: ${name}, capacity: 2 000 kg }`
    expect(lifted(`"850 kg ± 0 %, with crane sling, temperature ${temperature}"`, gear)['use:sling']).toBe(used)
  })

  // 29 CFR 1910.184(h), from memory: webbing to 180 °F, which is 82.2 °C.
  it.each([
    ['flat web sling', '82 °C', false],
    ['flat web sling', '83 °C', true],
    ['wire rope sling', '94 °C', true],
    ['wire rope sling with wire core', '200 °C', false],
    ['alloy chain sling', '540 °C', true],
  ])('%s at %s', (name, temperature, isTooHot) => {
    const gear = `${CRANE}\nsling: { name: ${name}, capacity: 2 000 kg }`
    const names = found(`"850 kg ± 0 %, with crane sling, temperature ${temperature}"`, gear)
    expect(names.includes('lifting/too-hot')).toBe(isTooHot)
  })

  // EN 818-6, from memory: a tenth of the thickness.
  it.each([
    ['9 mm', false],
    ['8.9 mm', true],
    ['10.5 mm', true],
  ])('a link of 10 mm worn to %s', (worn, isOut) => {
    const gear = `${CRANE}\nsling: { name: chain sling, capacity: 2 000 kg, link: 10 mm, worn: ${worn} }`
    expect(found('"850 kg ± 0 %, with crane sling"', gear).includes('lifting/chain-worn-out')).toBe(isOut)
  })
})
