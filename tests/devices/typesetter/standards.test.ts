import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { loadTypesetter } from '../../../src/devices/typesetter/typesetter.ts'
import { type ChecklistChoices, checklistSources } from '../../../src/outputs/checklist/checklist-sources.ts'
import { stepFileOf } from '../../compile-text.ts'
import { idlerBody, idlerFront } from '../../outputs/checklist/idler.ts'
import { sampleStepFile } from '../../outputs/checklist/sample-step-file.ts'
import { isInstalled, needs, run, saved } from './pdf-tools.ts'

/**
 * What a file claims, and what can be looked at without a validator of PDF/A (ISO 19005-3) or PDF/UA (ISO 14289-1): none is
 * to be had here, so conformance itself is claimed by the typesetter and not shown by these tests.
 */
const patience = 120_000
const german = { ...sampleStepFile, document: { ...sampleStepFile.document, language: 'de-AT' } }

async function printed(choices: Partial<ChecklistChoices>, file = sampleStepFile) {
  const typesetter = loadTypesetter()
  if ('missing' in typesetter) throw new Error(typesetter.missing)
  return saved(
    await typesetter.render(checklistSources(file, { paper: 'a4', draft: false, standard: 'a-3a', ...choices })),
  )
}

const files = { archive: '', aloud: '' }

beforeAll(async () => {
  files.archive = await printed({})
  files.aloud = await printed({ standard: 'ua-1', paper: 'letter' }, german)
}, patience)

describe.each(['archive', 'aloud'] as const)('the checklist for the %s', (which) => {
  it.skipIf(!isInstalled('qpdf'))(`is whole (${needs('qpdf')})`, () => {
    expect(run('qpdf', '--check', files[which])).toContain('No syntax or stream encoding errors found')
  })

  it.skipIf(!isInstalled('mutool'))(`can be opened and drawn by another program (${needs('mutool')})`, () => {
    expect(run('mutool', 'info', files[which])).toMatch(/Pages: \d\d/)
    expect(run('mutool', 'draw', '-F', 'txt', files[which], '1')).toContain('IF IT GOES WRONG')
  })

  it.skipIf(!isInstalled('pdfinfo'))(
    `is tagged, with title, headings, tables with heads and figures with words (${needs('pdfinfo')})`,
    () => {
      const info = run('pdfinfo', files[which])
      expect(info).toMatch(/Tagged:\s+yes/)
      expect(info).toMatch(/Title:\s+KRQ-HT-021 rev A: /)
      expect(info).toMatch(new RegExp(`Page size:.*${which === 'archive' ? 'A4' : 'letter'}`))
      const tree = run('pdfinfo', '-struct', files[which])
      for (const tag of ['H1', 'H2', 'Table', 'TR', 'TH', 'TD', 'L', 'LI', 'Figure'])
        expect(tree, tag).toMatch(new RegExp(`^\\s*${tag}\\b`, 'm'))
    },
  )

  it.skipIf(!isInstalled('pdffonts'))(`has its fonts in it, each with its letters (${needs('pdffonts')})`, () => {
    const fonts = run('pdffonts', files[which]).split('\n').slice(2).filter(Boolean)
    expect(fonts.length).toBeGreaterThan(2)
    for (const font of fonts) expect(font).toMatch(/\syes\s+yes\s+yes\s+\d+\s+\d+\s*$/)
  })

  it.skipIf(!isInstalled('pdfdetach'))(`carries the step file unchanged (${needs('pdfdetach')})`, () => {
    const target = join(dirname(files[which]), 'steps.json')
    expect(run('pdfdetach', '-list', files[which])).toMatch(/1 embedded files\n1: steps\.json/)
    run('pdfdetach', '-save', '1', '-o', target, files[which])
    const attached = JSON.parse(readFileSync(target, 'utf8'))
    expect(attached.digest).toBe(sampleStepFile.digest)
    expect(attached.phases).toEqual(JSON.parse(JSON.stringify(sampleStepFile.phases)))
  })

  it.skipIf(!isInstalled('qpdf'))(`says its language and has a bookmark for each phase (${needs('qpdf')})`, () => {
    const json = run('qpdf', '--json=2', '--json-key=qpdf', '--json-key=outlines', files[which])
    const { outlines } = JSON.parse(json)
    const titles = JSON.stringify(outlines)
    for (const phase of sampleStepFile.phases) expect(titles).toContain(phase.title)
    expect(json).toContain(which === 'archive' ? '"/Lang": "u:en"' : '"/Lang": "u:de')
  })
})

it.skipIf(!isInstalled('pdfinfo'))(
  `claims one standard a file: PDF/A-3a for the archive, PDF/UA-1 to be read aloud (${needs('pdfinfo')})`,
  () => {
    const archive = run('pdfinfo', '-meta', files.archive)
    const aloud = run('pdfinfo', '-meta', files.aloud)
    expect(archive).toMatch(/pdfaid:part>3</)
    expect(archive).toMatch(/pdfaid:conformance>A</)
    expect(archive).not.toContain('pdfuaid')
    expect(aloud).toMatch(/pdfuaid:part>1</)
    expect(aloud).not.toContain('pdfaid')
  },
)

it.skipIf(!isInstalled('pdfinfo'))(
  `is read aloud in the order of the work (${needs('pdfinfo')})`,
  async () => {
    const file = stepFileOf(idlerBody, {}, idlerFront)
    const said = run('pdfinfo', '-struct-text', await printed({ standard: 'ua-1' }, file)).replace(
      /[\u00a0\u202f\s]+/g,
      ' ',
    )
    let from = 0
    for (const step of file.phases.flatMap((phase) => phase.steps)) {
      const at = said.indexOf(step.text.plain, from)
      expect(at, step.number).toBeGreaterThanOrEqual(from)
      from = at
    }
    // The warning before its step, the reading with its limit behind it, the signature last.
    const order = [
      'The belt draws a hand in.',
      'Stop the belt and put your lock on.',
      'I saw the belt locked and tried.',
      'Measure the gap',
    ]
    const places = order.map((words) => said.lastIndexOf(words))
    expect(places).toEqual(places.toSorted((a, b) => a - b))
  },
  patience,
)
