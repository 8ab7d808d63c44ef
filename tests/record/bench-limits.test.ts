import { describe, expect, it } from 'vitest'
import type { DecideItem, Job, StepItem } from '../../src/record/job.ts'
import { makeJob } from '../../src/record/make-job.ts'
import { outletOf } from '../../src/record/outlet.ts'
import { readingOf } from '../../src/record/readings-meant.ts'
import { lacksOf } from '../../src/record/survey.ts'
import { judgeTyped, limitInWords } from '../../src/record/verdict.ts'
import { conditionHolds, limitNow, whyNotBranch } from '../../src/record/worked-out.ts'
import { compileText, stepFileOf } from '../compile-text.ts'
import { type Done, instant, reads, stateOf } from './happenings.ts'

/** Limits that a table, a variant or a reading settles, from the author's text to the verdict on the page. */

const step = (text: string, yaml: string): string =>
  `1. ${text}\n   \`\`\`yaml\n${yaml
    .trim()
    .split('\n')
    .map((line) => `   ${line}`)
    .join('\n')}\n   \`\`\`\n`

/** One phase of steps, each with its block; the document block first. */
function jobOf(document: string, steps: readonly (readonly [text: string, yaml: string])[], front = ''): Job {
  const numbered = steps.map(([text, yaml], index) => step(text, yaml).replace(/^1\./, `${index + 1}.`)).join('')
  const block = document === '' ? '' : `\`\`\`yaml\n${document.trim()}\n\`\`\`\n\n`
  return makeJob(
    stepFileOf(`${block}## Read {#read}\n\n${numbered}\n## Close {#close}\n\n1. Close the cover.\n`, {}, front),
  )
}

/** Types readings one after the other, each judged when it is typed, as the page does. */
function typeIn(
  job: Job,
  typed: readonly (readonly [name: string, text: string, position?: string])[],
  first: readonly Done[] = [],
) {
  const happenings = [...first]
  const said: string[] = []
  for (const [name, text, position] of typed) {
    const state = stateOf(job, happenings)
    const item = stepsOf(job).find((one) => one.readings.some((reading) => reading.name === name))
    const id = item?.readings.find((reading) => reading.name === name)?.id
    const reading = readingOf(item ?? null, id, state)
    if (!item || !reading) throw new Error(`nothing reads ${name}`)
    const limit = limitNow(job, state, item, reading)
    const { verdict, judgedAs } = judgeTyped(reading, text, limit)
    said.push(`${name} ${text}: ${verdict}${limit?.ok ? ` of ${limitInWords(limit.value)}` : ''}`)
    happenings.push({ ...reads(reading.id, text, verdict, position ?? null), judgedAs } as Done)
  }
  return { said, state: stateOf(job, happenings) }
}

const stepsOf = (job: Job): readonly StepItem[] => job.items.flatMap((item) => (item.kind === 'step' ? [item] : []))

