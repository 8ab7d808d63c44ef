import { describe, expect, it } from 'vitest'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { mapLibrary } from '../map-library.ts'

/**
 * How far the checks reach, beyond the examples of their pages: what a careful author writes must not be reported,
 * and what hides behind a repeat, a branch, a sub-step or a fragment must be.
 */
function findings(body: string, more: Readonly<Record<string, string>> = {}): readonly string[] {
  const file = 'procedures/reach/reach.md'
  const text = `---\nnumber: KRQ-EX-001\ntitle: Reach\nrevision: A\nstatus: for-review\ndate: 2026-03-02\nvariants: { stud: [m22, m24] }\n---\n\n${body}`
  const library = openLibrary(mapLibrary({ ...more, [file]: text }))
  // No text below is about instruments, and none names one.
  const others = compileProcedure(file, library).findings.filter(
    ({ name }) => name !== 'readings/limit-without-instrument',
  )
  return [...library.findings, ...others].map(
    ({ name, at }) => `${name} ${(at.file === file ? text : more[at.file])?.slice(at.start, at.end).split('\n')[0]}`,
  )
}

const step = (number: number, text: string, block: string): string =>
  `${number}. ${text}\n${['```yaml', ...block.split('\n'), '```'].map((line) => `   ${line}`).join('\n')}\n`

describe('reach of the checks', () => {
  it('balances by position what is removed and refitted in repeats', () => {
    const off = `## Off {#off}\n\n\`\`\`yaml\nrepeat: { each: [left, right] }\n\`\`\`\n\n${step(1, 'Take the cover off.', 'removes: [cover]')}`
    const on = (positions: string) =>
      `\n## On {#on}\n\n\`\`\`yaml\nrepeat: { each: [${positions}] }\n\`\`\`\n\n${step(1, 'Put the cover on.', 'refits: [cover]')}`
    expect(findings(off + on('left, right'))).toEqual([])
    expect(findings(off + on('left'))).toEqual(['flow/not-put-back 1. Take the cover off.'])
  })

  it('counts what is refitted in parts, and lets a bare name stand for all', () => {
    const off = step(1, 'Take the bolts out.', 'removes: [12 × plate-bolt]')
    const three = step(2, 'Fit three bolts.', 'refits: [3 × plate-bolt]')
    expect(findings(`## Plate {#plate}\n\n${off}${three}`)).toEqual(['flow/not-put-back plate-bolt'])
    expect(
      findings(`## Plate {#plate}\n\n${off}${three}${step(3, 'Fit nine bolts.', 'refits: [9 × plate-bolt]')}`),
    ).toEqual([])
    expect(findings(`## Plate {#plate}\n\n${off}${step(2, 'Fit the bolts.', 'refits: [plate-bolt]')}`)).toEqual([])
  })

  it('follows a reading through a worked-out value to the decision that answers it', () => {
    const read = step(1, 'Measure both ends.', 'measure: { take-up: "max 90 mm, at left right" }')
    const work = (end: string) =>
      step(2, 'Work out the skew.', `derive: { skew: "abs(take-up.left - take-up.right), max 3 mm" }${end}`)
    expect(findings(`## Skew {#skew-phase}\n\n${read}${work('\nelse: stop')}`)).toEqual([])
    expect(findings(`## Skew {#skew-phase}\n\n${read}${work('')}`)).toEqual([
      'readings/limit-without-consequence take-up',
      'readings/limit-without-consequence skew',
    ])
  })

  it('wants both sides of a two-sided limit answered', () => {
    const gap = (answer: string) =>
      `## Gap {#gap-phase}\n\n${step(1, 'Measure the gap.', `measure: { gap: 2 to 4 mm }\nelse: ${answer}`)}`
    expect(findings(gap('{ low: stop, high: stop }'))).toEqual([])
    expect(findings(gap('{ low: stop }'))).toEqual(['readings/limit-without-consequence gap'])
  })

  it('looks into sub-steps, and reports a step of a repeat once', () => {
    const body =
      '## Idlers {#idlers}\n\n```yaml\nrepeat: { each: [left, right] }\n```\n\n1. Change the idler.\n   1. Measure the gap.\n      ```yaml\n      measure: { gap: 2 mm }\n      else: stop\n      ```\n'
    expect(findings(body)).toEqual(['readings/nominal-without-tolerance gap'])
  })

  it('points into the fragment where the fault stands', () => {
    const path = 'shared/fragments/read-gauge.md'
    const fragment = `---\nsource: Made up for a test.\n---\n\n${step(1, 'Read the gauge.', 'measure: { pressure: 2 bar }\nelse: stop')}`
    const body = '## Gauge {#gauge}\n\n```yaml\ninclude: { fragment: read-gauge }\n```\n'
    expect(findings(body, { [path]: fragment })).toEqual(['readings/nominal-without-tolerance pressure'])
  })

  it('knows states, variants and positions in conditions', () => {
    const states = '```yaml\nstates:\n  gate: { values: [open, shut], start: open, end: open }\n```\n\n'
    const read = step(1, 'Measure both ends.', 'measure: { wear: "max 9 mm, at left right" }\nelse: stop')
    const body = (when: string) =>
      `${states}## Wear {#wear-phase}\n\n${read}${step(2, 'Turn the plate.', `when: ${when}`)}`
    expect(findings(body('wear.left > 5 mm and gate = open and stud = m24'))).toEqual([])
    expect(findings(body('gate = opn'))).toEqual(['references/unknown-reading opn'])
  })

  it('wants the end of every answer of a last decision, and not only of the branch printed last', () => {
    const states = '```yaml\nstates:\n  gate: { values: [open, shut], start: open, end: open }\n```\n\n'
    const shut = step(1, 'Shut the gate.', 'sets: { gate: shut }')
    const decide = step(
      2,
      'Decide.',
      'decide:\n  ask: Is the plate good?\n  branches:\n    - { answer: yes, go: open-up }\n    - { answer: no, go: keep-shut }',
    )
    const open = `\n### Open up {#open-up}\n\n${step(1, 'Open the gate.', 'sets: { gate: open }')}`
    const keep = '\n### Keep it shut {#keep-shut}\n\n1. Tell the supervisor.\n'
    const body = (...branches: readonly string[]) =>
      `${states}## Gate {#gate-phase}\n\n${shut}${decide}${branches.join('')}`
    const openToo = open.replace('{#open-up}', '{#keep-shut}').replace('Open up', 'Open it all the same')
    expect(findings(body(open, openToo))).toEqual([])
    expect(findings(body(open, keep))).toEqual(['flow/not-put-back 1. Shut the gate.'])
    expect(findings(body(keep, open))).toEqual(['flow/not-put-back 1. Shut the gate.'])
    expect(findings(`${states}## Gate {#gate-phase}\n\n${shut}`)).toEqual(['flow/not-put-back 1. Shut the gate.'])
  })
})
