import jsQR from 'jsqr'
import { describe, expect, it } from 'vitest'
import { checklistSources } from '../../../src/outputs/checklist/checklist-sources.ts'
import { arithmetic } from '../../../src/outputs/checklist/lay-out-readings.ts'
import { squareCode } from '../../../src/outputs/checklist/square-code.ts'
import { tidyText } from '../../../src/outputs/checklist/tidy-text.ts'
import type { StepFile } from '../../../src/step-file/step-file.ts'
import { allSteps } from '../../../src/wording/step-file-parts.ts'
import { sampleStepFile } from './sample-step-file.ts'
import { entry, phase, step, stepFile } from './step-file-parts.ts'

const choices = { paper: 'a4', draft: false, standard: 'a-3a' } as const

function sheetText(file: StepFile): string {
  const sheet = checklistSources(file, choices).files.find((one) => one.path === 'sheet.json')
  return sheet && 'text' in sheet ? plainBlanks(sheet.text) : ''
}

/** Without the blanks that only keep figures and units together. */
const plainBlanks = (text: string): string => text.replace(/[\u00a0\u202f]/g, ' ').replaceAll('\u200b', '')
const asJson = (text: string): string => JSON.stringify(text).slice(1, -1)

describe('the data of the printed checklist', () => {
  it('has every instruction, limit, hold, warning and answer of the step file', () => {
    const text = sheetText(sampleStepFile)
    const missing: string[] = []
    const see = (written: string | null | undefined) => {
      if (written && !text.includes(asJson(written))) missing.push(written)
    }
    for (const one of sampleStepFile.phases) {
      see(one.title)
      for (const inner of allSteps(one.steps)) {
        see(inner.text.plain)
        see(inner.when)
        for (const act of inner.acts) see(act.text.plain)
        for (const wait of inner.waits) see(wait)
        for (const hold of inner.holds) see(hold.says)
        for (const torque of inner.torques) for (const said of [torque.limit.text, torque.fastener]) see(said)
        for (const torque of inner.torques) for (const pass of torque.passes) see(pass.text)
        for (const reading of inner.readings) for (const said of [reading.limit?.text, reading.asks]) see(said)
        for (const reading of inner.readings) for (const answer of [...reading.passes, ...reading.fails]) see(answer)
        for (const branch of inner.decide?.branches ?? []) see(branch.answer ?? branch.when)
        for (const block of inner.entries) for (const line of block.lines) see(line.text)
      }
    }
    for (const hazard of sampleStepFile.hazards) {
      for (const said of [hazard.hazard, hazard.consequence, hazard.avoid, ...hazard.controls]) see(said)
    }
    for (const caution of sampleStepFile.cautions) see(caution)
    for (const line of sampleStepFile.emergency) see(line.says)
    for (const sentence of sampleStepFile.prohibit) see(sentence)
    expect(missing).toEqual([])
  })

  it('prints a key that it has no layout for, at step, phase and document', () => {
    const file = stepFile({
      entries: [entry('chart', 'Chart', ['noise', 'check the cones'])],
      phases: [
        phase('a', '1', 'Phase', {
          entries: [entry('hot-work', 'Hot work', 'torch, 10 m')],
          steps: [step('a/b', '1.1', 'Do it.', { entries: [entry('ramp', 'Ramp', 'rise in 10 s')] })],
        }),
      ],
    })
    const text = sheetText(file)
    for (const written of ['check the cones', 'torch, 10 m', 'rise in 10 s']) expect(text).toContain(written)
  })

  it('prints a key with a layout generically where the step file resolved nothing from it', () => {
    const lost = step('a/b', '1.1', 'Do it.', { entries: [entry('torque', 'Torque', 'cover: ??')] })
    expect(sheetText(stepFile({ phases: [phase('a', '1', 'Phase', { steps: [lost] })] }))).toContain('cover: ??')
  })

  it('is the same for the same step file', () => {
    expect(checklistSources(sampleStepFile, choices)).toEqual(
      checklistSources(structuredClone(sampleStepFile), choices),
    )
  })

  it.each([
    ['issued', false, null],
    ['issued', true, 'DRAFT'],
    ['draft', false, 'DRAFT'],
    ['for-review', false, 'FOR REVIEW'],
    ['withdrawn', false, 'WITHDRAWN'],
  ] as const)('of a document that is %s (draft asked: %s) says %s', (status, draft, expected) => {
    const file = { ...sampleStepFile, document: { ...sampleStepFile.document, status } }
    const sheet = checklistSources(file, { ...choices, draft }).files.find((one) => one.path === 'sheet.json')
    expect(sheet && 'text' in sheet ? JSON.parse(sheet.text).notForUse : undefined).toBe(expected)
  })
})

it('the square code is read back by another decoder', () => {
  const code = squareCode('KRQ-HT-021', 'A', sampleStepFile.digest)
  const size = Number(/viewBox="0 0 (\d+)/.exec(code.svg)?.[1])
  const scale = 4
  const pixels = new Uint8ClampedArray((size * scale) ** 2 * 4).fill(255)
  for (const bar of code.svg.matchAll(/M(\d+) (\d+)h(\d+)v1/g)) {
    const [x, y, length] = [Number(bar[1]), Number(bar[2]), Number(bar[3])]
    for (let py = y * scale; py < (y + 1) * scale; py += 1) {
      for (let px = x * scale; px < (x + length) * scale; px += 1) {
        pixels.fill(0, (py * size * scale + px) * 4, (py * size * scale + px) * 4 + 3)
      }
    }
  }
  expect(jsQR.default(pixels, size * scale, size * scale)?.data).toBe(`KRQ-HT-021 rev A ${sampleStepFile.digest}`)
})

describe('text for paper', () => {
  it.each([
    ['250 N·m', '250\u00a0N·m'],
    ['12 × M16 10.9', '12\u00a0×\u00a0M16 10.9'],
    ['1 200 kg ± 10 %', '1\u202f200\u00a0kg ± 10\u00a0%'],
    ['in step 3 hold it', 'in step 3 hold it'],
    ['left\u202eright', 'leftright'],
  ])('%s', (written, printed) => {
    expect(tidyText(written)).toBe(printed)
  })

  it('lets a word part that is longer than a column, and keeps its letters', () => {
    const word = 'X'.repeat(100)
    expect(tidyText(word).split('\u200b').length).toBeGreaterThan(5)
    expect(tidyText(word).replaceAll('\u200b', '')).toBe(word)
  })
})

it('a worked-out value has a blank for every figure that goes into it', () => {
  expect(arithmetic(sampleStepFile, 'mean(end-play-found) - 0.01 mm')).toEqual([
    { kind: 'words', text: 'mean(' },
    { kind: 'words', text: 'end play found:' },
    { kind: 'blank', text: 'first' },
    { kind: 'blank', text: 'second' },
    { kind: 'blank', text: 'third' },
    { kind: 'words', text: ') − 0.01 mm' },
  ])
  expect(arithmetic(sampleStepFile, 'end-play-found.first * 2')).toEqual([
    { kind: 'blank', text: 'end play found first' },
    { kind: 'words', text: '× 2' },
  ])
})
