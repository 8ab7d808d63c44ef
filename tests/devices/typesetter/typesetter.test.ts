import { execFileSync } from 'node:child_process'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { inflateSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { loadTypesetter, type Typesetter } from '../../../src/devices/typesetter/typesetter.ts'
import { type ChecklistChoices, checklistSources } from '../../../src/outputs/checklist/checklist-sources.ts'
import type { StepFile } from '../../../src/step-file/step-file.ts'
import { allSteps, type StepSheet } from '../../../src/wording/step-file-parts.ts'
import { sampleStepFile } from '../../outputs/checklist/sample-step-file.ts'
import { bullets, hazard, limit, phase, reading, step, stepFile } from '../../outputs/checklist/step-file-parts.ts'

const onPaper: ChecklistChoices = { paper: 'a4', draft: false, standard: 'a-3a' }
const patience = 120_000

function typesetter(): Typesetter {
  const loaded = loadTypesetter()
  if ('missing' in loaded) throw new Error(loaded.missing)
  return loaded
}

const oneStep = (text: string, parts: Partial<StepSheet> = {}, file: Partial<StepFile> = {}) =>
  stepFile({ phases: [phase('a', '1', 'Phase', { steps: [step('a/b', '1.1', text, parts)] })], ...file })
const typeset = (file: StepFile, choices = onPaper) => typesetter().typeset(checklistSources(file, choices))

/** The content of every compressed stream of a PDF (ISO 32000-1, 7.3.8). */
function streams(pdf: Uint8Array): readonly string[] {
  const raw = Buffer.from(pdf).toString('latin1')
  return [...raw.matchAll(/stream\r?\n([\s\S]*?)\r?\nendstream/g)].map((match) => {
    const bytes = Buffer.from(match[1] ?? '', 'latin1')
    try {
      return inflateSync(bytes).toString('utf8')
    } catch {
      return bytes.toString('utf8')
    }
  })
}

describe('the whole sample', () => {
  it.each([
    ['a4', 'a-3a'],
    ['letter', 'ua-1'],
    ['a4', null],
  ] as const)(
    'on %s as %s: every step whole on one page, its warning with it',
    async (paper, standard) => {
      const { marks, pages } = await typeset(sampleStepFile, { ...onPaper, paper, standard })
      const steps = sampleStepFile.phases.flatMap((one) => allSteps(one.steps))
      expect(marks.filter((mark) => mark.what === 'start').map((mark) => mark.id)).toEqual(steps.map((one) => one.id))
      expect(marks.filter((mark) => mark.what === 'split')).toEqual([])
      for (const one of steps) {
        const pagesOfStep = new Set(marks.filter((mark) => mark.id === one.id).map((mark) => mark.page))
        expect([one.id, pagesOfStep.size]).toEqual([one.id, 1])
      }
      expect(Math.max(...marks.map((mark) => mark.page))).toBeLessThanOrEqual(pages)
    },
    patience,
  )

  it(
    'is the same bytes from another typesetter, and has the step file in it unchanged',
    async () => {
      const sources = checklistSources(sampleStepFile, onPaper)
      const first = await typesetter().render(sources)
      const second = await typesetter().render(sources)
      expect(Buffer.from(first).equals(Buffer.from(second))).toBe(true)
      const attached = streams(first).filter((stream) => stream.startsWith('{') && stream.includes('"formatVersion"'))
      expect(attached.map((text) => JSON.parse(text))).toEqual([JSON.parse(JSON.stringify(sampleStepFile))])
    },
    patience,
  )

  it(
    'puts each side of a repeat on pages of its own',
    async () => {
      const { marks } = await typeset(sampleStepFile)
      const pagesOf = (side: string) => new Set(marks.filter((mark) => mark.id.includes(`@${side}`)).map((m) => m.page))
      expect([...pagesOf('left')].filter((page) => pagesOf('right').has(page))).toEqual([])
    },
    patience,
  )
})

describe('the written words', () => {
  const installed = isInstalled('pdftotext')
  it.skipIf(!installed)(
    `are on the page, with page X of Y on each (needs pdftotext of poppler-utils${installed ? '' : ', not installed here'})`,
    async () => {
      const { bytes, pages } = await typeset(sampleStepFile)
      const file = join(mkdtempSync(join(tmpdir(), 'checklist-')), 'checklist.pdf')
      writeFileSync(file, bytes)
      const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' })
      const perPage = text.split('\f').slice(0, pages)
      perPage.forEach((page, index) => {
        expect(page).toContain(`page ${index + 1} of ${pages}`)
        expect(page).toContain('KRQ-HT-021')
        expect(page).not.toContain('NOT FOR USE')
      })
      const flat = bare(text)
      const wanted = sampleStepFile.phases
        .flatMap((one) => one.steps)
        .flatMap((one) => [
          one.text.plain,
          ...one.readings.flatMap((found) => found.limit?.text ?? []),
          ...one.torques.map((found) => found.limit.text),
        ])
      expect(wanted.filter((words) => !inOrder(flat, words))).toEqual([])
    },
    patience,
  )

  it.skipIf(!installed)(
    'of a draft say NOT FOR USE on every page and leave no place to sign',
    async () => {
      const { bytes, pages } = await typeset(sampleStepFile, { ...onPaper, draft: true })
      const file = join(mkdtempSync(join(tmpdir(), 'checklist-')), 'draft.pdf')
      writeFileSync(file, bytes)
      const perPage = execFileSync('pdftotext', [file, '-'], { encoding: 'utf8' }).split('\f').slice(0, pages)
      for (const page of perPage) expect(page).toContain('NOT FOR USE')
      expect(perPage.join('')).not.toMatch(/SIGNATURE|signature/)
    },
    patience,
  )
})

describe('hard documents', () => {
  it.each([1, 60, 300])(
    '%i steps',
    async (count) => {
      const steps = Array.from({ length: count }, (_, index) =>
        step(`a/s${index}`, `1.${index + 1}`, 'Tighten the bolt.'),
      )
      const { marks } = await typeset(stepFile({ phases: [phase('a', '1', 'Phase', { steps })] }))
      expect(marks.filter((mark) => mark.what === 'end')).toHaveLength(count)
    },
    patience,
  )

  it(
    'no phase at all, and a phase without steps',
    async () => {
      expect((await typeset(stepFile())).pages).toBeGreaterThan(1)
      expect((await typeset(stepFile({ phases: [phase('a', '1', 'Empty')] }))).pages).toBeGreaterThan(1)
    },
    patience,
  )

  it.each<[string, StepFile]>([
    ['a reading at sixty places', oneStep('Read.', { tries: 3, readings: [manyPlaces()] })],
    ['a text of six hundred sentences', oneStep('Look at it well. '.repeat(600))],
    ['two hundred bullets', oneStep('Look.', { details: [bullets(...Array(200).fill('A point of the list.'))] })],
    ['forty hazards', oneStep('Go in.', { hazards: manyHazards().map((one) => one.id) }, { hazards: manyHazards() })],
  ])(
    '%s: split on purpose, nothing cut off',
    async (_name, file) => {
      const { marks } = await typeset(file)
      const of = (what: string) => marks.filter((mark) => mark.what === what)
      expect(of('split')).toHaveLength(1)
      expect(of('end')[0]?.page).toBeGreaterThan(of('split')[0]?.page ?? 0)
      for (const warning of of('warning')) expect(warning.page).toBe(of('start')[0]?.page)
    },
    patience,
  )

  it(
    'a tall step that was taken for a short one is measured after all, and split',
    async () => {
      const sources = checklistSources(oneStep('Look at it well. '.repeat(600)), onPaper)
      const files = sources.files.map((file) =>
        file.path === 'sheet.json' && 'text' in file
          ? { ...file, text: file.text.replaceAll('"isShort":false', '"isShort":true') }
          : file,
      )
      const { marks } = await typesetter().typeset({ ...sources, files })
      // The second time everything is measured, whatever it was taken for.
      expect(marks.filter((mark) => mark.what === 'split')).toHaveLength(1)
    },
    patience,
  )

  it(
    'words and limits wider than their column',
    async () => {
      const wide = limit(`1 000 000.001 to 2 000 000.002 kN·m/°C ${'X'.repeat(80)}`, 'kN·m/°C')
      const file = oneStep('Y'.repeat(300), {
        tries: 4,
        readings: [reading('r'.repeat(90), 'measure', { limit: wide })],
      })
      expect((await typeset(file)).pages).toBeGreaterThan(1)
    },
    patience,
  )

  it(
    'letters and signs of the trade in Latin, Greek and Cyrillic',
    async () => {
      const file = oneStep('Έλεγχος, проверка, Łódź: ⌀ ≤ ≥ ± × · → ½ ⅜ µm Ω °C ☐ “x” — – … ′ ″ № ⚠ ✓')
      expect((await typeset(file)).pages).toBeGreaterThan(1)
    },
    patience,
  )
})

describe('what cannot be printed', () => {
  it('names the character that no font has, and its step', async () => {
    await expect(typeset(oneStep('Lift the 中 plate.'))).rejects.toThrow(/Step 1\.1 has the character "中" \(U\+4E2D\)/)
  })

  it('names the figure that is no picture', async () => {
    const figures = sampleStepFile.figures.map((figure) => ({ ...figure, content: '<svg' }))
    await expect(typeset({ ...sampleStepFile, figures })).rejects.toThrow(
      /The figure procedures\/hub\/figures\/plate\.svg cannot be drawn/,
    )
  })

  it('never lets an author’s text become markup', async () => {
    const file = oneStep('#panic("no") $x$ *bold* @label <label> \\ `raw` #include "/etc/hostname" [=x] {#id}')
    expect((await typeset(file)).pages).toBeGreaterThan(1)
  })
})

function manyPlaces() {
  const positions = Array.from({ length: 60 }, (_, index) => `place ${index + 1}`)
  return reading('gap', 'measure', { limit: limit('1 to 2 mm', 'mm'), positions })
}

function manyHazards() {
  const words = ['danger', 'warning', 'caution', 'notice'] as const
  return Array.from({ length: 40 }, (_, index) =>
    hazard(`h${index}`, words[index % 4] ?? 'notice', {
      hazard: `Hazard ${index}`,
      consequence: 'hurts',
      avoid: 'Out.',
    }),
  )
}

function isInstalled(program: string): boolean {
  try {
    execFileSync(program, ['-v'], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
}

/** Only letters and figures: line ends and ink fields fall between words. */
const bare = (text: string): string => text.replace(/[^\p{L}\p{N}]+/gu, ' ')

/** The words one after the other, with at most a few of a neighbouring column between two of them. */
function inOrder(text: string, words: string): boolean {
  const pattern = bare(words)
    .trim()
    .split(' ')
    .map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
    .join('(?: \\S+){0,12}? ')
  return new RegExp(pattern, 'u').test(text)
}
