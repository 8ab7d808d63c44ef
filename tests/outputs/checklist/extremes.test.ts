import { describe, expect, it } from 'vitest'
import type { PositionMark } from '../../../src/devices/typesetter/position-check.ts'
import { loadTypesetter } from '../../../src/devices/typesetter/typesetter.ts'
import { checklistSources } from '../../../src/outputs/checklist/checklist-sources.ts'
import type { Paper } from '../../../src/outputs/checklist/sheet.ts'
import type { StepFile } from '../../../src/step-file/step-file.ts'
import { isInstalled, needs, run, saved } from '../../devices/typesetter/pdf-tools.ts'
import { bullets, hazard, limit, phase, reading, step, stepFile, torque } from './step-file-parts.ts'

/** Documents as nobody would write them. Their text is asked of another program: what is cut off or missing shows there. */

const patience = 120_000
const papers: readonly Paper[] = ['a4', 'letter']

async function print(file: StepFile, paper: Paper = 'a4') {
  const typesetter = loadTypesetter()
  if ('missing' in typesetter) throw new Error(typesetter.missing)
  const { bytes, marks, pages } = await typesetter.typeset(
    checklistSources(file, { paper, draft: false, standard: 'a-3a' }),
  )
  const path = saved(bytes)
  const texts = run('pdftotext', '-layout', path, '-').split('\f').slice(0, pages)
  const of = (what: PositionMark['what']) => marks.filter((mark) => mark.what === what)
  return { path, texts, pages, of }
}

type Printed = Awaited<ReturnType<typeof print>>

/** Every step begins and ends on one page, with the last of its warnings, and every page says which it is. */
function expectWhole({ of, texts, pages }: Printed, steps: number) {
  expect([of('start').length, of('end').length, of('split').length]).toEqual([steps, steps, 0])
  const begins = new Map(of('start').map((mark) => [mark.id, mark.page]))
  for (const mark of [...of('end'), ...of('warning')])
    expect([mark.id, mark.page]).toEqual([mark.id, begins.get(mark.id)])
  texts.forEach((text, index) => {
    expect(text).toContain(`page ${index + 1} of ${pages}`)
  })
}

/** Words that stand with their right edge beyond the margin of 12 mm, or below the paper. */
function beyondTheMargin(path: string): readonly string[] {
  const found: string[] = []
  let [width, height] = [0, 0]
  for (const line of run('pdftotext', '-bbox', path, '-').split('\n')) {
    const page = /<page width="([\d.]+)" height="([\d.]+)"/.exec(line)
    if (page) [width, height] = [Number(page[1]), Number(page[2])]
    const word = /<word xMin="([-\d.]+)" yMin="[-\d.]+" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*)<\/word>/.exec(line)
    const margin = (12 * 72) / 25.4
    if (word && (Number(word[2]) > width - margin || Number(word[1]) < margin || Number(word[3]) > height))
      found.push(word[4] ?? '')
  }
  return found
}

const one = (text: string, parts: Parameters<typeof step>[3] = {}, file: Partial<StepFile> = {}) =>
  stepFile({ phases: [phase('a', '1', 'Phase', { steps: [step('a/b', '1.1', text, parts)] })], ...file })
const many = (count: number, parts: (index: number) => Parameters<typeof step>[3] = () => ({})) =>
  Array.from({ length: count }, (_, index) =>
    step(`a/s${index}`, `1.${index + 1}`, `Tighten bolt ${index + 1} and look at it.`, parts(index)),
  )
const inOnePhase = (steps: readonly ReturnType<typeof step>[], file: Partial<StepFile> = {}) =>
  stepFile({ phases: [phase('a', '1', 'Phase', { steps: [...steps] })], ...file })
const words = ['danger', 'warning', 'caution', 'notice'] as const
const hazards = (count: number) =>
  Array.from({ length: count }, (_, index) =>
    hazard(`h${index}`, words[index % 4] ?? 'notice', {
      hazard: `Rope ${index} whips back`,
      consequence: 'breaks a leg',
      avoid: 'Stand to the side.',
    }),
  )
const flat = (texts: readonly string[]) => texts.join('\n').replaceAll('\u200b', '').replace(/\s+/g, ' ')

