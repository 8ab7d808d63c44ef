import { describe, expect, it } from 'vitest'
import type { StepFile } from '../../src/step-file/step-file.ts'
import { compileText, stepFileOf } from '../compile-text.ts'

const printed = (stepFile: StepFile): string[] =>
  stepFile.phases.flatMap((phase) => [
    `## ${phase.number} ${phase.title}${phase.position ? ` [${phase.position.label}]` : ''}`,
    ...phase.steps.map((step) => `${step.number} ${step.text.plain}`),
  ])

describe('repeats', () => {
  it('works a group of phases through once a position, in the order of the work', () => {
    const stepFile = stepFileOf(`
## Take out {#out}

\`\`\`yaml
repeat: { each: [left, right], through: in }
\`\`\`

1. Lift the idler out.

## Put in {#in}

1. Set the new idler in.

## Tidy {#tidy}

1. Sweep the walkway.
`)
    expect(printed(stepFile)).toEqual([
      '## 1 Take out [left]',
      '1.1 Lift the idler out.',
      '## 2 Put in [left]',
      '2.1 Set the new idler in.',
      '## 1 Take out [right]',
      '1.1 Lift the idler out.',
      '## 2 Put in [right]',
      '2.1 Set the new idler in.',
      '## 3 Tidy',
      '3.1 Sweep the walkway.',
    ])
    expect(stepFile.phases.map((phase) => phase.id)).toEqual(['out@left', 'in@left', 'out@right', 'in@right', 'tidy'])
  })

  it('fills in the columns of a table row by row, in a phase and in a step', () => {
    const stepFile = stepFileOf(`
\`\`\`yaml
tables:
  idlers: { columns: [frame, size], rows: [["7", 133 mm], ["9", 159 mm]] }
\`\`\`

## Change {#change}

\`\`\`yaml
repeat: { rows: idlers }
\`\`\`

1. Change the idler of frame (=frame), (=size).
2. Spin it by hand.
   \`\`\`yaml
   repeat: { each: [first, second] }
   check: { spins: The roll of frame (=frame) spins. }
   else: stop
   \`\`\`
`)
    expect(stepFile.phases[0]?.steps.map((step) => step.text.plain)).toEqual([
      'Change the idler of frame 7, 133 mm.',
      'Spin it by hand.',
      'Spin it by hand.',
    ])
    expect(stepFile.phases[1]?.steps[2]?.readings[0]?.asks).toBe('The roll of frame 9 spins.')
    const ids = stepFile.phases.flatMap((phase) => phase.steps.map((step) => step.id))
    expect(new Set(ids).size).toBe(ids.length)
  })

  it('gives a bounded repeat columns for its tries', () => {
    const stepFile = stepFileOf(`
## Set {#set}

\`\`\`yaml
repeat: { until: gap in limit, at-most: 4, else: stop }
\`\`\`

1. Turn the screw.
2. Read the gap.
   \`\`\`yaml
   measure: { gap: 2 to 3 mm }
   \`\`\`
`)
    expect(stepFile.phases[0]?.steps.map((step) => step.tries)).toEqual([4, 4])
    expect(stepFile.phases[0]?.until).toMatchObject({ first: 'set', atMost: 4, otherwise: { action: 'stop' } })
  })
})

describe('things taken off in a repeat', () => {
  const job = (refits: string) => `
## Take off {#off}

\`\`\`yaml
repeat: { each: [left, right] }
by: fitter
\`\`\`

1. Take the cover off.
   \`\`\`yaml
   removes: [4 × cover-bolt, cover]
   \`\`\`

## Put on {#on}

1. Fit both covers.
   \`\`\`yaml
   refits: [${refits}]
   \`\`\`
`
  const left = (refits: string) =>
    compileText(job(refits)).findings.filter(({ name }) => name === 'flow/not-put-back').length

  it('are all meant by .all, each by its position, and none by a bare name outside', () => {
    expect(left('8 × cover-bolt.all, cover.all')).toBe(0)
    expect(left('cover-bolt.left, cover-bolt.right, cover.left, cover.right')).toBe(0)
    expect(left('cover-bolt.left, cover.left')).toBe(2)
  })
})

