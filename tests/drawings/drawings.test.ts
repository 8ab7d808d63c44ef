import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { alignmentDrawing } from '../../src/drawings/alignment-plan.ts'
import { boltPatternDrawing, ordinal } from '../../src/drawings/bolt-pattern.ts'
import { documentDrawings } from '../../src/drawings/document-drawings.ts'
import { stepDrawings } from '../../src/drawings/step-drawings.ts'
import type { Drawing } from '../../src/drawings/svg.ts'
import { rational } from '../../src/quantities/rational.ts'
import { makeStepFile } from '../../src/step-file/make-step-file.ts'
import type { StepFile } from '../../src/step-file/step-file.ts'
import { reverseDials } from '../../src/trade/alignment/alignment.ts'
import { toNumber } from '../../src/trade/binary.ts'
import { circleOrder, rectangleOrder } from '../../src/trade/fasteners/tightening-order.ts'
import { allSteps, type StepSheet } from '../../src/wording/step-file-parts.ts'
import { stepFileOf } from '../compile-text.ts'
import { mapLibrary } from '../map-library.ts'
import { loadText } from '../model/loads-text.ts'
import { faultsOf, outside, overlaps, pointsOf, sizeOf, textsIn } from './seen.ts'

const GEAR = `bay-crane: { name: bay crane, capacity: 9 t }
chain-sling: { name: two-leg chain sling, capacity: 5 t }
shackle: { name: bow shackle, capacity: 4 t, quantity: 4 }
stand-left: { name: 8 t stand, capacity: 8 t }
stand-right: { name: 8 t stand, capacity: 8 t }`

const withBlock = (block: string): StepFile => stepFileOf(loadText(GEAR, block))

function drawnIn(stepFile: StepFile): readonly Drawing[] {
  return stepFile.phases.flatMap(({ steps }) => allSteps(steps).flatMap((step) => stepDrawings(step, stepFile)))
}

const worked = (stepFile: StepFile, key: string): string =>
  stepFile.phases
    .flatMap(({ steps }) =>
      allSteps(steps).flatMap((step) => step.workings.filter((one) => one.key === key).map(({ says }) => says)),
    )
    .join(' ')

function expectFine({ svg }: Drawing): void {
  expect(faultsOf(svg)).toEqual([])
  expect(outside(svg)).toEqual([])
  expect(overlaps(svg)).toEqual([])
}

/** The order as the drawing lists it, from its heading on: `1 – 5 –`, `3 – 7`. */
function listedOrder(svg: string): readonly number[] {
  const texts = textsIn(svg).map(({ says }) => says)
  const rows = texts.slice(texts.indexOf('Order') + 1)
  const end = rows.findIndex((says) => !/^\d+(?: – \d+)*(?: –)?$/.test(says))
  return rows.slice(0, end).flatMap((says) => says.split(/[ –]+/).filter(Boolean).map(Number))
}

describe('what is read back', () => {
  it('sees overlaps, texts that leave the sheet, and marks that are no XML', () => {
    const svg =
      '<svg viewBox="0 0 100 50" font-size="10"><text x="10" y="20">left</text><text x="14" y="20">over</text><text x="90" y="20">leaves</text></svg>'
    expect(overlaps(svg)).toEqual(['left | over'])
    expect(outside(svg)).toEqual(['leaves'])
    expect(pointsOf('M1 2h3v4H0zm1 1l-.5-2')).toEqual([
      { x: 1, y: 2 },
      { x: 4, y: 2 },
      { x: 4, y: 6 },
      { x: 0, y: 6 },
      { x: 2, y: 3 },
      { x: 1.5, y: 1 },
    ])
    expect(
      faultsOf('<svg role="img"><title id="t">a</title><desc id="d">b</desc><script></script><b></svg>').length,
    ).toBeGreaterThan(1)
  })
})