describe('a limit that the bench works out', () => {
  it('rests on an earlier reading, in whatever unit that was typed', () => {
    const job = jobOf('', [
      ['Read the base.', 'measure: { base: mm }'],
      ['Read the hook.', 'measure: { hook: "max first(base) + 0.1 mm" }\nelse: stop'],
    ])
    expect(
      typeIn(job, [
        ['hook', '12 mm'],
        ['base', '1 in'],
        ['hook', '25.5 mm'],
        ['hook', '25.51 mm'],
        ['hook', 'x'],
      ]).said,
    ).toEqual([
      'hook 12 mm: waiting',
      'base 1 in: noted',
      'hook 25.5 mm: in of max 25.5 mm',
      'hook 25.51 mm: high of max 25.5 mm',
      'hook x: unreadable of max 25.5 mm',
    ])
  })

  it('is not done while its limit is not known', () => {
    const job = jobOf('', [
      ['Read the base.', 'measure: { base: mm }'],
      ['Read the hook.', 'measure: { hook: "max base + 0.1 mm" }\nelse: stop'],
    ])
    const { state } = typeIn(job, [['hook', '12 mm']])
    const hook = stepsOf(job)[1]
    expect(hook && lacksOf(hook, state, instant()).map(({ what }) => what)).toEqual(['reading'])
  })

  it('has two ends, or a share of a reading or of a rating', () => {
    const job = jobOf('', [
      ['Read the running torque.', 'measure: { running: N·m }'],
      [
        'Read the rolling torque.',
        'measure: { rolling: { limit: running + 1.13 N·m to running + 4.52 N·m } }\nelse: stop',
      ],
      ['Read the opening.', 'measure: { opening: mm }'],
      ['Read the hook.', 'measure: { hook: { limit: max 105 %, of: opening } }\nelse: stop'],
      ['Read the load.', 'measure: { load: { limit: 110 to 125 %, of: 40 kN } }\nelse: stop'],
    ])
    const { said } = typeIn(job, [
      ['running', '2 N·m'],
      ['rolling', '3.13 N·m'],
      ['rolling', '3.12 N·m'],
      ['rolling', '6.53 N·m'],
      ['opening', '40 mm'],
      ['hook', '42 mm'],
      ['hook', '42.1 mm'],
      ['load', '43.9 kN'],
      ['load', '50 kN'],
    ])
    expect(said.map((line) => line.replace(/ of .*/, ''))).toEqual([
      'running 2 N·m: noted',
      'rolling 3.13 N·m: in',
      'rolling 3.12 N·m: low',
      'rolling 6.53 N·m: high',
      'opening 40 mm: noted',
      'hook 42 mm: in',
      'hook 42.1 mm: high',
      'load 43.9 kN: low',
      'load 50 kN: in',
    ])
  })

  it('stands in a table, in the row of a reading, of a value, or of the variant', () => {
    const tables = `
tables:
  bores:
    - { size: A, limit: 80.00 to 80.05 mm }
    - { size: B, limit: 90.00 to 90.05 mm }
  wear:
    - { at: 0 to 5 mm, limit: max 1 mm }
    - { at: over 5 mm, limit: max 2 mm }
`
    const from = (table: string, row: string) => `{ from: { table: ${table}, column: limit, row: ${row} }, unit: mm }`
    const job = jobOf(
      tables,
      [
        ['Measure the plate.', 'measure: { plate: mm }'],
        ['Measure the wear.', `measure: { worn: ${from('wear', 'plate')} }\nelse: stop`],
        ['Measure the old bore.', `measure: { old-bore: ${from('bores', 'A')} }\nelse: stop`],
        ['Measure the bore.', `measure: { bore: ${from('bores', 'hub')} }\nelse: stop`],
      ],
      'variants: { hub: [A, B] }\n',
    )
    const chosen: readonly Done[] = [{ kind: 'variant', name: 'hub', value: 'B' }]
    expect(
      typeIn(
        job,
        [
          ['worn', '1.5 mm'],
          ['plate', '4 mm'],
          ['worn', '1.5 mm'],
          ['plate', '6 mm'],
          ['worn', '1.5 mm'],
          ['old-bore', '80.01 mm'],
          ['bore', '80.01 mm'],
          ['bore', '90.01 mm'],
        ],
        chosen,
      ).said,
    ).toEqual([
      'worn 1.5 mm: waiting',
      'plate 4 mm: noted',
      'worn 1.5 mm: high of max 1 mm',
      'plate 6 mm: noted',
      'worn 1.5 mm: in of max 2 mm',
      'old-bore 80.01 mm: in of 80 to 80.05 mm',
      'bore 80.01 mm: low of 90 to 90.05 mm',
      'bore 90.01 mm: in of 90 to 90.05 mm',
    ])
  })

  it('is the one of the variant that was chosen', () => {
    const job = jobOf(
      '',
      [
        [
          'Read the pressure.',
          'measure: { pressure: { limits: { m22: 600 to 650 kPa, m24: 700 to 750 kPa } } }\nelse: stop',
        ],
      ],
      'variants: { stud: [m22, m24] }\n',
    )
    const { said, state } = typeIn(job, [['pressure', '720 kPa']], [{ kind: 'variant', name: 'stud', value: 'm24' }])
    expect(said).toEqual(['pressure 720 kPa: in of 700 to 750 kPa'])
    const item = stepsOf(job)[0]
    expect(item && conditionHolds(job, state, item, 'pressure in limit')).toBe(true)
  })

  it('says what it cannot read, and offers the nearest table and column', () => {
    const wrong = (yaml: string, document = '') =>
      compileText(`${document}## Read {#read}\n\n${step('Read it.', yaml)}`).findings.flatMap(
        ({ name, message, advice }) => (name === 'model/unreadable-limit' ? [`${message} ${advice}`] : []),
      )
    const tables = '```yaml\ntables:\n  bores:\n    - { size: A, limit: 80.00 to 80.05 mm }\n```\n\n'
    expect(wrong('measure: { a: { from: { table: bore, column: limit, row: A }, unit: mm } }', tables)).toEqual([
      'No table of this document is called "bore". Did you mean "bores"?',
    ])
    expect(wrong('measure: { a: { from: { table: bores, column: limits, row: A }, unit: mm } }', tables)).toEqual([
      'The table "bores" has no column of limits called "limits". Did you mean "limit"?',
    ])
    expect(wrong('measure: { a: mm, b: { limit: a + } }')).toHaveLength(1)
    expect(wrong('measure: { a: { limit: max 3 mm, uncertainty: a little } }')).toEqual([
      '"a little" cannot be read as an uncertainty. Type a figure with its unit, such as `0.02 mm`, or a share: `1 %`, `1 % of range`.',
    ])
  })
})

