import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { StepFile } from '../../src/step-file/step-file.ts'
import { stepFileOf } from '../compile-text.ts'

const ROLES = '```yaml\nroles: { fitter: { who: f }, second: { who: s } }\n```\n'

function phase(id: string, block: string, steps: readonly (readonly [text: string, block: string])[]): string {
  const items = steps.map(
    ([text, own], index) => `${index + 1}. ${text}${own ? `\n   \`\`\`yaml\n   ${own}\n   \`\`\`` : ''}`,
  )
  return `## ${id} {#${id}}\n\n${block ? `\`\`\`yaml\n${block}\n\`\`\`\n\n` : ''}${items.join('\n')}\n`
}

const scheduleOf = (...phases: readonly string[]): StepFile['schedule'] =>
  stepFileOf([ROLES, ...phases].join('\n')).schedule

const idsAt = (schedule: StepFile['schedule']) => schedule?.critical.map((id) => id.split('/').at(-1))

it('adds up steps in a row, their waits, and what two people do at the same time', () => {
  const schedule = scheduleOf(
    phase('one', 'by: fitter', [
      ['Open the cover.', 'takes: least 4 min, likely 6 min, most 14 min'],
      ['Let it cool.', 'wait: min 30 min'],
    ]),
    phase('two', 'together: yes', [
      ['**Fitter:** Clean the cover.', 'takes: 10 min'],
      ['**Second:** Clean the seat.', 'takes: 15 min'],
      ['**Fitter:** Clean the bolts.', 'takes: 10 min'],
    ]),
  )
  // PERT: (4 + 4 × 6 + 14)/6 = 7 min, spread 10/6 min. The fitter has two hands: 10 + 10 min beside the second's 15.
  expect(schedule).toMatchObject({ expected: 57, least: 54, most: 64, deviation: 1.7, steps: 5, timedSteps: 5 })
  expect(schedule?.personMinutes).toEqual([
    { role: 'fitter', minutes: 27 },
    { role: 'second', minutes: 15 },
  ])
  expect(idsAt(schedule)).toEqual(['open-the-cover', 'let-it-cool', 'clean-the-cover', 'clean-the-bolts'])
  expect(schedule?.phases.map(({ start, finish }) => [start, finish])).toEqual([
    [0, 37],
    [37, 57],
  ])
})

// Solved case of a project course (11 activities): critical path of 43, standard deviation 2.38, chance to be done by 40 0.1038.
it('gives the chance to be done, as a published case does', () => {
  const times = ['6 8 16', '2 4 6', '7 10 13', '4 6 8', '4 6 8', '3 4 5', '2 4 6']
  const steps = times.map((triple, index) => {
    const [least, likely, most] = triple.split(' ').map((hours) => `${Number(hours) * 12} min`)
    return [`Do part ${index + 1}.`, `takes: least ${least}, likely ${likely}, most ${most}`] as const
  })
  const schedule = scheduleOf(phase('all', 'by: fitter', steps))
  // A unit of 12 min makes the target of 40 a shift of 8 h.
  expect(schedule?.expected).toBe(43 * 12)
  expect((schedule?.deviation ?? 0) / 12).toBeCloseTo(2.38, 2)
  expect(schedule?.finishBy[0]).toEqual({ minutes: 480, chance: 0.1 })
})

describe('ways and waits', () => {
  const decide = phase('look', 'by: fitter', [
    ['Look at the seal.', 'takes: 5 min'],
    ['Decide.', 'decide: { ask: Is it worn?, branches: [{ answer: worn, go: renew }, { answer: good, go: keep }] }'],
  ])
  const branch = (id: string, minutes: number) =>
    phase(id, '', [[`Work on ${id}.`, `takes: ${minutes} min`]]).replace('## ', '### ')

  it('takes the longest branch, and counts nobody on the other', () => {
    const schedule = scheduleOf(
      decide,
      branch('renew', 40),
      branch('keep', 3),
      phase('close', 'by: fitter', [['Close it.', 'takes: 10 min']]),
    )
    expect(schedule?.expected).toBe(55)
    expect(schedule?.personMinutes).toEqual([{ role: 'fitter', minutes: 55 }])
    expect(schedule?.phases.map(({ isOnTheWay, start, finish }) => [isOnTheWay, start, finish])).toEqual([
      [true, 0, 5],
      [true, 5, 45],
      [false, 5, 8],
      [true, 45, 55],
    ])
  })

  it('counts a wait from the step that it names', () => {
    const schedule = scheduleOf(
      phase('cups', 'by: fitter', [
        ['Chill the cups. {#chill}', 'takes: 5 min'],
        ['Clean the bore.', 'takes: 50 min'],
        ['Set the cups in.', 'wait: "min 2 h, after chill"'],
        ['Press them home.', 'takes: 10 min'],
      ]),
    )
    expect(schedule?.expected).toBe(5 + 120 + 10)
    expect(idsAt(schedule)).toEqual(['chill', 'press-them-home'])
  })

  it('takes the time of a phase for steps that have none', () => {
    const schedule = scheduleOf(
      phase('one', 'by: [fitter, second]\ntakes: 45 min', [
        ['Open the cover.', ''],
        ['Close the cover.', ''],
      ]),
    )
    expect(schedule).toMatchObject({ expected: 45, timedSteps: 2, steps: 2 })
    expect(schedule?.personMinutes).toEqual([
      { role: 'fitter', minutes: 45 },
      { role: 'second', minutes: 45 },
    ])
  })

  it('is nothing where nobody says how long anything takes', () => {
    expect(scheduleOf(phase('one', 'by: fitter', [['Open the cover.', '']]))).toBeNull()
  })
})

it('keeps least, expected and most in order, and a row is as long as its parts', () => {
  const minutes = fc.integer({ min: 0, max: 300 })
  const triple = fc.tuple(minutes, minutes, minutes).map((three) => three.toSorted((a, b) => a - b))
  fc.assert(
    fc.property(fc.array(triple, { minLength: 1, maxLength: 5 }), (times) => {
      const steps = times.map(
        ([least, likely, most], index) =>
          [`Do part ${index + 1}.`, `takes: least ${least} min, likely ${likely} min, most ${most} min`] as const,
      )
      const schedule = scheduleOf(phase('all', 'by: fitter', steps))
      if (!schedule) throw new Error('no schedule')
      expect(schedule.least).toBeLessThanOrEqual(schedule.expected)
      expect(schedule.expected).toBeLessThanOrEqual(schedule.most)
      const sum = (at: number) => times.reduce((total, three) => total + (three[at] ?? 0), 0)
      expect(schedule.least).toBe(sum(0))
      expect(schedule.most).toBe(sum(2))
      expect(schedule.expected).toBeCloseTo((sum(0) + 4 * sum(1) + sum(2)) / 6, 1)
    }),
    { numRuns: 25 },
  )
})
