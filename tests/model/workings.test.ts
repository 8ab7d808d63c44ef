import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { WorkingSheet } from '../../src/wording/working-text.ts'
import { stepFileOf } from '../compile-text.ts'

/** What a torque comes to, from the text of a procedure to its step file. */
function workingsOf(torque: string): readonly WorkingSheet[] {
  const file = stepFileOf(
    [
      '```yaml\ntools: { tw: { name: torque wrench, range: 1 to 2 000 N·m } }\n```\n',
      '## Fit {#fit}\n',
      '1. Tighten the joint.',
      `   \`\`\`yaml\n   torque: { joint: ${torque.startsWith('{') ? torque : JSON.stringify(torque)} }\n   \`\`\`\n`,
    ].join('\n'),
  )
  return file.phases.flatMap((phase) => phase.steps.flatMap((step) => step.workings))
}

function figuresOf(torque: string): Readonly<Record<string, string>> {
  const figures = workingsOf(torque).flatMap((working) => working.figures)
  return Object.fromEntries(figures.map(({ name, value, unit }) => [name, `${value} ${unit}`.trim()]))
}

interface PublishedCase {
  readonly id: string
  readonly inputs: Readonly<Record<string, { readonly value: number; readonly unit: string }>>
  readonly expected: Readonly<Record<string, { readonly value: number; readonly tol: number }>>
  readonly source: { readonly title: string }
}

const published = (JSON.parse(readFileSync('tests/values/fasteners.json', 'utf8')) as { cases: PublishedCase[] }).cases
const like = (pattern: RegExp) =>
  published.filter(({ id }) => pattern.test(id)).map((one) => ({ ...one, title: one.source.title }))

describe('the torque of a joint', () => {
  // ISO metric thread proof loads, reproducing EN ISO 898-1: 3 figures in the standard.
  it.each(like(/^fasteners\.proof_M/))('has the proof load of $id ($title)', ({ id, expected }) => {
    const [, size, grade] = /proof_(M\d+)_([\d.]+)$/.exec(id) ?? []
    const load = Number.parseFloat(figuresOf(`1 to 2 N·m, 1 × ${size} ${grade}, dry, with tw`)['proof-load'] ?? '')
    const { value, tol } = expected.Fp ?? { value: Number.NaN, tol: 0 }
    expect(Math.abs(load * 1000 - value)).toBeLessThanOrEqual(tol)
  })

  // A table of torque against clamp load for SAE J429 bolts: 1/2-13 grade 5 at 75 % of proof, 9046 lbf.
  it.each([
    ['dry', '0p2'],
    ['oiled', '0p15'],
    ['zinc, dry', '0p18'],
  ])('is the usual one of the table for a thread that is %s', (thread, row) => {
    const expected = published.find(({ id }) => id === `fasteners.TKDF_0p5_9046_${row}`)?.expected.T
    const usual = figuresOf(`40 to 50 lbf·ft, 4 × 1/2-13 grade 5, ${thread}, with tw`)['torque-usual'] ?? ''
    expect(usual).toMatch(/ lbf·ft$/)
    expect(Math.abs(Number.parseFloat(usual) - (expected?.value ?? Number.NaN))).toBeLessThanOrEqual(expected?.tol ?? 0)
  })

  it('tells clamp and shares, and with the scatter of NASA-STD-5020B (25 % lubricated) what may become of it', () => {
    // By hand: As = π/4 · (16 − 0.9382 · 2)² = 156.7 mm²; 830 MPa · As = 130.0 kN; 245 N·m / (0.15 · 16 mm) = 102.1 kN.
    expect(figuresOf('215 to 245 N·m, 12 × M16 10.9, oiled, with tw')).toEqual({
      'proof-load': '130 kN',
      'torque-usual': '234 N·m',
      'torque-at-proof': '312 N·m',
      'preload-low': '89.6 kN',
      'preload-high': '102 kN',
      'share-low': '69 %',
      'share-high': '79 %',
      'preload-least': '67.1 kN',
      'preload-most': '128 kN',
      'clamp-in-all': '1150 kN',
    })
  })

  it.each([
    ['no grade', '80 to 90 N·m, 4 × M12, dry'],
    ['a grade that the standards do not have', '80 to 90 N·m, 4 × M12 A4-70, dry'],
    [
      'an inch size without its threads',
      '{ limit: 80 to 90 N·m, fastener: { count: 4, size: 1/2, grade: grade 8 }, lubrication: dry',
    ],
    ['a paste, which turns as its maker says', '80 to 90 N·m, 4 × M12 8.8, anti-seize'],
    ['stainless threads, which gall', '80 to 90 N·m, 4 × M12 8.8, stainless, dry'],
    ['nothing said of the thread', '80 to 90 N·m, 4 × M12 8.8'],
    ['an angle, which makes the preload', '40 N·m ± 5 %, 4 × M12 8.8, oiled, then-angle 60°'],
  ])('is claimed nothing of with %s', (_, torque) => {
    expect(workingsOf(torque.startsWith('{') ? `${torque}, with: tw }` : `${torque}, with tw`)).toEqual([])
  })

  it('says it in words, with the numbers put in, a source and a caution', () => {
    expect(workingsOf('70 to 80 lbf·ft, 4 × 1/2-13 grade 5, dry, cross, passes 30 70 100 %, with tw')).toMatchSnapshot()
  })
})