describe('the order of tightening', () => {
  it('is drawn as it is told, for every count, and every number can be read', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 64 }),
        fc.constantFrom<readonly string[]>([], ['50 %', '100 %'], ['30 %', '60 %', 'release', '100 %']),
        (count, passes) => {
          const order = circleOrder(count)
          const drawing = boltPatternDrawing({
            id: 'b',
            name: 'cover bolts',
            layout: { kind: 'circle' },
            order,
            passes,
          })
          if (drawing === null) throw new Error(`${count} bolts are not drawn`)
          expectFine(drawing)
          expect(listedOrder(drawing.svg)).toEqual(order)
          expect(drawing.says).toContain(order.join(', '))
          const texts = textsIn(drawing.svg).map(({ says }) => says)
          // Each bolt has its number once beside the list, and up to 24 bolts have their turn right behind it.
          for (let bolt = 1; bolt <= count; bolt++) {
            const at = texts.indexOf(String(bolt))
            expect(at).toBeGreaterThanOrEqual(0)
            if (count <= 24) expect(texts[at + 1]).toBe(ordinal(order.indexOf(bolt) + 1))
          }
        },
      ),
      { numRuns: 40 },
    )
  })

  it('numbers bolts clockwise from the top', () => {
    const { svg } = boltPatternDrawing({
      id: 'b',
      name: 'x',
      layout: { kind: 'circle' },
      order: circleOrder(4),
      passes: [],
    }) ?? { svg: '' }
    const place = (bolt: number) => textsIn(svg).find(({ says, size }) => says === String(bolt) && size > 11)
    expect(place(1)?.y).toBeLessThan(place(2)?.y ?? 0)
    expect(place(2)?.x).toBeGreaterThan(place(4)?.x ?? 0)
    expect(place(3)?.y).toBeGreaterThan(place(2)?.y ?? 0)
  })

  it('holds for rectangles', () => {
    for (const [rows, columns] of [
      [2, 5],
      [4, 4],
      [8, 8],
      [1, 6],
      [3, 12],
    ] as const) {
      const order = rectangleOrder(rows, columns)
      const drawing = boltPatternDrawing({
        id: 'r',
        name: 'head',
        layout: { kind: 'rectangle', rows, columns },
        order,
        passes: ['100 %'],
      })
      expect(drawing && listedOrder(drawing.svg)).toEqual(order)
      if (drawing && rows * columns <= 24) expectFine(drawing)
    }
  })

  it('is the one that print and page give in words', () => {
    for (const [fastener, pattern] of [
      ['8 × M20 8.8', 'star'],
      ['5 × M16 10.9', 'cross'],
      ['30 × M20 8.8', 'star'],
      ['6 × M20 8.8', 'circle'],
    ]) {
      const stepFile = withBlock(
        `torque: { cover-bolts: "200 to 250 N·m, ${fastener}, oiled, ${pattern}, passes 50 100 %" }`,
      )
      const [drawing] = drawnIn(stepFile)
      const [, told] = /(?:clockwise: )([\d, ]+)\./.exec(worked(stepFile, 'torque')) ?? []
      const around = Array.from({ length: 6 }, (_, index) => index + 1).join(', ')
      expect(listedOrder(drawing?.svg ?? '').join(', ')).toBe(told ?? around)
    }
  })

  it('is the author’s where one is written, and is not made up where places are not known', () => {
    const own = withBlock('torque: { a: "350 to 430 N·m, 6 × M20 8.8, oiled, star, order 1 3 5 2 4 6" }')
    expect(listedOrder(drawnIn(own)[0]?.svg ?? '')).toEqual([1, 3, 5, 2, 4, 6])
    for (const text of [
      '350 to 430 N·m, 6 × M20 8.8, oiled, drawn order',
      '350 to 430 N·m, M20 8.8, oiled, star',
      '350 to 430 N·m, 6 × M20 8.8, oiled, line',
    ])
      expect(drawnIn(withBlock(`torque: { a: "${text}" }`))).toEqual([])
  })
})