describe('limits that must hold together', () => {
  it('are both read again when either is out', () => {
    const job = jobOf('', [
      [
        'Move the motor and read both.',
        'measure: { angular: max 0.1 mm, parallel: max 0.1 mm }\nelse: { redo: this, at-most: 3, then: stop }',
      ],
    ])
    const { state } = typeIn(job, [
      ['angular', '0.05 mm'],
      ['parallel', '0.2 mm'],
    ])
    const item = stepsOf(job)[0]
    if (!item) throw new Error('no step')
    expect(outletOf(item, state)?.consequence?.action).toBe('redo')
    const again = stateOf(job, [
      reads(item.readings[0]?.id ?? '', '0.05 mm', 'in'),
      { kind: 'again', step: item.step, attempt: 2, move: { clears: [item.id], passesOver: [], opens: null } },
    ])
    expect(lacksOf(item, again, instant()).filter(({ what }) => what === 'reading')).toHaveLength(2)
  })
})

describe('an answer in limit', () => {
  it('is one that passes', () => {
    const job = jobOf('', [
      ['Look.', 'check: { look: { pass: [good, worn], fail: failed }, dry: The hose is dry. }\nelse: continue'],
    ])
    const item = stepsOf(job)[0]
    if (!item) throw new Error('no step')
    const says = (look: string, dry: string) =>
      conditionHolds(
        job,
        typeIn(job, [
          ['look', look],
          ['dry', dry],
        ]).state,
        item,
        'look in limit and dry in limit',
      )
    expect(says('worn', 'Yes')).toBe(true)
    expect(says('failed', 'Yes')).toBe(false)
    expect(says('good', 'No')).toBe(false)
    expect(conditionHolds(job, stateOf(job, []), item, 'look in limit')).toBeNull()
  })
})

describe('a reading that was spoilt', () => {
  const job = jobOf('', [
    ['Read the play.', 'measure: { play: max 0.2 mm }\nelse: continue'],
    ['Slacken the plate.', 'spoils: [play]'],
    ['Read the play again.', 'measure: { play: max 0.2 mm }\nelse: continue'],
    [
      'Decide.',
      'decide:\n  ask: What follows?\n  branches:\n    - { when: play in limit, go: continue }\n    - { otherwise: stop }',
    ],
  ])
  const decide = job.items.find((item): item is DecideItem => item.kind === 'decide')
  const [read, slacken, readAgain] = stepsOf(job)
  if (!decide || !read || !slacken || !readAgain) throw new Error('the job of the test is another one')
  const taken = reads(read.readings[0]?.id ?? '', '0.1 mm', 'in')
  const again = reads(readAgain.readings[0]?.id ?? '', '0.1 mm', 'in')
  const spoilt: Done = { kind: 'tick', item: slacken.id }
  const holdsAfter = (...happenings: readonly Done[]) =>
    conditionHolds(job, stateOf(job, happenings), decide, 'play in limit')

  it('counts as not taken until it is read again', () => {
    expect(holdsAfter(taken)).toBe(true)
    expect(holdsAfter(taken, spoilt)).toBeNull()
    expect(holdsAfter(taken, spoilt, taken)).toBe(true)
    expect(holdsAfter(taken, spoilt, again)).toBe(true)
    expect(holdsAfter(taken, again)).toBe(true)
    expect(holdsAfter(spoilt, taken)).toBe(true)
    expect(holdsAfter(taken, spoilt, { kind: 'untick', item: slacken.id, because: '' })).toBe(true)
  })

  it('keeps people from deciding by it, and says where to read it', () => {
    const state = stateOf(job, [taken, spoilt])
    const why = `Take play again at ${read.number}: it no longer counts after ${slacken.number}.`
    expect(whyNotBranch(job, state, decide, 0)).toBe(why)
    expect(whyNotBranch(job, state, decide, 1)).toBe(why)
  })

  it('is the earlier reading once it is read again', () => {
    const state = stateOf(job, [taken, spoilt, reads(read.readings[0]?.id ?? '', '0.15 mm', 'in')])
    expect(conditionHolds(job, state, decide, 'previous(play) = 0.1 mm and play = 0.15 mm')).toBe(true)
  })
})

