import { beforeAll, describe, expect, it } from 'vitest'
import type { PositionMark } from '../../../src/devices/typesetter/position-check.ts'
import { loadTypesetter } from '../../../src/devices/typesetter/typesetter.ts'
import { checklistSources } from '../../../src/outputs/checklist/checklist-sources.ts'
import type { StepFile } from '../../../src/step-file/step-file.ts'
import { allSteps } from '../../../src/wording/step-file-parts.ts'
import { type PrintedPage, type PrintedRun, printedPages } from './printed-page.ts'
import { sampleStepFile } from './sample-step-file.ts'
import { hazard, phase, reading, step, stepFile } from './step-file-parts.ts'

/**
 * What the rules of page layout ask of the printed checklist, measured on the PDF itself. The rules and their sources stand in
 * `tests/coverage/rules.json`; numbers that no source gives are said to be ours.
 */

const patience = 120_000
const millimetre = 72 / 25.4
const instructionSize = 12.5
const boxOfStep = 7 * millimetre

async function print(file: StepFile) {
  const typesetter = loadTypesetter()
  if ('missing' in typesetter) throw new Error(typesetter.missing)
  const { bytes, marks } = await typesetter.typeset(
    checklistSources(file, { paper: 'a4', draft: false, standard: 'a-3a' }),
  )
  return { pages: printedPages(bytes), marks, raw: Buffer.from(bytes).toString('latin1') }
}

const plain = (text: string): string => text.replace(/[\u00a0\u202f]/g, ' ').replaceAll('\u200b', '')
const words = (page: PrintedPage): string => plain(page.text).replaceAll('\n', ' ').replace(/ +/g, ' ')

let pages: readonly PrintedPage[] = []
let marks: readonly PositionMark[] = []
let raw = ''

beforeAll(async () => {
  const printed = await print(sampleStepFile)
  pages = printed.pages
  marks = printed.marks
  raw = printed.raw
}, patience)

const steps = sampleStepFile.phases.flatMap((one) => allSteps(one.steps))
const runs = (): readonly PrintedRun[] => pages.flatMap((page) => page.runs)
const isNear = (a: number, b: number, by = 0.1): boolean => Math.abs(a - b) <= by
const stepBoxes = (page: PrintedPage) =>
  page.boxes.filter((box) => isNear(box.width, boxOfStep) && isNear(box.height, boxOfStep) && isNear(box.line, 1.2))

describe('every page', () => {
  it('carries number, revision, date, title and page X of Y', () => {
    expect(pages.length).toBeGreaterThan(10)
    const { number, revision, date, title } = sampleStepFile.document
    pages.forEach((page, index) => {
      const said = words(page)
      for (const part of [
        `${number} rev ${revision}`,
        `dated ${date}`,
        title.slice(0, 40),
        `page ${index + 1} of ${pages.length}`,
      ])
        expect(said).toContain(part)
    })
  })

  it('has blanks for machine, serial and job, and says which revision it is good for', () => {
    for (const page of pages) {
      for (const blank of ['MACHINE NO', 'SERIAL', 'JOB NO', 'initials']) expect(words(page)).toContain(blank)
      expect(words(page)).toContain(`Before use, see that rev ${sampleStepFile.document.revision} is the one in force.`)
    }
  })

  it('names the phase that runs on from the page before', () => {
    const begins = marks.filter((mark) => mark.what === 'phase')
    const runsOn = marks.filter((mark) => mark.what === 'start' && !begins.some((begin) => begin.page === mark.page))
    expect(runsOn.length).toBeGreaterThan(0)
    for (const mark of runsOn) {
      const owner = sampleStepFile.phases.find((one) => allSteps(one.steps).some((inner) => inner.id === mark.id))
      expect(words(pages[mark.page - 1] as PrintedPage)).toContain(`${owner?.number} ${owner?.title}`)
    }
  })
})

