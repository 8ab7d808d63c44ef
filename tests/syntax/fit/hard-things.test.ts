import { describe, expect, it } from 'vitest'
import type { BlockPlace } from '../../../src/syntax/fit-block-schema.ts'
import { fitText } from './fitting.ts'

type HardThing = readonly [what: string, yaml: string, kept: unknown, place?: BlockPlace]

// What real work needs said, each once, in the fictional quarry. Nothing of it may be lost on the way to the long form.
const hardThings: readonly HardThing[] = [
  [
    'readings combined across positions',
    'derive: { skew: "abs(take-up.left - take-up.right), max 3 mm" }',
    { derive: { skew: { expression: 'abs(take-up.left - take-up.right)', limit: 'max 3 mm' } } },
  ],
  [
    'a limit relative to an earlier reading',
    'measure: { l2: "max first(l1) + 0.1 mm, with dial-indicator" }',
    { measure: { l2: { limit: 'max first(l1) + 0.1 mm', with: 'dial-indicator' } } },
  ],
  [
    'a limit relative to a mean',
    'measure: { l2: "95 to 105 %, of mean(l1)" }',
    { measure: { l2: { limit: '95 to 105 %', of: 'mean(l1)' } } },
  ],
  [
    'a limit from a table',
    'measure: { bore: { from: { table: bores, column: limit, row: bore-size }, with: bore-gauge } }',
    { measure: { bore: { from: { table: 'bores', column: 'limit', row: 'bore-size' }, with: 'bore-gauge' } } },
  ],
  [
    'a limit for each variant',
    'measure: { gap: { limits: { m22: max 3 mm, m24: max 4 mm } } }',
    { measure: { gap: { limits: { m22: 'max 3 mm', m24: 'max 4 mm' } } } },
  ],
  [
    'a reading that is an event',
    'measure: { drip: "min 5 min, event first drip at the seal" }',
    { measure: { drip: { limit: 'min 5 min', event: 'first drip at the seal' } } },
  ],
  [
    'a reading under a condition',
    'measure: { p: "600 kPa ± 25 kPa, given cold, when tyre = caged" }',
    { measure: { p: { limit: '600 kPa ± 25 kPa', given: 'cold', when: 'tyre = caged' } } },
  ],
  ['a count on the way out', 'count: { shims-out: max 6 }', { count: { 'shims-out': { limit: 'max 6' } } }],
  ['and needed on the way in', 'fits: [shims-out × shim]', { fits: [{ count: 'shims-out', thing: 'shim' }] }],
  [
    'an earliest and a latest time',
    'wait: 8 h to 24 h, after chill',
    { wait: [{ limit: '8 h to 24 h', after: 'chill' }] },
  ],
  [
    'a torque programme with a release, stage by stage',
    'torque:\n  cap: 250 N·m, 8 × M20 10.9, oiled, star, passes 50 % 100 % release 100 %, stage by stage',
    {
      torque: {
        cap: {
          limit: '250 N·m',
          fastener: { count: '8', size: 'M20', grade: '10.9' },
          lubrication: 'oiled',
          pattern: 'star',
          passes: ['50 %', '100 %', 'release', '100 %'],
          progress: 'stage-by-stage',
        },
      },
    },
  ],
  [
    'angles with a sum',
    'torque:\n  cap: 40 N·m, then 60° 30°, sum 90° ± 5°',
    { torque: { cap: { limit: '40 N·m', 'then-angle': ['60°', '30°'], 'angle-sum': '90° ± 5°' } } },
  ],
  ['snug now, final later', 'snug: [plate]', { snug: [{ thing: 'plate' }] }],
  [
    'tighten nothing until told',
    'prohibit: Nobody tightens a bolt before all eight are in.',
    { prohibit: ['Nobody tightens a bolt before all eight are in.'] },
    'phase',
  ],
  ['a temporary thing', 'puts-on: [2 × hose-clamp]', { 'puts-on': [{ count: '2', thing: 'hose-clamp' }] }],
  [
    'a span that must hold',
    'keep: { isolation: { states: { power: isolated }, by: second, through: close } }',
    { keep: { isolation: { states: { power: ['isolated'] }, by: ['second'], through: 'close' } } },
  ],
  [
    'an isolation lifted for a test and put back',
    'sets: { power: [live, isolated] }',
    { sets: { power: ['live', 'isolated'] } },
  ],
  [
    'bounded retry, then scrap; a late failure that goes back',
    'else: { low: { redo: [set, close to read], at-most: 3, then: scrap }, high: isolate }',
    {
      else: { low: { redo: ['set', 'close to read'], 'at-most': '3', then: { go: 'scrap' } }, high: { go: 'isolate' } },
    },
  ],
  [
    'outcomes of three',
    'check: { look: { pass: good, fail: [marked, failed] } }',
    { check: { look: { pass: ['good'], fail: ['marked', 'failed'] } } },
  ],
  [
    'branches over the whole line',
    'decide: { ask: "What next?", branches: [{ when: look = good, go: reuse }, { when: look = failed, go: stop, because: Scrap. }, { otherwise: renew }] }',
    {
      decide: {
        ask: 'What next?',
        branches: [
          { when: 'look = good', go: 'reuse' },
          { when: 'look = failed', go: 'stop', because: 'Scrap.' },
          { otherwise: 'renew', go: 'renew' },
        ],
      },
    },
  ],
  [
    'steps again on the other side',
    'redo: { steps: [drain, fit to fill], with: { left: right } }',
    { redo: { steps: ['drain', 'fit to fill'], with: { left: 'right' } } },
  ],
  [
    'a pass for each pair',
    'repeat: { pairs: [1 and 6, 2 and 5] }',
    {
      repeat: {
        pairs: [
          ['1', '6'],
          ['2', '5'],
        ],
      },
    },
  ],
  ['a pass for each row', 'repeat: { rows: injectors }', { repeat: { rows: 'injectors' } }],
  [
    'a pass for each thing found on the day',
    'repeat: { found: cracked weld, at-most: 6 }',
    { repeat: { found: 'cracked weld', 'at-most': '6' } },
  ],
  [
    'optional and alternate parts',
    'parts:\n  washer: { number: KB-3330, quantity: 8, or: [washer-thick], optional: Only where the old one is gone. }',
    {
      parts: {
        washer: { number: 'KB-3330', quantity: '8', or: ['washer-thick'], optional: 'Only where the old one is gone.' },
      },
    },
    'document',
  ],
  [
    'a symptom chart',
    'chart:\n  - symptom: The hub runs hot.\n    tests:\n      - { test: Read the end play., finds: under 0.05 mm, remedy: Set it again., go: end-play }',
    {
      chart: [
        {
          symptom: 'The hub runs hot.',
          tests: [{ test: 'Read the end play.', finds: 'under 0.05 mm', remedy: 'Set it again.', go: 'end-play' }],
        },
      ],
    },
    'document',
  ],
  [
    'a lift by lengths in place of the angle',
    'lift:\n  drum: 4.2 t ± 10 %, legs 2, leg-length 3 m, hook-points 2.4 m, centre-of-gravity 300 mm towards the drive, with crane-1 wire-sling',
    {
      lift: {
        drum: {
          load: '4.2 t ± 10 %',
          legs: '2',
          'leg-length': '3 m',
          'hook-points': '2.4 m',
          'centre-of-gravity': '300 mm towards the drive',
          with: ['crane-1', 'wire-sling'],
        },
      },
    },
  ],
  [
    'exposure that cannot be avoided',
    'exposed: { zone: under-belt, who: fitter, because: The belt is trained while it runs., controls: [pull cord], hold: { supervisor: Second at the cord. } }',
    {
      exposed: {
        zone: ['under-belt'],
        who: ['fitter'],
        because: 'The belt is trained while it runs.',
        controls: ['pull cord'],
        hold: { supervisor: 'Second at the cord.' },
      },
    },
  ],
]

describe('hard things', () => {
  it.each(hardThings.map(([what, ...rest]) => [what, rest] as const))('%s', (_what, [yaml, kept, place]) => {
    const fitted = fitText(yaml, place)
    expect(fitted.shown).toBe('')
    expect(fitted.value).toEqual(kept)
  })
})
