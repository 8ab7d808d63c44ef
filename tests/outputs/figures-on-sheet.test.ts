import { expect, test } from 'vitest'
import { checklistSources } from '../../src/outputs/checklist/checklist-sources.ts'
import { compileText, stepFileOf } from '../compile-text.ts'

/** Rules about figures and numbers that no finding keeps, because the program writes them: see tests/coverage. */
const body = `## Blade {#blade}

1. Loosen both adjusters.
1. Measure the gap of the blade.
   \`\`\`yaml
   measure: { gap: "25 mm ± 0.4 mm, at left right" }
   check: { blade-whole: No crack is seen. }
   else: stop
   \`\`\`
   1. Wipe the blade.
   1. Hold the gauge square.
7. Let the glue set.
   \`\`\`yaml
   wait: min 20 min
   \`\`\`

## Rail {#rail}

1. Clean the rail.
`

interface Sheet {
  readonly [key: string]: unknown
}

/** Everything in the data of the printed sheet that has this key. */
function all(node: unknown, key: string): readonly unknown[] {
  if (typeof node !== 'object' || node === null) return []
  return Object.entries(node).flatMap(([name, value]) => [...(name === key ? [value] : []), ...all(value, key)])
}

function sheetOf(text: string): Sheet {
  const { files } = checklistSources(stepFileOf(text), { paper: 'a4', draft: false, standard: 'a-3a' })
  const sheet = files.find(({ path }) => path === 'sheet.json')
  return sheet && 'text' in sheet ? JSON.parse(sheet.text) : {}
}

const plain = (text: unknown): string =>
  String(text)
    .replace(/[\u00a0\u202f]/g, ' ')
    .replaceAll('\u200b', '')

test('steps are numbered by the program, each once and without a gap, whatever was typed', () => {
  const numbers = stepFileOf(body).phases.flatMap(({ steps }) =>
    steps.flatMap((step) => [step.number, ...step.steps.map(({ number }) => number)]),
  )
  expect(numbers).toEqual(['1.1', '1.2', '1.2a', '1.2b', '1.3', '2.1'])
})

test('a nominal value with its tolerance is printed as what is lowest and highest', () => {
  // 25 − 0.4 and 25 + 0.4; 0.97 in is 24.638 mm and 1.00 in is 25.4 mm, both inside.
  expect(all(sheetOf(body), 'limit').map(plain)).toContain('24.6 to 25.4 mm (0.97 to 1.00 in), aim 25 mm (0.984 in)')
})

test('a figure has a blank in its unit at every place, and only a judgement has answers to tick', () => {
  const readings = all(sheetOf(body), 'readings').flat() as readonly Sheet[]
  const [gap, whole] = ['gap', 'blade whole'].map((name) => readings.find((reading) => plain(reading.name) === name))
  expect(gap).toMatchObject({ kind: 'measure', unit: 'mm', positions: ['left', 'right'], answers: [] })
  expect(whole).toMatchObject({ kind: 'check', answers: [{ passes: true }, { passes: false }] })
})

test.each(['40 Nm dry max', '40 Nm-45', '10 mm to 2 V'])('nothing is hung on a unit: "%s" is refused', (limit) => {
  const { findings, stepFile } = compileText(
    `## Blade {#blade}\n\n1. Read it.\n   \`\`\`yaml\n   measure: { gap: "${limit}" }\n   else: stop\n   \`\`\`\n`,
  )
  expect(findings.filter(({ severity }) => severity === 'error').length).toBeGreaterThan(0)
  expect(stepFile).toBeNull()
})