describe.skipIf(!isInstalled('pdftotext'))(`at its extremes (${needs('pdftotext')})`, () => {
  it.each<[steps: number, paper: Paper, pagesAtMost: number]>([
    [1, 'a4', 4],
    [1, 'letter', 4],
    [60, 'a4', 8],
    [60, 'letter', 9],
    [300, 'a4', 26],
  ])(
    '%i plain steps on %s: whole, in %i pages at most',
    async (steps, paper, atMost) => {
      const printed = await print(inOnePhase(many(steps)), paper)
      expectWhole(printed, steps)
      expect(printed.pages).toBeLessThanOrEqual(atMost)
    },
    patience,
  )

  it.each(papers)(
    'a warning at every third of 40 steps, readings and torques between, on %s: none parts from its step',
    async (paper) => {
      const steps = many(40, (index) => ({
        hazards: index % 3 === 0 ? [`h${index}`] : [],
        readings: index % 3 === 1 ? [reading('gap', 'measure', { unit: 'mm', limit: limit('1 to 2 mm', 'mm') })] : [],
        torques: index % 3 === 2 ? [torque('bolt', '90 to 110 N·m')] : [],
      }))
      const printed = await print(inOnePhase(steps, { hazards: hazards(40) }), paper)
      expectWhole(printed, 40)
      expect(printed.of('warning')).toHaveLength(14)
    },
    patience,
  )

  it.each(papers)(
    '40 hazards at one step on %s: split on purpose and said so, the last of them with the step',
    async (paper) => {
      const all = hazards(40)
      const printed = await print(one('Go in.', { hazards: all.map(({ id }) => id) }, { hazards: all }), paper)
      const { of, texts } = printed
      expect(of('split')).toHaveLength(1)
      expect(of('warning').map(({ page }) => page)).toEqual(of('start').map(({ page }) => page))
      expect(flat(texts)).toContain('Step 1.1 is longer than a page and goes on over the page.')
      expect(flat(texts)).toContain('End of step 1.1.')
      for (const { hazard: what } of all) expect(flat(texts)).toContain(what)
      // What can kill stands on the first page too, and says how many more there are.
      expect(texts[0]).toMatch(/\d+ more stand at their steps/)
    },
    patience,
  )

  it(
    'no hazards: said, and no panel',
    async () => {
      const { texts } = await print(one('Wipe the plate.'))
      expect(flat(texts)).toContain('No hazard with DANGER or WARNING is named in this procedure.')
      expect(flat(texts)).not.toMatch(/\b(?:CAUTION|NOTICE)\b/)
    },
    patience,
  )

  it.each(papers)(
    'words of 200 letters and limits of 120 on %s: nothing beyond the margin, nothing cut off',
    async (paper) => {
      const word = 'Kettenspannvorrichtung'.repeat(9)
      const long = `${'1 234.567 to 2 345.678 '.repeat(5)}kN·m/°C`
      const wide = limit(long, 'kN·m/°C')
      const file = one(`Tighten the ${word} now.`, {
        tries: 4,
        readings: [reading(word, 'measure', { limit: wide, asks: `How far is the ${word}?` })],
        torques: [torque(word, long)],
        details: [bullets(word)],
      })
      const { path, texts, of } = await print({ ...file, document: { ...file.document, title: word } }, paper)
      expect(beyondTheMargin(path)).toEqual([])
      expect(of('end')).toHaveLength(1)
      const bare = flat(texts).replaceAll(' ', '')
      // Letters fall in lines of a column, other columns between them: the pieces are all there.
      expect(bare.split(word.slice(0, 12)).length - 1).toBeGreaterThan(8)
      expect(bare.split('1234.567').length - 1).toBeGreaterThanOrEqual(10)
    },
    patience,
  )

  it(
    'letters of Latin languages stand as typed',
    async () => {
      const said = 'Łożysko, šroub, čep, ő ű, ğ ı İ ş, ñ ç ã, å ø æ, þ ð, ế ộ ữ, ŵ ŷ, ș ț, ā ē ģ ķ ļ ņ'
      const { texts } = await print(one(said))
      expect(flat(texts).normalize('NFC')).toContain(said)
    },
    patience,
  )

  it(
    'a table and readings longer than a page have their heads on each page',
    async () => {
      const positions = Array.from({ length: 50 }, (_, index) => `place ${index + 1}`)
      const tried = reading('gap', 'measure', { limit: limit('1 to 2 mm', 'mm'), positions })
      const { texts, of } = await print(one('Read them all.', { tries: 3, readings: [tried] }))
      expect(of('split')).toHaveLength(1)
      const withRows = texts.filter((text) => /place \d+\b/.test(text))
      expect(withRows.length).toBeGreaterThan(2)
      for (const text of withRows) expect(text).toMatch(/reading and limit\s+try 1\s+try 2\s+try 3\s+gap\s+1 to 2\smm/)
      for (const place of positions)
        expect(texts.filter((text) => new RegExp(`${place}\\b`).test(text))).toHaveLength(1)
    },
    patience,
  )

  it(
    'a list to fetch longer than a page has its head and the name of its phase on each page',
    async () => {
      const tools = Array.from({ length: 70 }, (_, index) => ({
        ...fetched(index),
        usedIn: [{ phase: 'a', step: 'a/b' }],
      }))
      const { texts } = await print(one('Use them.', {}, { resources: { ...stepFile().resources, tools } }))
      const lists = texts.filter((text) => /tool number \d+/.test(text))
      expect(lists.length).toBeGreaterThan(1)
      for (const text of lists) expect(text).toMatch(/what, number, quantity[\s\S]*1 +Phase/)
    },
    patience,
  )
})

function fetched(index: number): StepFile['resources']['tools'][number] {
  return {
    id: `t${index}`,
    name: `tool number ${index}`,
    number: null,
    quantity: null,
    replace: null,
    facts: [],
    isInstrument: false,
    usedIn: [],
    listed: true,
  }
}