describe('refit by reverse', () => {
  const text = `
\`\`\`yaml
states:
  idler: { values: [fitted, slung, landed], start: fitted, end: fitted }
\`\`\`

## Take apart {#apart}

1. Remove the hatch. {#hatch}
   \`\`\`yaml
   removes: [hatch, 4 × hatch-bolt]
   \`\`\`
2. Chalk the frame number on the hatch.
3. Take the weight of the idler. {#weight}
   \`\`\`yaml
   sets: { idler: slung }
   undo: Slack the sling and unhook it.
   \`\`\`
4. Land the idler. {#land}
   \`\`\`yaml
   sets: { idler: landed }
   \`\`\`

## Put together {#together}

\`\`\`yaml
reverse: [apart]
\`\`\`

1. Grease the slots.
   \`\`\`yaml
   before: weight
   \`\`\`
`
  it('writes each step in reverse, drops what changes nothing and says so, and brings the states back', () => {
    const stepFile = stepFileOf(text)
    const refit = stepFile.phases[1]
    expect(refit?.steps.map((step) => `${step.number} ${step.text.plain}`)).toEqual([
      '2.1 Bring idler back to slung.',
      '2.2 Grease the slots.',
      '2.3 Slack the sling and unhook it.',
      '2.4 Refit hatch, 4 × hatch bolt.',
    ])
    expect(refit?.steps.map((step) => step.undoes)).toEqual(['land', null, 'weight', 'hatch'])
    expect(refit?.reverseOf?.dropped).toEqual([
      { number: '1.2', text: 'Chalk the frame number on the hatch.', because: 'it changes nothing' },
    ])
    for (const state of stepFile.states) expect(refit?.statesAfter[state.id]).toBe(state.start)
  })
})

describe('fragments', () => {
  it('puts the steps in with their values and points a finding into the fragment', () => {
    const fragment = `---
source: invented for the demo of Kestrel Ridge Quarry
parameters: { isolator: the isolator to lock }
---

1. Lock (=isolator).
   \`\`\`yaml
   locks: [(=isolator)]
   \`\`\`
2. Unlock (=isolator).
   \`\`\`yaml
   unlocks: [(=isolator)]
   \`\`\`
3. Read the meter.
   \`\`\`yaml
   measure: { volts: max 3 parsecs }
   \`\`\`
`
    const { findings } = compileText(
      '## Isolate {#isolate}\n\n```yaml\ninclude: { fragment: lock, with: { isolator: bc-3-iso } }\n```\n',
      { 'shared/fragments/lock.md': fragment },
    )
    const limit = findings.find((finding) => finding.name === 'model/unreadable-limit')
    expect(limit?.at.file).toBe('shared/fragments/lock.md')
    expect(fragment.slice(limit?.at.start, limit?.at.end)).toContain('parsecs')
  })
})

describe('states along the straight path', () => {
  it('starts each branch from the states at its decision and goes on with the first way that does not stop', () => {
    const stepFile = stepFileOf(`
\`\`\`yaml
states:
  belt: { values: [tight, slack, off], start: tight, end: [tight, slack, off] }
\`\`\`

## Look {#look}

1. Slacken the belt.
   \`\`\`yaml
   sets: { belt: slack }
   \`\`\`
2. Choose.
   \`\`\`yaml
   decide:
     ask: Is the belt torn?
     branches:
       - { answer: torn through, go: stop }
       - { answer: torn, go: take-off }
       - { answer: whole, go: keep }
   \`\`\`

### Take it off {#take-off}

1. Take the belt off.
   \`\`\`yaml
   sets: { belt: off }
   \`\`\`

### Keep it {#keep}

1. Tighten the belt.
   \`\`\`yaml
   sets: { belt: tight }
   \`\`\`

## End {#end}

1. Sweep the walkway.
`)
    const at = (id: string) => stepFile.phases.find((phase) => phase.id === id)
    expect(at('keep')?.statesBefore.belt).toBe('slack')
    expect(at('end')?.statesBefore.belt).toBe('off')
    expect(at('look')?.steps[1]?.decide?.branches.map((branch) => branch.target?.number ?? branch.action)).toEqual([
      'stop',
      '1A',
      '1B',
    ])
  })
})

describe('links', () => {
  it('prints a link to a step as its number, and a value in every printed unit', () => {
    const stepFile = stepFileOf(`
## Tighten {#tighten}

1. Tighten the four frame bolts. {#frame}
   \`\`\`yaml
   torque: { frame-bolts: "70 N·m ± 5 %, 4 × M12 8.8, oiled" }
   \`\`\`
2. Look at [the bolts](#frame) again: [=frame-bolts].
`)
    // 66.5 to 73.5 N·m; 1 lbf·ft = 1.3558179483314004 N·m (NIST SP 811): 49.05 and 54.21, rounded inward.
    expect(stepFile.phases[0]?.steps[1]?.text.plain).toBe(
      'Look at the bolts 1.1 again: 66.5 to 73.5 N·m (49.2 to 54.2 lbf·ft), aim 70 N·m (51.6 lbf·ft).',
    )
  })
})