describe('a lift', () => {
  const lift = (fields: string): StepFile => withBlock(`lift: { drum: { ${fields} } }`)

  it('shows the pulls and lengths that the working gives, at the angles that it gives', () => {
    fc.assert(
      fc.property(
        fc
          .record({
            load: fc.integer({ min: 100, max: 4000 }),
            points: fc.integer({ min: 600, max: 3000 }),
            // Steep enough to be allowed, and the weight between the points.
            tall: fc.integer({ min: 40, max: 200 }),
            aside: fc.integer({ min: 0, max: 10 }),
          })
          .map(({ load, points, tall, aside }) => ({
            load,
            points,
            height: Math.ceil((points * tall) / 100),
            off: Math.floor((points * aside) / 100),
          })),
        ({ load, height, points, off }) => {
          const stepFile = lift(
            `load: ${load} kg ± 10 %, legs: 2, height: ${height} mm, hook-points: ${points} mm, centre-of-gravity: ${off} mm towards the drive side, with: [bay-crane, chain-sling, shackle]`,
          )
          const [drawing] = drawnIn(stepFile)
          if (!drawing) throw new Error('nothing is drawn')
          expectFine(drawing)
          const pulls = textsIn(drawing.svg)
            .filter(({ size, bold }) => bold && size === 13)
            .map(({ says }) => says)
          const [, near, far] =
            /nearer to the weight pulls (.+?), the other (.+?)\. /.exec(worked(stepFile, 'lift')) ?? []
          expect(pulls).toEqual([near, far])
          // The two thick lines from the hook: their slope is the angle beside them.
          const [, d = ''] = /d="([^"]*)" stroke-width="2.4"/.exec(drawing.svg) ?? []
          const [hook, first, , second] = pointsOf(d)
          const angle = (point = { x: 0, y: 0 }) =>
            (Math.atan2(point.y - (hook?.y ?? 0), Math.abs(point.x - (hook?.x ?? 0))) * 180) / Math.PI
          const half = points / 2
          expect(angle(first)).toBeCloseTo((Math.atan2(height, half - off) * 180) / Math.PI, 0)
          expect(angle(second)).toBeCloseTo((Math.atan2(height, half + off) * 180) / Math.PI, 0)
        },
      ),
      { numRuns: 12 },
    )
  })

  it('names the weakest item and the convention of the angle', () => {
    const [drawing] = drawnIn(
      lift('load: 1.2 t ± 10 %, legs: 2, angle: 30° from vertical, with: [bay-crane, chain-sling, shackle]'),
    )
    expect(textsIn(drawing?.svg ?? '').map(({ says }) => says)).toEqual([
      '60°',
      '0.763 t',
      '60°',
      '0.763 t',
      'drum: 1.2 t ± 10 %, reckoned with 1.32 t',
      'The angle is written as 30° from vertical.',
      'Angles are true and from horizontal; lengths are not given. The load is not to scale.',
      'bay crane',
      '14.7 %',
      'two-leg chain sling',
      '26.4 %, weakest',
      'bow shackle, one in each leg',
      '19.1 %',
    ])
  })

  it('draws nothing where a figure is missing, nor a weight in the middle that is not there', () => {
    const whole = lift('load: 1 t ± 10 %, legs: 2, angle: 60° from horizontal, with: [bay-crane]')
    const [step] = whole.phases[0]?.steps ?? []
    if (step === undefined) throw new Error('no step')
    const drawn = (fields: Record<string, string>) =>
      stepDrawings(
        {
          ...step,
          entries: step.entries.map((entry) => (entry.key === 'lift' ? { ...entry, data: { drum: fields } } : entry)),
        },
        whole,
      )
    const all = { load: '1 t', legs: '2', angle: '60° from horizontal' }
    expect(drawn(all).length).toBe(1)
    expect(drawn({ load: '1 t', legs: '2' })).toEqual([])
    expect(drawn({ ...all, load: 'heavy' })).toEqual([])
    expect(drawn({ ...all, angle: '60°' })).toEqual([])
    expect(drawn({ load: '1 t' })).toEqual([])
    expect(drawn({ ...all, 'centre-of-gravity': '300 mm towards the door' })).toEqual([])
  })

  it('fits for one, three and four legs', () => {
    for (const legs of [1, 3, 4]) {
      const angle = legs === 1 ? '' : ', angle: 50° from horizontal'
      const [drawing] = drawnIn(lift(`load: 1 t ± 10 %, legs: ${legs}${angle}, with: [bay-crane, shackle]`))
      if (!drawing) throw new Error('nothing is drawn')
      expectFine(drawing)
      expect(textsIn(drawing.svg).some(({ says }) => says.includes('counted on'))).toBe(legs > 2)
    }
  })
})

describe('what stands on what', () => {
  it('has the share of each as the working gives it, and the weight where the shares put it', () => {
    const stepFile = withBlock('support: { frame: "9 t ± 5 %, on stand-left stand-right, share 75 25 %" }')
    const [drawing] = drawnIn(stepFile)
    if (!drawing) throw new Error('nothing is drawn')
    expectFine(drawing)
    const texts = textsIn(drawing.svg)
    const carried = texts.filter(({ size, bold }) => bold && size === 13)
    expect(carried.map(({ says }) => says)).toEqual(
      [...worked(stepFile, 'support').matchAll(/carries ([\d.]+ t)/g)].map(([, each]) => each),
    )
    const [left = 0, right = 0] = carried.map(({ x }) => x)
    const [, d = ''] = /d="([^"]*)" stroke-width="2.4"/.exec(drawing.svg) ?? []
    expect(pointsOf(d)[0]?.x).toBeCloseTo(left + (right - left) * 0.25, 0)
    expect(texts.some(({ says }) => says === 'Not to scale.')).toBe(true)
  })
})