describe('uncertainty', () => {
  const tools = (facts: string) =>
    `tools:\n  dial: { name: dial indicator, measures: length, range: 0 to 10 mm, resolution: 0.01 mm, accuracy: ± 0.01 mm${facts} }`
  const verdicts = (job: Job, texts: readonly string[]) =>
    texts.map((text) => typeIn(job, [['play', text]]).said[0]?.replace(/ of .*/, ''))
  const block = 'measure: { play: "0.10 to 0.20 mm, with dial" }\nelse: { low: continue, high: stop }'

  it('is left out of account where nobody gave it: the accuracy alone narrows nothing', () => {
    const job = jobOf(tools(''), [['Read the play.', block]])
    expect(verdicts(job, ['0.10 mm', '0.20 mm', '0.21 mm'])).toEqual([
      'play 0.10 mm: in',
      'play 0.20 mm: in',
      'play 0.21 mm: high',
    ])
  })

  // ISO 14253-1: proved in limit only beyond the uncertainty from each end, proved out only beyond it outside.
  it('leaves readings near an end in doubt, and the graver answer holds', () => {
    const job = jobOf(tools(', uncertainty: 0.02 mm'), [['Read the play.', block]])
    expect(verdicts(job, ['0.07 mm', '0.08 mm', '0.11 mm', '0.12 mm', '0.18 mm', '0.19 mm', '0.23 mm'])).toEqual([
      'play 0.07 mm: low',
      'play 0.08 mm: in-doubt',
      'play 0.11 mm: in-doubt',
      'play 0.12 mm: in',
      'play 0.18 mm: in',
      'play 0.19 mm: in-doubt',
      'play 0.23 mm: high',
    ])
    const { state } = typeIn(job, [['play', '0.11 mm']])
    const item = stepsOf(job)[0]
    expect(item && outletOf(item, state)?.consequence?.action).toBe('stop')
    expect(item && conditionHolds(job, state, item, 'play in limit')).toBe(false)
  })

  it('may be a share of what is read, and is told to those who judge on paper', () => {
    const shares = jobOf('', [
      ['Read the pull.', 'measure: { play: { limit: min 100 N, uncertainty: 5 % } }\nelse: stop'],
    ])
    expect(verdicts(shares, ['104 N', '106 N'])).toEqual(['play 104 N: in-doubt', 'play 106 N: in'])
    const onPaper = stepFileOf(
      `\`\`\`yaml\n${tools(', uncertainty: 0.02 mm')}\n\`\`\`\n\n## Read {#read}\n\n${step('Read the play.', block)}`,
    )
    expect(onPaper.phases[0]?.steps[0]?.readings[0]?.facts).toContainEqual({
      name: 'accept',
      text: '0.12 to 0.18 mm, with the uncertainty of 0.02 mm taken off',
    })
  })
})

describe('the second unit in print', () => {
  const printed = (resolution: string) =>
    stepFileOf(
      `\`\`\`yaml\ntools:\n  rule: { name: rule, measures: length, range: 0 to 40 in, resolution: ${resolution} }\n\`\`\`\n\n## Read {#read}\n\n${step('Read it.', 'measure: { gap: "10 to 20 mm, with rule" }\nelse: stop')}`,
    ).phases[0]?.steps[0]?.readings[0]?.limit?.text

  it('can be read on the marks of the instrument', () => {
    expect(printed('1/16 in')).toBe('10 to 20 mm (7/16 to 3/4 in)')
    expect(printed('0.01 in')).toBe('10 to 20 mm (0.40 to 0.78 in)')
  })
})

it('has no function whose result is irrational, so that every verdict is exact', () => {
  expect(
    compileText(`## Read\n\n${step('Read it.', 'measure: { a: mm }\nderive: { b: "sqrt(a), mm" }')}`).findings.map(
      ({ name }) => name,
    ),
  ).toContain('readings/formula-unreadable')
})
