import { describe, expect, it } from 'vitest'
import { checklistSources } from '../../../src/outputs/checklist/checklist-sources.ts'
import { fieldName, partsOfFieldName } from '../../../src/outputs/checklist/field-name.ts'
import { entriesOfCopy } from '../../../src/outputs/checklist/filled-copy.ts'
import { forVariant } from '../../../src/outputs/checklist/for-variant.ts'
import { inOneUnit } from '../../../src/outputs/checklist/in-one-unit.ts'
import { pictureLetters } from '../../../src/outputs/checklist/picture-letters.ts'
import {
  checklistFileName,
  isChecklistFile,
  readVariant,
  variantOf,
} from '../../../src/outputs/checklist/print-choices.ts'
import { inPlace, zoneInWords } from '../../../src/wording/people-text.ts'
import { allSteps } from '../../../src/wording/step-file-parts.ts'
import { stepFileOf } from '../../compile-text.ts'
import { idlerBody, idlerFront } from './idler.ts'

const file = stepFileOf(idlerBody, {}, idlerFront)
const numbers = (one: typeof file) => one.phases.flatMap((phase) => allSteps(phase.steps)).map(({ number }) => number)

describe('a print for one machine', () => {
  it('has what applies, under the numbers that it has in every print, and lists the rest', () => {
    const { stepFile, leftOut } = forVariant(file, { bolt: 'm16' })
    expect(numbers(file)).toEqual(['1.1', '2.1', '2.2', '2.3', '2.4', '3.1'])
    expect(numbers(stepFile)).toEqual(['1.1', '2.1', '2.2', '2.4', '3.1'])
    expect(leftOut).toEqual([
      { number: '2.2', text: 'bracket 20', because: 'bolt m20' },
      { number: '2.3', text: 'Fit the long washers', because: 'bolt m20' },
    ])
    expect(stepFile.digest).toBe(file.digest)
    const sheet = checklistSources(file, {
      paper: 'a4',
      draft: false,
      standard: 'a-3a',
      variant: { bolt: 'm16' },
    }).files.find(({ path }) => path === 'sheet.json')
    const steps = JSON.stringify(
      JSON.parse(sheet && 'text' in sheet ? sheet.text : '{}').phases.flatMap(
        (phase: { steps: unknown }) => phase.steps,
      ),
    )
    // Nothing of the other machine, its worked-out figures included.
    expect(steps).toContain('M16')
    expect(steps).not.toMatch(/M20|bracket.20|washers/)
  })

  it('is the whole print where nothing was chosen, marks included', () => {
    const { stepFile, leftOut } = forVariant(file, {})
    expect([stepFile.phases, leftOut]).toEqual([file.phases, []])
  })

  it('draws nothing of a torque that it leaves out', () => {
    const torque = (name: string, only: string) =>
      `${name}: { limit: "370 to 410 N·m", fastener: 8 x ${only.toUpperCase()} 8.8, lubrication: dry, pattern: star, passes: [50 %, 100 %], only: ${only} }`
    const body = idlerBody.replace(
      /torque:\n[\s\S]*?```/,
      `torque:\n     ${torque('ring-16', 'm16')}\n     ${torque('ring-20', 'm20')}\n   \`\`\``,
    )
    const both = stepFileOf(body, {}, idlerFront)
    const drawn = (variant: Record<string, string>) =>
      checklistSources(both, { paper: 'a4', draft: false, standard: null, variant }).files.flatMap((one) =>
        one.path.startsWith('drawings/') && one.pictureName?.includes('step 2.2') ? [`${one.pictureName}`] : [],
      )
    expect(drawn({})).toHaveLength(2)
    expect(drawn({ bolt: 'm16' })).toHaveLength(1)
    expect(drawn({ bolt: 'm16' }).join()).not.toMatch(/20/)
  })

  it('attaches the step file whole', () => {
    const choices = { paper: 'a4', draft: false, standard: 'a-3a', variant: { bolt: 'm16' } } as const
    const attached = checklistSources(file, choices).files.find(({ path }) => path === 'steps.json')
    expect(attached && 'text' in attached ? JSON.parse(attached.text).digest : null).toBe(file.digest)
    expect(attached && 'text' in attached ? attached.text : '').toContain('Fit the long washers')
  })
})

describe('the choices as typed', () => {
  it.each([
    [['bolt=m16'], { variant: { bolt: 'm16' } }],
    [['bolt'], { wrong: expect.stringContaining('“bolt” is no variant') }],
    [['bolt=m16', 'bolt=m20'], { wrong: expect.stringContaining('given twice') }],
  ])('%j', (typed, read) => {
    expect(readVariant(typed)).toEqual(read)
  })

  it('are held against the document: a value that it does not have is wrong, a variant of another document is not', () => {
    expect(variantOf(file, { bolt: 'm18' })).toEqual({
      wrong: expect.stringMatching(/^the variant bolt has no value m18\. Did you mean m1/),
    })
    expect(variantOf(file, { bolt: 'm20', cab: 'left' })).toEqual({ variant: { bolt: 'm20' } })
  })

  it.each([
    [{}, false, 'checklist.pdf'],
    [{}, true, 'checklist-fillable.pdf'],
    [{ 'wheel-stud': 'm22' }, false, 'checklist-wheel-stud-m22.pdf'],
    [{ side: '../left' }, true, 'checklist-side--left-fillable.pdf'],
  ])('%j name the file', (variant, fillable, name) => {
    expect(checklistFileName(variant, fillable)).toBe(name)
    expect(isChecklistFile(name)).toBe(true)
  })
})