describe('type', () => {
  it('is sans-serif, in two families', () => {
    const fonts = [...raw.matchAll(/\/BaseFont \/(?:[A-Z]+\+)?([\w-]+)/g)].map((match) => match[1] ?? '')
    expect(fonts.length).toBeGreaterThan(2)
    expect(fonts.filter((font) => !/^(?:SourceSans3|DejaVuSans)-?/.test(font))).toEqual([])
  })

  it('is as the author wrote it: no instruction is put into capitals', () => {
    const all = pages.map(words).join(' ').replaceAll(' ', '')
    expect(steps.filter((one) => !all.includes(plain(one.text.plain).replaceAll(' ', ''))).map(({ id }) => id)).toEqual(
      [],
    )
  })

  it('of instructions and limits is at least 11 pt, and nothing is below 8 pt', () => {
    expect(runs().flatMap(({ text, size }) => (size < 7.99 ? [`${text} at ${size} pt`] : []))).toEqual([])
    const said = steps.map((one) => plain(one.text.plain).split(' ').slice(0, 2).join(' '))
    const instructions = runs().filter((run) => run.size === instructionSize)
    expect(said.filter((start) => !instructions.some((run) => plain(run.text).startsWith(start)))).toEqual([])
  })

  it(
    'has a quarter of its size more from line to line',
    async () => {
      const long =
        'Turn the adjuster of the left side by one flat and read the gap again at both ends of the blade. '.repeat(4)
      const { pages: printed } = await print(
        stepFile({ phases: [phase('a', '1', 'Phase', { steps: [step('a/b', '1.1', long)] })] }),
      )
      const lines = printed
        .flatMap((page) => page.runs)
        .filter((run) => run.size === instructionSize && run.text.length > 30)
      expect(lines.length).toBeGreaterThan(3)
      const gaps = lines.slice(1).map((line, index) => (lines[index]?.y ?? 0) - line.y)
      expect(Math.min(...gaps) / instructionSize).toBeGreaterThanOrEqual(1.25)
    },
    patience,
  )

  it('stands upright: slanted letters are only what the author stressed, and the word NOTICE', () => {
    const slanted = runs().filter((run) => /It$|Oblique$/.test(run.font))
    expect(slanted.filter((run) => plain(run.text).split(' ').length > 6)).toEqual([])
  })

  it('can be read on its ground: at least 4.5 to 1 for every colour', () => {
    const faint = pages.flatMap((page, index) => {
      const filled = page.boxes.filter((box) => box.fill !== '')
      return page.runs.flatMap((run) => {
        const ground = filled.findLast((box) => box.order < run.order && isInside(run, box))?.fill ?? '1'
        return contrast(run.colour, ground) < 4.5
          ? [`page ${index + 1}: "${run.text}" in ${run.colour} on ${ground}`]
          : []
      })
    })
    expect(faint).toEqual([])
  })

  it('is set from the left, within margins of 12 mm and more', () => {
    for (const page of pages) {
      expect(page.runs.filter((run) => run.x < 12 * millimetre || run.x > page.width - 12 * millimetre)).toEqual([])
      expect(page.runs.filter((run) => run.y < 4 * millimetre)).toEqual([])
    }
  })
})

