import { execFileSync } from 'node:child_process'
import { readFileSync, truncateSync } from 'node:fs'
import { join } from 'node:path'
import { PDFDocument } from '@cantoo/pdf-lib'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { loadTypesetter } from '../../../src/devices/typesetter/typesetter.ts'
import { witnessmark } from '../../../src/doors/cli/witnessmark.ts'
import { checklistSources } from '../../../src/outputs/checklist/checklist-sources.ts'
import type { StepFile } from '../../../src/step-file/step-file.ts'
import { procedureText, stepFileOf } from '../../compile-text.ts'
import { isInstalled, needs } from '../../devices/typesetter/pdf-tools.ts'
import { idlerBody, idlerFront } from '../../outputs/checklist/idler.ts'
import { seen, workplace } from './toy-program.ts'

/** A small checklist is built to fill in, filled as any reader of PDF would, and read back: all by the command itself. */

const patience = 120_000
const issued = (text: string) => text.replace('status: for-review', 'status: issued')
const place = workplace({ 'procedures/idler/idler.md': issued(procedureText(idlerBody, idlerFront)) })
const run = (...typed: string[]) => place.run(typed, witnessmark)
const built = 'out/KRQ-TX-001-A'
const blank = `${built}/checklist-bolt-m16-fillable.pdf`
let stepFile: StepFile

beforeAll(async () => {
  const { status, err } = await run('build', 'procedures', '--fillable', '--variant', 'bolt=m16')
  expect(err).toContain('checklist-bolt-m16-fillable.pdf')
  expect(status).toBe(0)
  stepFile = JSON.parse(place.read(`${built}/steps.json`))
}, patience)
afterAll(() => place.remove())

const read = (path: string) => new Uint8Array(readFileSync(join(place.folder, path)))

async function fill(name: string, texts: Readonly<Record<string, string>>, ticks: (field: string) => boolean) {
  const pdf = await PDFDocument.load(read(blank), { updateMetadata: false })
  const form = pdf.getForm()
  for (const [field, text] of Object.entries(texts)) form.getTextField(field).setText(text)
  for (const field of form.getFields().map((one) => one.getName())) if (ticks(field)) form.getCheckBox(field).check()
  place.put(name, await pdf.save())
}

const idOf = (end: string) =>
  stepFile.phases.flatMap(({ steps }) => steps.map(({ id }) => id)).find((id) => id.endsWith(end)) ?? end
const gap = (where: string, attempt = 1) => `reading|${idOf('gap')}|gap|${where}|${attempt}`

function whole(): Record<string, string> {
  const hold = `hold|${stepFile.holds[0]?.hold}|1`
  return {
    'job|machine no': 'BC-3',
    'person|fitter|name': 'R. Falk',
    'person|fitter|initials': 'RF',
    'person|supervisor|name': 'I. Moor',
    'person|supervisor|initials': 'IM',
    [`${hold}|name`]: 'I. Moor',
    [`${hold}|signature`]: 'I. Moor',
    [`${hold}|date`]: '2026-03-02',
    [`${hold}|time`]: '14:30',
    [gap('left')]: '2.4',
    [gap('right')]: '2.6',
  }
}
const firstTry = (field: string) =>
  /^step\|.*\|1$/.test(field) ||
  /^torque\|.*\|pass\|/.test(field) ||
  field === `reading|${idOf('look')}|roller-turns||1|1`

const records = () => place.list('records')

describe('a filled copy', () => {
  it(
    'gives a record, and what is out of limit or missing is told with its step',
    async () => {
      await fill('out-of-limit.pdf', { ...whole(), [gap('left')]: '3.4' }, firstTry)
      const answer = await run('read-back', 'out-of-limit.pdf', '--out', 'records')
      expect(answer.status).toBe(1)
      expect(answer.out).toMatch(/^2\.1.*3\.4/m)
      expect(records()).toHaveLength(1)
      const record = JSON.parse(place.read(`records/${records()[0]}`))
      expect(JSON.stringify(record)).toContain(stepFile.digest)
      expect(JSON.stringify(record)).toContain('3.4')

      const { [gap('right')]: _left, ...less } = whole()
      await fill('missing.pdf', less, (field) => firstTry(field) && !field.startsWith(`step|${idOf('start')}|`))
      const missing = await run('read-back', 'missing.pdf', '--out', 'missing', '--steps', `${built}/steps.json`)
      expect(missing.status).toBe(1)
      expect(missing.out).toMatch(/^2\.1.*right/m)
      expect(missing.out).toMatch(/^3\.1/m)
      expect(place.list('missing')).toHaveLength(1)
      // What the copy leaves out is not missed.
      expect(missing.out).not.toMatch(/^2\.3|m20|bracket 20/m)
    },
    patience,
  )

  it(
    'that was left empty misses every step and is told as such',
    async () => {
      await fill('empty.pdf', {}, () => false)
      const { status, out } = await run('read-back', 'empty.pdf', '--out', 'empty')
      expect(status).toBe(1)
      for (const number of ['1.1', '2.1', '2.2', '2.4', '3.1']) expect(out).toMatch(new RegExp(`^${number}: `, 'm'))
    },
    patience,
  )
})

