import { describe, expect, it } from 'vitest'
import { checklistSources } from '../../../src/outputs/checklist/checklist-sources.ts'
import { fieldName, partsOfFieldName } from '../../../src/outputs/checklist/field-name.ts'
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
