import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fitText } from './fitting.ts'

// One line typed, and the long form that it stands for.
const expansions: readonly (readonly [typed: string, long: unknown])[] = [
  // One value where a list is wanted; several parted by blanks, commas or `and`.
  ['by: fitter', ['fitter']],
  ['by: fitter and second', ['fitter', 'second']],
  ['by: fitter, second', ['fitter', 'second']],
  ['where: out', { everyone: ['out'] }],
  ['where: [under-belt, cab]', { everyone: ['under-belt', 'cab'] }],
  ['where: { fitter: under-belt, driver: cab }', { fitter: ['under-belt'], driver: ['cab'] }],
  ['clear: under-axle', { zones: ['under-axle'] }],
  ['needs: { axle: [on-tyres, on-stands], power: isolated }', { axle: ['on-tyres', 'on-stands'], power: ['isolated'] }],
  ['hazards: [rim-bursts, frozen-steel]', { 'rim-bursts': {}, 'frozen-steel': {} }],
  ['hazards: rim-bursts', { 'rim-bursts': {} }],
  ['ppe: hard hat, safety glasses', { 'hard hat': {}, 'safety glasses': {} }],
  ['spoils: end-play roll', ['end-play', 'roll']],
  // Counted things.
  ['removes: [24 × wheel-nut, clamps]', [{ count: '24', thing: 'wheel-nut' }, { thing: 'clamps' }]],
  ['removes: 24 x wheel-nut', [{ count: '24', thing: 'wheel-nut' }]],
  [
    'removes: 24x wheel-nut, 3 * clamp',
    [
      { count: '24', thing: 'wheel-nut' },
      { count: '3', thing: 'clamp' },
    ],
  ],
  ['fits: [studs-bad × wheel-stud]', [{ count: 'studs-bad', thing: 'wheel-stud' }]],
  ['removes: exhaust-box', [{ thing: 'exhaust-box' }]],
  // Readings.
  ['measure: { a: "max 0.5 MPa, with pressure-gauge" }', { a: { limit: 'max 0.5 MPa', with: 'pressure-gauge' } }],
  ['measure: { a: "mm, at left right" }', { a: { unit: 'mm', at: ['left', 'right'] } }],
  ['measure: { a: m³/h }', { a: { unit: 'm³/h' } }],
  ['measure: { a: ?? }', { a: { limit: '??' } }],
  [
    'measure: { a: "600 kPa ± 25 kPa, given cold, only m22 m24, as left" }',
    { a: { limit: '600 kPa ± 25 kPa', given: 'cold', only: { values: ['m22', 'm24'] }, as: 'left' } },
  ],
  [
    'measure: { a: "90 to 110 %, aim 100 %, of mean(b, c), when d > 2 mm" }',
    { a: { limit: '90 to 110 %, aim 100 %', of: 'mean(b, c)', when: 'd > 2 mm' } },
  ],
  ['measure: { a: "-0.05 to 0.05 mm" }', { a: { limit: '-0.05 to 0.05 mm' } }],
  ['measure: { a: "0.011 in (0.28 mm), at top" }', { a: { limit: '0.011 in (0.28 mm)', at: ['top'] } }],
  ['measure: { a: first(b) ± 5 % }', { a: { limit: 'first(b) ± 5 %' } }],
  ['measure: { a: "(=gap), with feeler-set" }', { a: { limit: '(=gap)', with: 'feeler-set' } }],
  [
    'derive: { a: "max(b, c) - min(b), max 0.02 mm" }',
    { a: { expression: 'max(b, c) - min(b)', limit: 'max 0.02 mm' } },
  ],
  ['derive: { a: "mean(b), mm, as left" }', { a: { expression: 'mean(b)', unit: 'mm', as: 'left' } }],
  ['derive: { a: abs(b.left - b.right) }', { a: { expression: 'abs(b.left - b.right)' } }],
  ['count: shims', { shims: {} }],
  ['count: { studs-bad: "max 0, of 24" }', { 'studs-bad': { limit: 'max 0', of: '24' } }],
  [
    'check: { dead: "The motor, the belt and the pulley stay still." }',
    { dead: { asks: 'The motor, the belt and the pulley stay still.' } },
  ],
  [
    'check: { look: { pass: fine paste, fail: [slivers, chips] } }',
    { look: { pass: ['fine paste'], fail: ['slivers', 'chips'] } },
  ],
  ['derive: { a: "b - c, aim 3 mm, as left" }', { a: { expression: 'b - c', limit: 'aim 3 mm', as: 'left' } }],
  ['measure: { a: at most 3 mm }', { a: { limit: 'at most 3 mm' } }],
  // Out of limit.
  ['else: stop', { stop: '' }],
  ['else: continue', { continue: '' }],
  ['else: renew', { go: 'renew' }],
  [
    'else: { redo: [a, c to f], at-most: 3, then: stop }',
    { redo: ['a', 'c to f'], 'at-most': '3', then: { stop: '' } },
  ],
  [
    'else: { low: { redo: this, at-most: 2, then: scrap }, high: { stop: Too big. } }',
    { low: { redo: ['this'], 'at-most': '2', then: { go: 'scrap' } }, high: { stop: 'Too big.' } },
  ],
  // Torque.
  [
    'torque:\n  a: 350 to 430 N·m, 4 × M20 8.8, oiled, cross, passes 30 60 100 %, with tw-600',
    {
      a: {
        limit: '350 to 430 N·m',
        fastener: { count: '4', size: 'M20', grade: '8.8' },
        lubrication: 'oiled',
        pattern: 'cross',
        passes: ['30 %', '60 %', '100 %'],
        with: 'tw-600',
      },
    },
  ],
  [
    'torque:\n  a: 250 N·m, 8 x 3/4-10 grade 8, drawn order, passes 3',
    {
      a: {
        limit: '250 N·m',
        fastener: { count: '8', size: '3/4-10', grade: 'grade 8' },
        pattern: 'drawn',
        passes: ['100 %', '100 %', '100 %'],
      },
    },
  ],
  [
    'torque:\n  a: 40 N·m, M20×1.5, then 60° 30°, sum 90° ± 5°, bolt by bolt',
    {
      a: {
        limit: '40 N·m',
        fastener: { size: 'M20×1.5' },
        'then-angle': ['60°', '30°'],
        'angle-sum': '90° ± 5°',
        progress: 'bolt-by-bolt',
      },
    },
  ],
  [
    'torque:\n  a: 40 N·m, passes 50 % 100 % release 100 %, order 1 3 2 4',
    { a: { limit: '40 N·m', passes: ['50 %', '100 %', 'release', '100 %'], order: ['1', '3', '2', '4'] } },
  ],
  [
    'torque:\n  a: 5 to 8 N·m, added to running-torque, extension 150 mm, wrench-length 600 mm',
    { a: { limit: '5 to 8 N·m', 'added-to': 'running-torque', extension: '150 mm', 'wrench-length': '600 mm' } },
  ],
  [
    'torque:\n  a: { or: ["250 N·m, oiled", "320 N·m, dry"] }',
    {
      a: {
        or: [
          { limit: '250 N·m', lubrication: 'oiled' },
          { limit: '320 N·m', lubrication: 'dry' },
        ],
      },
    },
  ],
  // Lifting, support, hands.
  [
    'lift:\n  hub: 640 kg ± 10 %, legs 2, angle 60° from horizontal, with crane-1 sling-2, tag-lines 1',
    {
      hub: {
        load: '640 kg ± 10 %',
        legs: '2',
        angle: '60° from horizontal',
        with: ['crane-1', 'sling-2'],
        'tag-lines': '1',
      },
    },
  ],
  [
    'support:\n  axle: 28 t ± 10 %, on stand-left stand-right, share 55 45 %',
    { axle: { load: '28 t ± 10 %', on: ['stand-left', 'stand-right'], share: ['55 %', '45 %'] } },
  ],
  ['handle: { caliper: "38 kg, by 2" }', { caliper: { load: '38 kg', by: '2' } }],
  // Time, repetition, branches, refit.
  ['wait: 8 h to 24 h', [{ limit: '8 h to 24 h' }]],
  ['wait: min 2 h, after chill', [{ limit: 'min 2 h', after: 'chill' }]],
  ['takes: 10 min', { likely: '10 min' }],
  ['takes: least 5 min, likely 10 min, most 30 min', { least: '5 min', likely: '10 min', most: '30 min' }],
  [
    'ramp: { oven: "150 °C, rate max 50 K/h, hold min 2 h" }',
    { oven: { to: '150 °C', rate: 'max 50 K/h', hold: 'min 2 h' } },
  ],
  [
    'repeat: { pairs: [1 and 6, [2, 5]] }',
    {
      pairs: [
        ['1', '6'],
        ['2', '5'],
      ],
    },
  ],
  ['redo: drain, fit to fill', { steps: ['drain', 'fit to fill'] }],
  ['only: m22', { values: ['m22'] }],
  ['undo: nothing', { nothing: '' }],
  ['undo: Fit the clamps, then the nuts.', { do: 'Fit the clamps, then the nuts.' }],
  ['clip: 1:20 to 2:05', { from: '1:20', to: '2:05' }],
  ['permit: { hot-work: "permit-officer, lapses 8 h" }', { 'hot-work': { by: 'permit-officer', lapses: '8 h' } }],
  [
    'decide: { ask: "Which way?", branches: [{ answer: left, go: a }, { otherwise: b }] }',
    {
      ask: 'Which way?',
      branches: [
        { answer: 'left', go: 'a' },
        { otherwise: 'b', go: 'b' },
      ],
    },
  ],
  [
    'hot-work: gas cutting, watch second, distance min 11 m, closed-volumes pin bore with a vent',
    {
      method: 'gas cutting',
      watch: { by: 'second' },
      distance: 'min 11 m',
      'closed-volumes': ['pin bore with a vent'],
    },
  ],
]