describe('an alignment', () => {
  it.each([
    ['reverse-dial, apart 180 mm, to-front 300 mm, to-rear 900 mm, sag 0.04 mm', '180 mm', 'every bottom reading'],
    [
      'rim-and-face, circle 200 mm, to-front 300 mm, to-rear 900 mm, sag 0.04 mm, target-front -0.05 mm',
      '300 mm',
      'of A',
    ],
  ])('by %s has its dials, distances and signs', (typed, length, sag) => {
    const [drawing] = drawnIn(
      stepFileOf(`## Work {#work}\n\n1. Line it up.\n   \`\`\`yaml\n   align: { motor: "${typed}" }\n   \`\`\`\n`),
    )
    if (!drawing) throw new Error('nothing is drawn')
    expectFine(drawing)
    const texts = textsIn(drawing.svg).map(({ says }) => says)
    expect(texts).toEqual(
      expect.arrayContaining(['A', 'B', length, '900 mm', 'high is +', 'front feet', 'rear feet', 'motor']),
    )
    expect(drawing.says).toContain(
      `Add the sag of the bar, 0.04 mm, to ${sag === 'of A' ? 'the bottom reading of A' : sag}.`,
    )
  })

  it('tells the shim as the trade works it out', () => {
    // front = offset + slope × distance and shim = target − front, by the reverse-dial module.
    const found = reverseDials(rational(40n, 100n), rational(-20n, 100n), rational(180), rational(300), rational(900))
    const [a, b] = [0.4, -0.2]
    const slope = (-b / 2 - a / 2) / 180
    expect(toNumber(found.front)).toBeCloseTo(a / 2 + slope * 300, 9)
    expect(toNumber(found.rear)).toBeCloseTo(a / 2 + slope * 900, 9)
    const { says } = alignmentDrawing({
      id: 'a',
      moved: 'm',
      fixed: 'f',
      method: 'reverse-dial',
      apart: '180 mm',
      circle: null,
      toFront: '300 mm',
      toRear: '900 mm',
      sag: null,
      targetFront: null,
      targetRear: null,
    })
    expect(says).toContain('Slope = (− B / 2 − A / 2) / 180 mm')
    expect(says).toContain('Front feet stand at A / 2 + slope × 300 mm, rear feet at A / 2 + slope × 900 mm.')
  })
})

const JOB = `\`\`\`yaml
roles: { fitter: Fitter, supervisor: Shift supervisor }
states:
  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated, proved-by: supervisor }
  cover: { values: [fitted, "off"], start: fitted, end: fitted }
\`\`\`

## Lock & prove {#lock}

1. **Fitter:** Lock it. {#lock-it}
   \`\`\`yaml
   takes: 10 min
   sets: { power: isolated }
   \`\`\`
2. **Fitter:** Show it. {#show-it}
   \`\`\`yaml
   takes: 10 min
   hold: { supervisor: I saw the lock. }
   proves: { power: isolated }
   \`\`\`

## Open {#open}

1. **Fitter:** Take the cover off. {#cover-off}
   \`\`\`yaml
   takes: 20 min
   sets: { cover: "off" }
   measure: { gap: max 2 mm }
   else: { redo: [lock-it to cover-off], at-most: 2, then: { stop: It cannot be opened., leave: { power: [live, isolated], cover: "off" } } }
   \`\`\`
2. What is the belt like? {#which}
   \`\`\`yaml
   decide:
     ask: Is the belt <good> or "bad"?
     branches:
       - { answer: good, go: good }
       - { answer: bad, go: bad }
       - { answer: gone, go: stop, because: There is no belt., leave: { power: isolated, cover: "off" } }
   \`\`\`

### A good belt {#good}

1. **Fitter:** Clean it. {#clean}

### A bad belt {#bad}

1. **Fitter:** Change it. {#change}

## Close {#close}

1. **Fitter:** Put the cover on and take the lock off. {#cover-on}
   \`\`\`yaml
   takes: 20 min
   sets: { cover: fitted, power: live }
   \`\`\`
`

