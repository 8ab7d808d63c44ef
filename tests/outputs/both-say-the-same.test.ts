import { beforeAll, describe, expect, it } from 'vitest'
import { loadTypesetter } from '../../src/devices/typesetter/typesetter.ts'
import { checklistSources } from '../../src/outputs/checklist/checklist-sources.ts'
import { pageHtml } from '../../src/outputs/page/page-html.ts'
import { stepFileText } from '../../src/step-file/make-step-file.ts'
import type { StepFile } from '../../src/step-file/step-file.ts'
import { holdLabels } from '../../src/wording/hold-text.ts'
import { allSteps } from '../../src/wording/step-file-parts.ts'
import { pumpJob } from '../record/pump-job.ts'
import { printedPages } from './checklist/printed-page.ts'
import { sampleStepFile } from './checklist/sample-step-file.ts'
import { beltJob } from './page/page-sample.ts'

/** Every step, limit, hold and warning of a procedure stands in the PDF, on the page and in the step file. */

/** Letters and figures alone: lines break elsewhere in each, and capitals are a matter of look. */
const bare = (text: string): string =>
  text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '')

function textOfHtml(html: string): string {
  return html
    .replace(/<(script|style)[\s\S]*?<\/\1>/g, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#x([0-9a-f]+);/gi, (_, code) => String.fromCodePoint(Number.parseInt(code, 16)))
    .replace(/&(amp|lt|gt|quot);/g, (_, name) => ({ amp: '&', lt: '<', gt: '>', quot: '"' })[name as 'amp'])
}

interface Said {
  readonly what: string
  readonly text: string
}

function mustSay(stepFile: StepFile): readonly Said[] {
  const steps = stepFile.phases.flatMap((phase) => allSteps(phase.steps))
  const labels = holdLabels(stepFile)
  return [
    ...steps.map(({ number, text }) => ({ what: `step ${number}`, text: text.plain })),
    ...steps.flatMap(({ number, readings, torques }) =>
      [...readings, ...torques].flatMap(({ name, limit }) =>
        limit === null ? [] : [{ what: `limit of ${name} at ${number}`, text: limit.text }],
      ),
    ),
    ...steps.flatMap(({ holds }) =>
      holds.flatMap(({ id, says }) => [
        { what: `hold ${labels.get(id)}`, text: says },
        { what: 'label of a hold', text: labels.get(id) ?? '?' },
      ]),
    ),
    ...stepFile.hazards.flatMap(({ id, hazard, consequence, avoid, signalWord }) =>
      [hazard, consequence, avoid, signalWord].map((text) => ({ what: `warning ${id}`, text })),
    ),
  ].filter(({ text }) => text !== '')
}

describe.each([
  ['the hub', sampleStepFile],
  ['the belt', beltJob],
  ['the pump', pumpJob()],
] as const)('%s', (_, stepFile) => {
  const said = mustSay(stepFile)
  let pdf = ''
  const page = bare(textOfHtml(pageHtml(stepFile, { draft: false })))
  const inFile = bare(stepFileText(stepFile))

  beforeAll(async () => {
    const typesetter = loadTypesetter()
    if ('missing' in typesetter) throw new Error(typesetter.missing)
    const bytes = await typesetter.render(checklistSources(stepFile, { paper: 'a4', draft: false, standard: null }))
    pdf = bare(
      printedPages(bytes)
        .map(({ text }) => text)
        .join('\n'),
    )
  }, 120_000)

  it.each([
    ['PDF', () => pdf],
    ['page', () => page],
  ] as const)('says all of it in the %s', (__, text) => {
    expect(said.length).toBeGreaterThan(15)
    expect(
      said.filter((one) => !text().includes(bare(one.text))).map(({ what, text: words }) => `${what}: ${words}`),
    ).toEqual([])
  })

  it('says all of it in the step file', () => {
    // Labels and numbers of holds are given by their order, which the step file keeps.
    const named = said.filter(({ what }) => what !== 'label of a hold')
    expect(named.filter((one) => !inFile.includes(bare(one.text)))).toEqual([])
  })

  it('would see what is left out', () => {
    const [first] = said
    expect(page.replaceAll(bare(first?.text ?? ''), '')).not.toContain(bare(first?.text ?? ''))
  })
})