describe('one unit', () => {
  it('keeps the words and the rounding of the unit that leads, and nothing of the other', () => {
    const limits = (one: typeof file) =>
      one.phases
        .flatMap(({ steps }) => steps.flatMap((step) => [...step.readings, ...step.torques]))
        .map(({ limit }) => limit)
    const one = inOneUnit(file)
    expect(limits(file).map((limit) => limit?.text)).toContain('2.0 to 3.0 mm (0.080 to 0.118 in)')
    expect(limits(one).map((limit) => limit?.text)).toEqual(limits(file).map((limit) => limit?.inUnits[0]?.text))
    expect(limits(one).map((limit) => [limit?.lower, limit?.upper])).toEqual(
      limits(file).map((limit) => [limit?.lower, limit?.upper]),
    )
    expect(
      JSON.stringify(
        one.phases.flatMap(({ steps }) => steps.flatMap(({ torques }) => torques.map(({ passes }) => passes))),
      ),
    ).not.toContain('lbf·ft')
  })

  it('leaves a document of one unit as it is', () => {
    const metric = { ...file, document: { ...file.document, printUnits: ['metric'] as ['metric'] } }
    expect(inOneUnit(metric)).toBe(metric)
  })
})

describe('the unit that a blank asks for', () => {
  const withInstrument = (resolution: string, units: readonly ('metric' | 'inch')[]) => {
    const body = idlerBody
      .replace('gap: "2.0 to 3.0 mm, at left right"', 'gap: { limit: 2.0 to 3.0 mm, at: [left, right], with: feeler }')
      .replace(
        'states:',
        `tools:\n  feeler: { name: feeler gauge, measures: length, range: 0 to 1 in, resolution: ${resolution} }\nstates:`,
      )
    const compiled = stepFileOf(body, {}, idlerFront)
    return { ...compiled, document: { ...compiled.document, printUnits: [...units] } }
  }
  const blankOf = (one: typeof file, units: 'one' | 'two') => {
    const sheet = checklistSources(one, { paper: 'a4', draft: false, standard: null, units }).files.find(
      ({ path }) => path === 'sheet.json',
    )
    const { phases } = JSON.parse(sheet && 'text' in sheet ? sheet.text : '{}')
    const { unit, notes } = phases[1].steps[0].readings[0]
    return { unit, notes: notes.map((note: { label: string; text: string }) => `${note.label}: ${note.text}`) }
  }

  it('is that of an instrument which reads in the other system alone, with the limit in it', () => {
    const inch = withInstrument('0.001 in', ['metric', 'inch'])
    expect(blankOf(inch, 'two')).toEqual({ unit: 'in', notes: [] })
    // The same unit in a print that leaves inches out: copies are read back by it.
    expect(blankOf(inch, 'one')).toEqual({ unit: 'in', notes: ['as the instrument reads: 0.080 to 0.118\u00a0in'] })
  })

  it('is what a bare figure is read back in', () => {
    const inch = withInstrument('0.001 in', ['metric', 'inch'])
    const step = inch.phases[1]?.steps[0]
    const blank = (place: string) => fieldName('reading', step?.id ?? '', step?.readings[0]?.id ?? '', place, '1')
    // 2.54 mm, and 2.4 in: far out.
    const texts = new Map([
      [blank('left'), '0.1'],
      [blank('right'), '2.4'],
    ])
    const entries = entriesOfCopy(inch, { texts, ticks: new Set() }, {})
    const read = entries.flatMap((one) => (one.kind === 'reading' ? [one] : []))
    expect(read.map(({ typed, verdict }) => [typed, verdict])).toEqual([
      ['0.1 in', 'in'],
      ['2.4 in', 'high'],
    ])
  })

  it('is the leading one for an instrument that reads in it, whatever its range is said in', () => {
    expect(blankOf(withInstrument('0.01 mm', ['metric', 'inch']), 'two')).toEqual({ unit: 'mm', notes: [] })
    expect(blankOf(file, 'two')).toEqual({ unit: 'mm', notes: [] })
  })
})

describe('names of blanks', () => {
  it.each([[['step', 'a@left.3/b', '1']], [['reading', 'a/b', '50 %', 'front|0.5']], [['copy', '100%25', '%2E']]])(
    '%j',
    (parts) => {
      const name = fieldName(...parts)
      expect(name).not.toContain('.')
      expect(partsOfFieldName(name)).toEqual(parts)
    },
  )
})

describe('places', () => {
  it('are said once where the name is in the words', () => {
    expect(zoneInWords(file, 'below-belt')).toBe('below the belt')
    expect(inPlace(zoneInWords(file, 'below-belt'))).toBe('Below the belt')
    expect(inPlace('wheel end left (within reach of the hub)')).toBe('In wheel end left (within reach of the hub)')
  })
})

describe('a picture is as large as its letters need', () => {
  it.each([
    [
      '<svg viewBox="0 0 400 200"><text font-size="14">a</text><text font-size="9">b</text></svg>',
      { letters: 9, across: 400 },
    ],
    ['<svg viewBox="0 0 400 200"><style>text { font-size: 12px }</style></svg>', { letters: 12, across: 400 }],
    [
      '<svg viewBox="0 0 400 200"><g transform="scale(0.5)"><text font-size="12">a</text></g></svg>',
      { letters: null, across: 400 },
    ],
    ['<svg viewBox="0 0 400 200"><text font-size="2em">a</text></svg>', { letters: null, across: 400 }],
    ['<svg viewBox="0 0 400 200"><path d="M0 0"/></svg>', { letters: null, across: 400 }],
  ])('%s', (svg, expected) => {
    expect(pictureLetters(svg)).toEqual(expected)
  })
})
