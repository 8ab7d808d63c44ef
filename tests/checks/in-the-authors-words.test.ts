import { describe, expect, it } from 'vitest'
import { compileText } from '../compile-text.ts'

/** Findings say what was typed, once, and the remedy that fits; names, figures and signs are those of the author. */
const told = (body: string, kind: string, front = ''): readonly string[] =>
  compileText(body, {}, front).findings.flatMap(({ name, message, advice }) =>
    name === kind ? [`${message} ${advice}`] : [],
  )

const step = (block: string, more = ''): string =>
  `## Work {#work}\n\n${more}1. Do it.\n   \`\`\`yaml\n   ${block}\n   \`\`\`\n`

describe('findings', () => {
  it('print crossed ends as they were typed', () => {
    expect(told(step('measure: { stem: "0.310 to 0.309 in" }'), 'readings/limits-crossed')).toEqual([
      '"stem" runs from 0.310 in up to 0.309 in: no reading can be both. Write the smaller value first.',
    ])
  })

  it('tell a limit of several variants once, with each of its values', () => {
    const found = told(
      step('torque: { nut: { limits: { old: 25 N·m, new: 30 N·m } } }'),
      'readings/nominal-without-tolerance',
      'variants: { pump: [old, new] }\n',
    )
    expect(found).toHaveLength(1)
    expect(found[0]).toContain('"nut" shall be 25 N·m or 30 N·m,')
  })

  it('name a torque as it was typed, in a repeat and where there are two ways', () => {
    const block = 'torque: { nut: { or: [{ limit: 25 N·m }, { limit: 30 N·m }] } }'
    const found = told(
      step(block, '```yaml\nrepeat: { each: [left, right] }\n```\n\n'),
      'readings/nominal-without-tolerance',
    )
    expect(found.map((text) => text.split(',')[0])).toEqual(['"nut" shall be 25 N·m or 30 N·m'])
  })

  it.each([
    'torque: { bolts: "40-45 lb-ft, 2 × M10 8.8, oiled" }',
    'measure: { bolts: "40-45 lb-ft (54 to 61 N·m)" }',
    'measure: { ft: "40-45 ft (12.2 to 13.7 m)" }',
  ])('say what to type for the hyphen of %s', (block) => {
    const { findings } = compileText(step(block))
    expect(findings.filter(({ severity }) => severity === 'error').map(({ name }) => name)).toEqual([
      'model/unreadable-limit',
    ])
    expect(told(step(block), 'model/unreadable-limit')[0]).toContain('Type `40 to 45 ')
  })

  it('still know a thread with its grade', () => {
    const { findings } = compileText(step('torque: { bolts: "40 to 45 lb-ft, 4 × 1/2-13 8, dry" }'))
    expect(findings.map(({ name }) => name)).toEqual([])
  })

  it('name what a repeat over pairs gives', () => {
    const pairs = '```yaml\nrepeat: { pairs: [1 and 6] }\n```\n\n'
    expect(told(`## Work {#work}\n\n${pairs}1. Look at (=position).\n`, 'model/parameter-unfilled')[0]).toContain(
      'This repeat gives (=first) and (=second).',
    )
  })

  it('take what a phase uses for used', () => {
    const gear = '```yaml\ngear:\n  crib: { name: cribbing }\n```\n\n'
    const work = (uses: string) => `${gear}## Work {#work}\n\n${uses}1. Look at it.\n`
    expect(told(work(''), 'resources/never-used')).toHaveLength(1)
    expect(told(work('```yaml\nuses: [crib]\n```\n\n'), 'resources/never-used')).toEqual([])
  })

  it('ask for a state of pressure where a pressure is ramped, and not for an oven', () => {
    const ramp = (to: string) => told(step(`ramp: { it: "${to}" }`), 'flow/undeclared')
    expect(ramp('150 °C, hold min 2 h')).toEqual([])
    expect(ramp('15 bar, hold min 2 h')).toHaveLength(1)
  })

  it('take the kind of a worked-out value from its formula', () => {
    const body = step(
      'measure: { a: MΩ, b: MΩ }\n   derive: { absorption: "b / a, min 1.15 MΩ" }\n   when: absorption >= 1.15',
    )
    expect(told(body, 'readings/formula-mixes-kinds')).toEqual([])
    expect(told(body, 'readings/unit-of-another-kind')).toHaveLength(1)
  })

  it('want no mark at the end of a one-sided limit where the steps are fine', () => {
    const read = (resolution: string) =>
      told(
        `\`\`\`yaml\ntools:\n  dial: { name: dial, measures: length, range: 0 to 1 in, resolution: ${resolution} }\n\`\`\`\n\n${step('measure: { gap: "max 0.0625 in, with dial" }')}`,
        'readings/instrument-too-coarse',
      )
    expect(read('0.001 in')).toEqual([])
    expect(read('0.01 in')).toHaveLength(1)
  })
})

describe('somebody who goes into a zone', () => {
  const zones = `\`\`\`yaml
roles:
  fitter: { who: plant fitter }
  rigger: { who: rigger }
states:
  body: { values: [down, up], start: down, end: down, energy: gravity, safe: down }
zones:
  under-body: { what: below the body, safe-when: { body: down } }
  pit: { what: in the pit, safe-when: { body: down } }
  yard: { what: the yard, safe-when: { body: down } }
\`\`\`

`
  const at = (where: string, text: string, block = '') =>
    told(
      `${zones}## Work {#work}\n\n\`\`\`yaml\nby: fitter\nwhere: ${where}\n\`\`\`\n\n1. ${text}\n${block}`,
      'flow/zone-unnamed',
    )

  it.each(['Stand under the body and cut.', 'Kneel down under the body.', 'Climb into the pit.', 'Wait in the pit.'])(
    'is told: %s',
    (text) => {
      expect(at('yard', text)).toHaveLength(1)
    },
  )

  it.each([
    'Push the stands under the body.',
    'Push the stands under the body from outside.',
    'Lower the hook into the pit.',
    'Pump the pit dry.',
    'Look that it rests before you go under the body.',
    'Nobody may stand under the body.',
    'Get the jack under the body.',
    'Stand beside the body.',
  ])('is not told: %s', (text) => {
    expect(at('yard', text)).toEqual([])
  })

  it('is not told where the fitter is there', () => {
    expect(at('[yard, under-body]', 'Stand under the body and cut.')).toEqual([])
    expect(at('yard', 'Stand under the body.', '   ```yaml\n   enters: under-body\n   ```\n')).toEqual([])
    expect(at('{ fitter: yard, rigger: under-body }', 'Stand under the body.')).toHaveLength(1)
  })
})
