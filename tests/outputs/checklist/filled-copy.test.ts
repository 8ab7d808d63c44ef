import { PDFDocument, PDFTextField } from '@cantoo/pdf-lib'
import { beforeAll, describe, expect, it } from 'vitest'
import { readFilledPdf } from '../../../src/devices/typesetter/read-filled-pdf.ts'
import { loadTypesetter } from '../../../src/devices/typesetter/typesetter.ts'
import { checklistSources } from '../../../src/outputs/checklist/checklist-sources.ts'
import { entriesOfCopy, ticksAgainstLimits } from '../../../src/outputs/checklist/filled-copy.ts'
import { makeJob } from '../../../src/record/make-job.ts'
import { makeRecord } from '../../../src/record/make-record.ts'
import { readRecord } from '../../../src/record/read-record.ts'
import { tellRecord } from '../../../src/record/tell-record.ts'
import { stepFileOf } from '../../compile-text.ts'
import { idlerBody, idlerFront } from './idler.ts'

const patience = 120_000
const file = stepFileOf(idlerBody, {}, idlerFront)
const issued = { ...file, document: { ...file.document, status: 'issued' as const } }
const saved = '2026-03-03T06:00:00Z'
let blank: Uint8Array = new Uint8Array()

beforeAll(async () => {
  const typesetter = loadTypesetter()
  if ('missing' in typesetter) throw new Error(typesetter.missing)
  const variant = { bolt: 'm16' }
  const choices = { paper: 'a4', draft: false, standard: null, fillable: true, variant } as const
  blank = await typesetter.fillable(checklistSources(issued, choices))
}, patience)

/** Fills the fields as any reader of PDF would. */
async function filled(texts: Readonly<Record<string, string>>, ticks: readonly string[]) {
  const pdf = await PDFDocument.load(blank, { updateMetadata: false })
  const form = pdf.getForm()
  for (const [name, text] of Object.entries(texts)) form.getTextField(name).setText(text)
  for (const name of ticks) form.getCheckBox(name).check()
  const copy = await readFilledPdf(await pdf.save())
  if (copy === null || copy === 'locked') throw new Error('not read')
  return copy
}

const crew = {
  'person|fitter|name': 'R. Falk',
  'person|fitter|initials': 'RF',
  'person|supervisor|name': 'I. Moor',
  'job|machine no': 'BC-3',
}
const holdId = issued.holds[0]?.hold ?? ''
const inHold = (what: string): string => `hold|${holdId}|1|${what}`
const signed = { [inHold('name')]: 'I. Moor', [inHold('date')]: '2026-03-02', [inHold('time')]: '14:30' }
const stepIds = file.phases.flatMap(({ steps }) => steps.map(({ id }) => id))
const idOf = (end: string): string => stepIds.find((id) => id === end || id.endsWith(`/${end}`)) ?? end

describe('a copy to fill in', () => {
  it('has a field for every box, blank and signature of the steps, and no two of them the same', async () => {
    const pdf = await PDFDocument.load(blank)
    const fields = pdf.getForm().getFields()
    const names = fields.map((field) => field.getName())
    expect(new Set(names).size).toBe(names.length)
    for (const id of stepIds.filter((one) => one !== idOf('washers'))) expect(names).toContain(`step|${id}|1`)
    for (const attempt of [1, 2, 3])
      for (const place of ['left', 'right']) expect(names).toContain(`reading|${idOf('gap')}|gap|${place}|${attempt}`)
    expect(names.filter((name) => name.startsWith('torque|')).sort()).toMatchInlineSnapshot(`
      [
        "torque|tighten|bracket-16|pass|1|1",
        "torque|tighten|bracket-16|pass|2|1",
        "torque|tighten|bracket-16|set",
        "torque|tighten|bracket-16|tool",
      ]
    `)
    expect(names.some((name) => name.includes('.'))).toBe(false)
    const said = fields.map((field) => field.acroField.dict.toString())
    expect(said.every((dict) => dict.includes('/TU'))).toBe(true)
    expect(
      fields
        .filter((field) => field instanceof PDFTextField)
        .every((field) => (field as PDFTextField).getText() === undefined),
    ).toBe(true)
  })

  it('lies inside its page, where its blank is printed', async () => {
    const pdf = await PDFDocument.load(blank)
    for (const field of pdf.getForm().getFields())
      for (const widget of field.acroField.getWidgets()) {
        const { x, y, width, height } = widget.getRectangle()
        expect([x > 30, y > 10, x + width < 565, y + height < 832], field.getName()).toEqual([true, true, true, true])
        expect(width, field.getName()).toBeGreaterThan(10)
        expect(height, field.getName()).toBeGreaterThan(10)
      }
  })

  it('carries the step file and its digest, and says for which machine it is', async () => {
    const copy = await filled({}, [])
    expect(JSON.parse(copy.steps ?? 'null')).toEqual(JSON.parse(JSON.stringify(issued)))
    expect(copy.keywords).toContain(issued.digest)
    expect(copy.keywords).toContain('variant bolt=m16')
  })
})

