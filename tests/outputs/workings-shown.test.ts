import { describe, expect, it } from 'vitest'
import { checklistSources } from '../../src/outputs/checklist/checklist-sources.ts'
import { pageHtml } from '../../src/outputs/page/page-html.ts'
import type { StepFile } from '../../src/step-file/step-file.ts'
import type { WorkingSheet } from '../../src/wording/working-text.ts'
import { stepFileOf } from '../compile-text.ts'

const tightened = stepFileOf(
  [
    '```yaml\ntools: { tw: { name: torque wrench, range: 40 to 400 N·m } }\n```\n',
    '## Fit {#fit}\n',
    '1. Put the gearbox in place and tighten it.',
    '   ```yaml',
    '   torque: { housing: "170 to 190 N·m, 8 × M16 10.9, oiled, star, passes 50 100 %, with tw, extension 150 mm, wrench-length 450 mm" }',
    '   ```\n',
  ].join('\n'),
)

/** The same with a block that is shown as it was written, and a figure that belongs to no block. */
const stepFile: StepFile = {
  ...tightened,
  phases: tightened.phases.map((phase) => ({
    ...phase,
    steps: phase.steps.map((step) => ({
      ...step,
      entries: [
        ...step.entries,
        { key: 'lift', label: 'Lift', lines: [{ name: 'gearbox', text: '800 kg' }], data: '' },
      ],
      workings: [...step.workings, working('lift', 'gearbox'), working('pressure', 'accumulator')],
    })),
  })),
}
const workings = stepFile.phases.flatMap((phase) => phase.steps.flatMap((step) => step.workings))

function working(key: WorkingSheet['key'], of: string): WorkingSheet {
  const says = `The ${of} was reckoned.`
  return {
    ...{ key, of, says, figures: [], formula: `${of} = one times one`, lines: [`${of} = 1 × 1`] },
    ...{ source: `Book of the ${of}`, caution: `Ask about the ${of}.` },
  }
}

/** What people read: entities and marks taken out, blanks made one. */
function textOf(html: string): string {
  const plain = html
    .replace(/<(?:script|style)[\s\S]*?<\/(?:script|style)>/g, ' ')
    .replace(/<[^>]+>/g, ' ')
    .replace(/&#x([\dA-F]+);/gi, (_, code: string) => String.fromCodePoint(Number.parseInt(code, 16)))
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&')
  return plain.replace(/\s+/g, ' ')
}

const page = textOf(pageHtml(stepFile, { draft: false }))
const print = checklistSources(stepFile, { paper: 'a4', draft: false, standard: null }).files.flatMap((file) =>
  file.path === 'sheet.json' && 'text' in file ? [file.text] : [],
)[0]

describe('what was worked out for a step', () => {
  it('is there for each of its blocks', () => {
    expect(new Set(workings.map(({ key }) => key))).toEqual(new Set(['torque', 'lift', 'pressure']))
  })

  it.each(workings)('stands on the page once, with how: $key $of', ({ says, formula, lines, source, caution }) => {
    for (const text of [says, formula, ...lines, source, caution])
      expect(page, text).toContain(text.replace(/\s+/g, ' '))
    expect(page.split(says.replace(/\s+/g, ' '))).toHaveLength(2)
  })

  it.each(workings)('is one sentence on the sheet: $key $of', ({ says, formula }) => {
    // The print keeps a number and its unit on one line.
    const sheet = (print ?? '').replace(/\s/g, ' ')
    expect(sheet.split(says.replace(/\s/g, ' '))).toHaveLength(2)
    expect(sheet).not.toContain(formula.replace(/\s/g, ' '))
  })

  // A second torque beside the one that is asked for could be taken for it.
  it('names no other torque than the one asked for, but for what the wrench is set to', () => {
    const torques = workings
      .filter(({ key }) => key === 'torque')
      .flatMap(({ says }) => says.match(/[\d.]+ N·m/g) ?? [])
    expect(torques).toEqual(['180 N·m', '142.5 N·m'])
  })
})