describe('order and rounds', () => {
  // Common practice, no published source: each bolt opposite the one before it.
  it.each([
    ['4 × M20 8.8, cross', '1, 3, 2, 4'],
    ['8 × M20 8.8, star', '1, 5, 3, 7, 2, 6, 4, 8'],
    ['3 × M20 8.8, circle', '1, 2, 3'],
    ['6 × M5 8.8, star', '1, 4, 2, 5, 3, 6'],
  ])('of %s', (joint, order) => expect(figuresOf(`80 to 90 N·m, ${joint}, with tw`).order).toBe(order))

  it('of screws whose size nobody knows', () => {
    const screws = '{ limit: 80 to 90 N·m, fastener: { count: 5, size: rod screw }, pattern: star, with: tw }'
    expect(figuresOf(screws).order).toBe('1, 3, 5, 2, 4')
  })

  it.each(['drawn order', 'line', 'spiral'])('is left to the drawing or the maker for %s', (pattern) => {
    expect(figuresOf(`80 to 90 N·m, 12 × M20 8.8, ${pattern}, with tw`)).not.toHaveProperty('order')
  })

  it('are shares of the aim, else of the middle', () => {
    expect(figuresOf('80 to 100 N·m aim 85 N·m, 4 × M12, passes 40 100 %, with tw')).toEqual({ 'round-1': '34 N·m' })
    expect(figuresOf('80 to 100 N·m, 4 × M12, passes 30 50 100 %, with tw')).toEqual({
      'round-1': '27 N·m',
      'round-2': '45 N·m',
    })
  })
})

describe('the setting of the wrench', () => {
  it.each(like(/^fasteners\.ext_(?!tm9254|r66_short)/))('follows $id ($title)', ({ inputs, expected }) => {
    const of = (name: string) => `${inputs[name]?.value} ${inputs[name]?.unit.replace('.', '·')}`
    const figures = figuresOf(`${of('T')} ± 0.001 %, extension ${of('A')}, wrench-length ${of('L')}, with tw`)
    const { value, tol } = expected.setting ?? { value: Number.NaN, tol: 0 }
    expect(Math.abs(Number.parseFloat(figures['setting-low'] ?? '') - value)).toBeLessThanOrEqual(tol + value * 1e-3)
  })

  it.each([
    // By hand: 450 / (450 + 150 · cos 60°) = 6/7, rounded inward.
    ['extension-angle 60°, wrench-length 450 mm', '94.29 N·m', '111.4 N·m'],
    // At a right angle nothing changes, whatever the wrench.
    ['extension-angle 90°', '110 N·m', '130 N·m'],
    ['extension-angle 90°, wrench-length 450 mm', '110 N·m', '130 N·m'],
    ['wrench-length 450 mm', '82.5 N·m', '97.5 N·m'],
  ])('with 150 mm and %s', (said, low, high) => {
    const figures = figuresOf(`110 to 130 N·m, extension 150 mm, ${said}, with tw`)
    expect([figures['setting-low'], figures['setting-high']]).toEqual([low, high])
  })

  // MSFC-STD-486B, A3.8: the measured running torque is added (420 and 40 lbf·in give 460).
  it('has the running torque on top', () => {
    expect(figuresOf('420 lbf·in ± 1 lbf·in, added-to 40 lbf·in, with tw')['setting-low']).toBe('459 lbf·in')
  })

  it('is a sum for the bench where the running torque is a reading', () => {
    const [setting] = workingsOf('110 to 130 N·m, added-to running-torque, with tw')
    expect(setting?.says).toBe(
      'Add what was read as running torque: turn until running torque and 110 to 130 N·m (81.5 to 95.5 lbf·ft) together are reached.',
    )
  })

  it('is not given where the length of the wrench is missing', () => {
    expect(figuresOf('110 to 130 N·m, extension 150 mm, with tw')).toEqual({})
  })
})

it('adds the angles of further turning', () => {
  const torque = '40 N·m ± 5 %, oiled, then-angle 45° 45° 45° 30°, sum 165° ± 5°, with tw'
  expect(figuresOf(torque)).toEqual({ 'angle-sum': '165 °' })
  expect(workingsOf(torque)[0]?.says).toBe('Turned on by 165° in all, stated as 165° ± 5°.')
})

it('tells the variants of one torque apart', () => {
  const file = stepFileOf(
    '```yaml\ntools: { tw: { name: torque wrench, range: 1 to 2 000 N·m } }\n```\n\n## Fit {#fit}\n\n1. Tighten the joint.\n   ```yaml\n   torque: { joint: { limits: { a: 80 to 90 N·m, b: 90 to 100 N·m }, fastener: 4 × M12 10.9, lubrication: oiled, with: tw } }\n   ```\n',
    {},
    'variants: { size: [a, b] }\n',
  )
  expect(file.phases[0]?.steps[0]?.workings.map(({ says }) => says.slice(0, 7))).toEqual(['For a: ', 'For b: '])
})