describe('a filled copy read back', () => {
  const read = async (texts: Readonly<Record<string, string>>, ticks: readonly string[]) => {
    const copy = await filled(texts, ticks)
    const entries = entriesOfCopy(issued, copy, { bolt: 'm16' })
    const job = makeJob(issued)
    const record = makeRecord(job, { entries, source: 'filled-print', saved, photos: new Map() })
    return {
      copy,
      entries,
      record,
      remarks: tellRecord(job, record).map(({ number, says }) => `${number} ${says}`.trim()),
    }
  }
  const gap = (place: string, attempt: number) => `reading|${idOf('gap')}|gap|${place}|${attempt}`
  const everyTick = () => [
    `step|${idOf('stop')}|1`,
    `step|${idOf('gap')}|2`,
    `step|${idOf('tighten')}|1`,
    `torque|${idOf('tighten')}|bracket-16|pass|1|1`,
    `torque|${idOf('tighten')}|bracket-16|pass|2|1`,
    `reading|${idOf('look')}|roller-turns||1|1`,
    `step|${idOf('look')}|1`,
    `step|${idOf('start')}|1`,
  ]
  const readings = {
    [gap('left', 1)]: '3.4',
    [gap('right', 1)]: '2.4',
    [gap('left', 2)]: '2,6',
    [gap('right', 2)]: '0.1 in',
  }

  it('is a valid record of the run: tries, judgements, the hold with who and when', async () => {
    const { record, remarks } = await read({ ...crew, ...signed, ...readings }, everyTick())
    expect(readRecord(JSON.stringify(record))).toEqual({ record: expect.anything(), faults: [] })
    expect(record).toMatchObject({ equipment: 'BC-3', variants: { bolt: 'm16' }, source: 'filled-print' })
    expect(record.holds).toMatchObject([{ outcome: 'signed', name: 'I. Moor', at: '2026-03-02' }])
    const step = record.steps.find(({ step: id }) => id === idOf('gap'))
    expect(step?.readings.map(({ position, typed, verdict, counts }) => [position, typed, verdict, counts])).toEqual([
      ['left', '3.4 mm', 'high', false],
      ['left', '2.6 mm', 'in', true],
      ['right', '2.4 mm', 'in', false],
      ['right', '0.1 in', 'in', true],
    ])
    expect(remarks).toEqual([expect.stringMatching(/^2\.1 gap, left: 3\.4 mm.* at an earlier try \(high\)/)])
    expect(record.complete).toBe(true)
  })

  it('tells what is missing and what is out, in shop words', async () => {
    const { remarks } = await read({ ...crew, [gap('left', 1)]: '3.4' }, [`step|${idOf('gap')}|1`])
    expect(remarks).toEqual(
      expect.arrayContaining([
        '1.1 Not ticked.',
        'H1 Not signed: I saw the belt locked and tried.',
        expect.stringMatching(/^2\.1 gap, left: 3\.4 mm.*\(high\)/),
        expect.stringMatching(/^2\.1 .*gap, right/),
      ]),
    )
  })

  it('tells a tick that says the contrary of the limit', async () => {
    const { copy, entries } = await read({ ...crew, [gap('left', 1)]: '3.4' }, [`${gap('left', 1)}|in`])
    expect(ticksAgainstLimits(issued, copy, entries)).toEqual([
      expect.stringMatching(/^2\.1: 3\.4 mm is ticked as in limit, and is out \(/),
    ])
  })

  it('is the same record each time, and another for another copy', async () => {
    const ids = async (text: string) =>
      (await read({ ...crew, [gap('left', 1)]: text }, [])).entries.map(({ id }) => id)
    expect(await ids('2.1')).toEqual(await ids('2.1'))
    expect((await ids('2.1'))[0]).not.toBe((await ids('2.2'))[0])
  })
})