describe('the whole of a procedure', () => {
  const stepFile = stepFileOf(JOB)
  const drawings = documentDrawings(stepFile)
  const of = (what: string) => drawings.filter((drawing) => drawing.of === what)

  it('is sound, fits a page, and is the same every time', () => {
    expect([...new Set(drawings.map((drawing) => drawing.of))]).toEqual(['flow', 'schedule', 'states'])
    for (const drawing of drawings) {
      expectFine(drawing)
      expect(sizeOf(drawing.svg).width).toBeLessThanOrEqual(516)
    }
    expect(documentDrawings(stepFileOf(JOB))).toEqual(drawings)
  })

  it('shows every phase, decision and way once', () => {
    const texts = of('flow').flatMap(({ svg }) => textsIn(svg).map(({ says }) => says))
    for (const one of [
      '1',
      '2',
      '2A',
      '2B',
      '3',
      '2.2',
      'Is the belt <good> or "bad"?',
      'good',
      'bad',
      'gone',
      'STOP',
      'There is no belt.',
      'hold H1 at 1.2',
      'End of the job',
    ])
      expect([one, texts.filter((says) => says === one).length]).toEqual([one, 1])
    expect(texts).toContain('2.1 out: again from 1.1 up to 2 times')
  })

  it('shows every change and proof of a state', () => {
    const [drawing] = of('states')
    const texts = textsIn(drawing?.svg ?? '')
    expect(texts.filter(({ says }) => ['1.1', '1.2', '2.1', '3.1'].includes(says)).map(({ says }) => says)).toEqual([
      '1.1',
      '1.2',
      '2.1',
      '3.1',
    ])
    const row = (name: string) => texts.find(({ says }) => says === name)?.y
    const values = (name: string) =>
      texts.filter(({ says, y }) => Math.abs(y - (row(name) ?? 0)) < 3 && says !== name).map(({ says }) => says)
    expect(values('power')).toEqual(['live', 'isolated', 'live'])
    expect(values('cover')).toEqual(['fitted', 'off', 'fitted'])
    // What can hurt is bold.
    expect(
      texts.filter(({ says, bold }) => ['live', 'isolated'].includes(says) && bold).map(({ says }) => says),
    ).toEqual(['live', 'live'])
  })

  it('draws nothing of a procedure without phases to tell apart, states or times', () => {
    expect(documentDrawings(stepFileOf('## Work {#work}\n\n1. Do it.\n'))).toEqual([])
  })

  it('has room for the scale of every length of a job', () => {
    const { schedule } = stepFile
    if (schedule === null) throw new Error('no schedule')
    for (const minutes of [7, 25, 205, 330, 700, 1750, 9000]) {
      const longer = minutes / Math.max(...schedule.phases.map(({ finish }) => finish))
      const phases = schedule.phases.map((one) => ({ ...one, start: one.start * longer, finish: one.finish * longer }))
      for (const drawing of documentDrawings({ ...stepFile, schedule: { ...schedule, phases } })) expectFine(drawing)
    }
  })

  it('sets many ways one below another', () => {
    const more = (step: StepSheet): StepSheet => {
      const [first] = step.decide?.branches ?? []
      if (!step.decide || !first) return step
      const go = { ...first, action: 'go' as const, target: { id: 'close', number: '3' } }
      const stop = {
        ...first,
        action: 'stop' as const,
        target: null,
        reason: 'A long reason for which nobody may go on here, told in full.',
      }
      return {
        ...step,
        decide: {
          ...step.decide,
          branches: [
            ...step.decide.branches,
            { ...go, answer: 'a long answer that needs more than one line of its own' },
            { ...stop, answer: 'worse' },
          ],
        },
      }
    }
    const many = { ...stepFile, phases: stepFile.phases.map((phase) => ({ ...phase, steps: phase.steps.map(more) })) }
    const [flow] = documentDrawings(many)
    if (!flow) throw new Error('nothing is drawn')
    expectFine(flow)
    const texts = textsIn(flow.svg).map(({ says }) => says)
    expect(texts).toEqual(expect.arrayContaining(['worse', 'go to 3', '2A', '2B', 'bad']))
    expect(texts.filter((says) => says === 'STOP').length).toBe(2)
  })

  it.each(['09-motor-megger', '10b-armature-bars', '32-cap-shim', '35-scratch-depth', '24b-ventilator-valves'])(
    'is sound for %s',
    (name) => {
      const file = 'procedures/example/example.md'
      const text = readFileSync(`tests/corpus/${name}.md`, 'utf8')
      const { procedure } = compileProcedure(file, openLibrary(mapLibrary({ [file]: text })))
      if (procedure === null) throw new Error('it cannot be read')
      const none = {
        verdict: 'not-proved',
        situations: 0,
        variants: 0,
        properties: [],
        notModelled: [],
        faults: [],
      } as const
      const whole = makeStepFile(procedure, none, [], [])
      for (const drawing of [...documentDrawings(whole), ...drawnIn(whole)]) expectFine(drawing)
      const numbers = documentDrawings(whole)
        .filter((drawing) => drawing.of === 'flow')
        .flatMap(({ svg }) => textsIn(svg).map(({ says }) => says))
      for (const { number } of whole.phases) expect(numbers).toContain(number)
    },
  )

  it('stays readable at 150 steps', () => {
    const phases = Array.from({ length: 30 }, (_, phase) => {
      const steps = Array.from({ length: 5 }, (_, step) => {
        const value = step % 2 === 0 ? 'off' : 'fitted'
        return `${step + 1}. Do this.\n   \`\`\`yaml\n   sets: { part-${phase % 12}: "${value}" }\n   \`\`\`\n`
      })
      return `## Phase number ${phase} with a rather long title that goes on and on {#p${phase}}\n\n${steps.join('')}${'6. Put it back.\n   ```yaml\n   sets: { part-'}${phase % 12}: fitted }\n   \`\`\`\n`
    })
    const states = Array.from(
      { length: 12 },
      (_, index) => `  part-${index}: { values: [fitted, "off"], start: fitted, end: fitted }`,
    )
    const large = stepFileOf(`\`\`\`yaml\nstates:\n${states.join('\n')}\n\`\`\`\n\n${phases.join('\n')}`)
    const all = documentDrawings(large)
    for (const drawing of all) {
      expectFine(drawing)
      expect(sizeOf(drawing.svg).height).toBeLessThan(660)
    }
    const numbers = all
      .filter((drawing) => drawing.of === 'states')
      .flatMap(({ svg }) => textsIn(svg).map(({ says }) => says))
      .filter((says) => /^\d+\.\d$/.test(says))
    const steps = large.phases.flatMap((phase) => phase.steps.map(({ number }) => number))
    expect(numbers).toEqual(steps)
  })
})

describe('what an author wrote', () => {
  it('stays text in a drawing', () => {
    const evil = '<script>alert(1)</script>"\'&]]><svg onload=x>'
    const stepFile = stepFileOf(JOB)
    const name = (text: string): string => (text === '' || /^[a-z-]+$/.test(text) ? text : evil)
    const spoiled = {
      ...stepFile,
      states: stepFile.states.map((state) => ({ ...state, name: evil })),
      phases: stepFile.phases.map((phase) => ({
        ...phase,
        title: evil,
        steps: phase.steps.map((step) => ({
          ...step,
          decide: step.decide && {
            ask: evil,
            branches: step.decide.branches.map((branch) => ({
              ...branch,
              answer: evil,
              reason: branch.reason && name(branch.reason),
            })),
          },
        })),
      })),
    }
    const drawings = documentDrawings(spoiled)
    expect(drawings.length).toBeGreaterThan(2)
    for (const { svg } of drawings) expect(faultsOf(svg)).toEqual([])
    const bolts = boltPatternDrawing({
      id: 'b',
      name: evil,
      layout: { kind: 'circle' },
      order: [1, 2, 3],
      passes: [evil, evil],
    })
    expect(faultsOf(bolts?.svg ?? '')).toEqual([])
  })
})

describe('as they look in text', () => {
  it('a cross of four bolts', () => {
    expect(
      drawnIn(withBlock('torque: { cover-bolts: "350 to 430 N·m, 4 × M20 8.8, oiled, cross, passes 50 100 %" }')),
    ).toMatchSnapshot()
  })

  it('the states of a short job', () => {
    expect(documentDrawings(stepFileOf(JOB)).filter((drawing) => drawing.of === 'states')).toMatchSnapshot()
  })
})