describe('a step', () => {
  it('has one box for each try, and no box is shared', () => {
    const boxes = pages.reduce((sum, page) => sum + stepBoxes(page).length, 0)
    expect(boxes).toBe(steps.reduce((sum, one) => sum + Math.min(one.tries, 12), 0))
  })

  it('has its box in the same column on every page, within a finger of the text', () => {
    const single = pages.flatMap((page) =>
      stepBoxes(page)
        .filter((box) => box.x < 40 * millimetre)
        .map((box) => ({ box, page })),
    )
    const columns = new Set(single.map(({ box }) => Math.round(box.x)))
    // Steps, and sub-steps set in.
    expect(columns.size).toBeLessThanOrEqual(2)
    for (const { box, page } of single) {
      const beside = page.runs.filter(
        (run) => isNear(run.y, box.y - box.height / 2, box.height) && run.x > box.x + box.width,
      )
      const gap = Math.min(...beside.map((run) => run.x)) - box.x - box.width
      expect(gap).toBeLessThan(20 * millimetre)
    }
  })

  it('stands below the one before it, with a rule between', () => {
    const top = steps.filter((one) => !/[a-z]$/.test(one.number))
    const ends = marks.filter((mark) => mark.what === 'end')
    const starts = marks.filter((mark) => mark.what === 'start' && top.some((one) => one.id === mark.id))
    starts.slice(1).forEach((start, index) => {
      const before = ends.find((mark) => mark.id === starts[index]?.id)
      if (before?.page === start.page) expect(start.y).toBeGreaterThanOrEqual(before.y)
    })
    const rules = pages.flatMap((page) =>
      page.boxes.filter((box) => box.height < 0.1 && isNear(box.line, 0.6) && box.width > 170 * millimetre),
    )
    expect(rules.length).toBeGreaterThanOrEqual(top.length)
  })

  it(
    'that is done only sometimes can be marked as not for this job',
    async () => {
      const some = step('a/b', '1.1', 'Shim it.', { when: 'gap > 3 mm' })
      const { pages: printed } = await print(
        stepFile({ phases: [phase('a', '1', 'Phase', { steps: [some, step('a/c', '1.2', 'Close it.')] })] }),
      )
      const said = printed.map(words).join(' ')
      expect(said.match(/not for this job/g)).toHaveLength(1)
    },
    patience,
  )

  it(
    'has room to write: 26 by 10 mm at least for a figure, a number of ours',
    async () => {
      const one = reading('gap', 'measure', { unit: 'mm' })
      for (const tries of [1, 4]) {
        const read = step('a/b', '1.1', 'Read the gap.', { tries, readings: [one] })
        const { pages: printed } = await print(stepFile({ phases: [phase('a', '1', 'Phase', { steps: [read] })] }))
        const page = printed.find(({ text }) => text.includes('Read the gap.')) as PrintedPage
        const head = page.runs.findLast((run) => run.text === (tries === 1 ? 'gap' : 'try 4')) as PrintedRun
        const edges = page.boxes.filter((box) => box.width < 0.1 && box.height > 10 * millimetre && box.x > head.x - 10)
        const across = page.boxes.filter((box) => box.height < 0.1 && box.y < head.y + 10 * millimetre)
        expect(Math.max(...edges.map((box) => box.height))).toBeGreaterThanOrEqual(10 * millimetre)
        expect(Math.max(...across.map((box) => box.width))).toBeGreaterThanOrEqual(26 * millimetre)
      }
    },
    patience,
  )

  it(
    'has its warning on its own page, before it',
    async () => {
      const can = hazard('h', 'danger', { hazard: 'The blade swings back', consequence: 'cuts', avoid: 'Stand clear.' })
      const filler = Array.from({ length: 30 }, (_, index) =>
        step(`a/s${index}`, `1.${index + 1}`, 'Grease the nipple.'),
      )
      const file = stepFile({
        hazards: [can],
        phases: [
          phase('a', '1', 'Phase', {
            steps: [...filler, step('a/x', '1.31', 'Release the blade.', { hazards: ['h'] })],
          }),
        ],
      })
      const printed = await print(file)
      const at = (what: string) => printed.marks.find((mark) => mark.what === what && mark.id === 'a/x')
      expect(at('warning')?.page).toBe(at('start')?.page)
      expect(at('warning')?.y).toBeLessThan(at('start')?.y ?? 0)
    },
    patience,
  )
})