describe('refused, with nothing written', () => {
  const refused = async (name: string, ...more: string[]) => {
    const before = place.list('.').length
    const answer = seen(await run('read-back', name, ...more)).trim()
    expect(place.list('.').length).toBe(before)
    return answer
  }
  const fillable = async (file: StepFile, steps: string) => {
    const typesetter = loadTypesetter()
    if ('missing' in typesetter) throw new Error(typesetter.missing)
    const sources = checklistSources(file, { paper: 'a4', draft: false, standard: null, fillable: true })
    const files = sources.files.map((one) => (one.path === 'steps.json' ? { path: one.path, text: steps } : one))
    return typesetter.fillable({ ...sources, files })
  }

  it(
    'a copy whose steps were changed, or are those of another checklist',
    async () => {
      const steps = place.read(`${built}/steps.json`)
      place.put('changed.pdf', await fillable(stepFile, steps.replace('2.0 to 3.0 mm', '2.0 to 9.0 mm')))
      const other = stepFileOf(idlerBody.replace('Swap one worn', 'Swap a worn'), {}, idlerFront)
      place.put('other.pdf', await fillable(other, steps))
      place.put('other.json', `${JSON.stringify(other)}\n`)
      place.put('no.json', '{}')
      await fill('filled.pdf', whole(), firstTry)
      expect([
        await refused('changed.pdf'),
        await refused('other.pdf'),
        (await refused('filled.pdf', '--steps', 'other.json')).replace(/\([0-9a-f]{8}\)/g, '(digest)'),
        await refused('filled.pdf', '--steps', 'no.json'),
        await refused('filled.pdf', '--steps', 'nowhere.json'),
      ]).toMatchInlineSnapshot(`
        [
          "———
        changed.pdf: the step file in it was changed, so it is not read.
        ——— exit 2",
          "———
        other.pdf: the step file in it is not the one that this checklist was printed from.
        ——— exit 2",
          "———
        filled.pdf: it was printed from KRQ-TX-001 rev A (digest), and other.json is KRQ-TX-001 rev A (digest).
        ——— exit 2",
          "———
        filled.pdf: no.json is no step file that can be read.
        ——— exit 2",
          "———
        filled.pdf: nowhere.json is no step file that can be read.
        ——— exit 2",
        ]
      `)
    },
    patience,
  )

  it(
    'what is no filled checklist at all',
    async () => {
      place.put('letter.pdf', 'Dear sir, the pump is well.')
      place.put('half.pdf', read(blank).slice(0, 5000))
      place.put('huge.pdf', '%PDF-1.7')
      truncateSync(join(place.folder, 'huge.pdf'), 65 * 2 ** 20)
      place.put('nothing.pdf', '')
      expect([
        await refused(`${built}/checklist.pdf`),
        await refused('letter.pdf'),
        await refused('half.pdf'),
        await refused('nothing.pdf'),
        await refused('huge.pdf'),
        await refused('nowhere.pdf'),
        await refused('procedures'),
      ]).toMatchInlineSnapshot(`
        [
          "———
        out/KRQ-TX-001-A/checklist.pdf: has no fields. Only a checklist that was built with --fillable is read back.
        ——— exit 2",
          "———
        letter.pdf: is no PDF that can be read.
        ——— exit 2",
          "———
        half.pdf: is no PDF that can be read.
        ——— exit 2",
          "———
        nothing.pdf: is no PDF that can be read.
        ——— exit 2",
          "———
        huge.pdf: is larger than 64 MB, and no checklist is.
        ——— exit 2",
          "———
        nowhere.pdf: cannot be opened.
        ——— exit 2",
          "———
        procedures: cannot be opened.
        ——— exit 2",
        ]
      `)
    },
    patience,
  )

  it.skipIf(!isInstalled('qpdf'))(
    `a copy with a password (${needs('qpdf')})`,
    async () => {
      await fill('open.pdf', whole(), firstTry)
      const at = (name: string) => join(place.folder, name)
      execFileSync('qpdf', ['--encrypt', 'oil', 'oil', '256', '--', at('open.pdf'), at('locked.pdf')])
      expect(await refused('locked.pdf')).toMatchInlineSnapshot(`
        "———
        locked.pdf: is locked with a password. Save it without one, then read it again.
        ——— exit 2"
      `)
    },
    patience,
  )
})

describe('a variant', () => {
  it(
    'that no procedure has is told with the nearest name, and the rest is built',
    async () => {
      const names = await run('build', 'procedures', '--out', 'two', '--variant', 'bolts=m16')
      const values = await run('build', 'procedures', '--out', 'two', '--variant', 'bolt=m-20')
      const said = (text: string) => text.split('\n').filter((line) => line.startsWith('error'))
      expect([names.status, ...said(names.err), values.status, ...said(values.err)]).toMatchInlineSnapshot(`
        [
          2,
          "error: no procedure here has a variant bolts. Did you mean bolt?",
          2,
          "error: the variant bolt has no value m-20. Did you mean m20?",
        ]
      `)
      expect(place.list('two').filter((name) => name.includes('checklist'))).toEqual(['KRQ-TX-001-A/checklist.pdf'])
    },
    patience,
  )
})