describe('short forms', () => {
  it.each(expansions)('%s', (typed, long) => {
    const fitted = fitText(typed)
    expect(fitted.shown).toBe('')
    expect(Object.values(fitted.value)).toEqual([long])
  })

  it('writes a table of one map a row out as columns and rows', () => {
    const fitted = fitText(
      'tables:\n  bores:\n    - { size: A, limit: max 80 mm }\n    - { limit: max 90 mm, size: B }\n',
      'document',
    )
    expect(fitted.shown).toBe('')
    expect(fitted.value).toEqual({
      tables: {
        bores: {
          columns: ['size', 'limit'],
          rows: [
            ['A', 'max 80 mm'],
            ['B', 'max 90 mm'],
          ],
        },
      },
    })
  })

  it('gives the same long form for a value written long and written short', () => {
    const short = fitText('lift:\n  hub: 640 kg ± 10 %, legs 2, with crane-1 sling-2')
    const long = fitText('lift:\n  hub: { load: 640 kg ± 10 %, legs: 2, with: [crane-1, sling-2] }')
    expect(long.value).toEqual(short.value)
  })

  it('never splits a sentence, whatever it says', () => {
    const words = fc.stringMatching(/^[A-Z][a-zé, ()×%°-]{0,40}[a-z.]$/)
    fc.assert(
      fc.property(words, words, (one, two) => {
        const fitted = fitText(`hold:\n  supervisor: "${one}"\ncheck:\n  look: "${two}"\n`)
        expect(fitted.value).toEqual({ hold: { supervisor: one }, check: { look: { asks: two } } })
      }),
    )
  })

  it('changes nothing when it reads its own long form again', () => {
    fc.assert(
      fc.property(fc.constantFrom(...expansions), ([typed]) => {
        const once = fitText(typed)
        const again = fitText(JSON.stringify(once.value).replaceAll('""', '"again"'))
        expect(JSON.stringify(again.value).replaceAll('"again"', '""')).toBe(JSON.stringify(once.value))
      }),
    )
  })

  it('does not crash on any text', () => {
    const typed = fc.stringMatching(/^[a-z0-9 ,×x*()[\]°%±.-]{1,60}$/)
    const key = fc.constantFrom(
      'torque',
      'measure',
      'lift',
      'derive',
      'count',
      'support',
      'wait',
      'removes',
      'redo',
      'clip',
      'permit',
    )
    fc.assert(fc.property(key, typed, (name, text) => void fitText(`${name}:\n  a: '${text}'\n`)))
  })
})