describe('the whole', () => {
  const all = () => pages.map(words).join(' ')
  const place = (part: string) => {
    const found = all().indexOf(part)
    expect(found, part).toBeGreaterThan(-1)
    return found
  }

  it('goes from what the job is over what is needed and what must be true to the steps, the end state and the release', () => {
    const order = [
      'IF IT GOES WRONG',
      'What can kill on this job',
      'Who signs in this copy',
      'What this job is',
      'Fetch first',
      'True before you start',
      'Ready to start',
      'Cautions',
      'Close-out',
      'As it must be at the end',
      'RELEASE',
      'END OF PROCEDURE',
    ]
    const places = order.map(place)
    expect(places).toEqual(places.toSorted((a, b) => a - b))
  })

  it('has nothing but states to tick before the start, and a place to sign behind them', () => {
    const from = place('True before you start')
    const before = all().slice(from, place('Ready to start'))
    for (const one of sampleStepFile.states.filter((state) => !state.implied && state.start !== 'unknown'))
      expect(before.toUpperCase()).toContain(one.start.replaceAll('-', ' ').toUpperCase())
    expect(before).not.toMatch(/\d+(?:\.\d+)? (?:to|mm|MPa|N·m)/)
    expect(all().slice(place('Ready to start'), place('Ready to start') + 80)).toMatch(/NAME.*SIGNATURE.*DATE.*TIME/)
  })

  it('ties initials to a name, a role and a signature, with a row for each role', () => {
    const table = all().slice(place('Who signs in this copy'), place('What this job is'))
    for (const head of ['role', 'name', 'initials', 'signature']) expect(table).toContain(head)
    for (const role of sampleStepFile.roles) expect(table).toContain(role.id.replaceAll('-', ' '))
    expect(table).toContain('A wrong entry: one line through it')
  })

  it('has blanks for the number and the next calibration of each instrument, and for its number at each reading', () => {
    const instruments = sampleStepFile.resources.tools.filter((tool) => tool.isInstrument)
    expect(instruments.length).toBeGreaterThan(0)
    const fetch = all().slice(place('Fetch first'), place('Wear from the start'))
    expect(fetch.match(/asset no cal\. due/g)?.length).toBeGreaterThanOrEqual(instruments.length)
    expect(all()).toMatch(/with [a-z -]+ no /)
    expect(fetch.match(/ lot /g)).toHaveLength(sampleStepFile.resources.consumables.length)
  })

  it('signs each hold with role, name, signature, date, time, and what it means', () => {
    for (const hold of steps.flatMap((one) => one.holds))
      expect(all().replaceAll(' ', '')).toContain(plain(hold.says).replaceAll(' ', ''))
    expect(all().match(/NAME[^A-Z]*(?:, TRY \d)?[^A-Z]*SIGNATURE/g)?.length ?? 0).toBeGreaterThanOrEqual(
      sampleStepFile.holds.length,
    )
  })

  it('hands over with who left, who took over and what is proved again', () => {
    expect(all()).toContain('IF YOU STOP HERE')
    for (const part of ['LEFT AT', 'LEFT BY', 'TAKEN AT', 'TAKEN OVER BY']) expect(all()).toContain(part)
  })

  it('closes with deviations, a count, the end states, two signatures and the number of pages', () => {
    const end = all().slice(place('Close-out'))
    for (const part of [
      'Deviations',
      'ALLOWED BY'.toLowerCase(),
      'Left over',
      'out',
      'back',
      'WORK DONE BY, NAME',
      'RELEASED BY, NAME',
      `All ${pages.length} pages are here`,
    ])
      expect(end).toContain(part)
    const last = pages.at(-1)
    expect(last && words(last)).toContain(`END OF PROCEDURE ${sampleStepFile.document.number}`)
  })

  it('has each side of a repeat on pages of its own', () => {
    const pagesOf = (side: string) =>
      new Set(marks.filter((mark) => mark.id.includes(`@${side}`)).map((mark) => mark.page))
    expect(pagesOf('left').size).toBeGreaterThan(0)
    expect([...pagesOf('left')].filter((page) => pagesOf('right').has(page))).toEqual([])
  })

  it('prints a figure on the page of its step or phase, or on the page before', () => {
    const captions = sampleStepFile.figures.map((figure) => figure.caption).filter((caption) => caption !== '')
    expect(captions.length).toBeGreaterThan(0)
    for (const one of sampleStepFile.phases) {
      const inPhase = JSON.stringify(one)
      for (const figure of sampleStepFile.figures) {
        if (figure.caption === '' || !inPhase.includes(figure.file)) continue
        const own = marks.filter((mark) => mark.what === 'start' && one.steps.some((inner) => inner.id === mark.id))
        const near = new Set(own.flatMap((mark) => [mark.page - 1, mark.page]))
        const shown = pages.flatMap((page, index) => (words(page).includes(plain(figure.caption)) ? [index + 1] : []))
        expect(shown.some((page) => near.has(page))).toBe(true)
      }
    }
  })
})

function isInside(run: PrintedRun, box: PrintedPage['boxes'][number]): boolean {
  // The middle of its first letter, behind a blank.
  const [x, y] = [run.x + run.size * (run.text.startsWith(' ') ? 0.5 : 0.25), run.y + run.size * 0.3]
  return x >= box.x && x <= box.x + box.width && y <= box.y && y >= box.y - box.height
}

/** WCAG 2.2, relative luminance and contrast ratio. */
function contrast(one: string, other: string): number {
  const luminance = (colour: string) => {
    const parts = colour.split(' ').map(Number)
    const [red = 0, green = red, blue = red] = parts.length === 1 ? [parts[0], parts[0], parts[0]] : parts
    const linear = (part: number) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4)
    return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue)
  }
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].toSorted((a, b) => b - a)
  return (light + 0.05) / (dark + 0.05)
}
