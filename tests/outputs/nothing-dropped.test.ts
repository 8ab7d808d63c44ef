import { describe, expect, it } from 'vitest'
import { schemas } from '#generated/schemas'
import { checklistSources } from '../../src/outputs/checklist/checklist-sources.ts'
import { pageHtml } from '../../src/outputs/page/page-html.ts'
import type { StepFile } from '../../src/step-file/step-file.ts'
import { procedureText } from '../compile-text.ts'
import { stepFileUnchecked } from '../step-file-unchecked.ts'

interface KeySchema {
  readonly examples: readonly unknown[]
  readonly places: readonly string[]
}

/** Keys that the compiler carries out, so that what they did is in the outputs and not they themselves. */
const CARRIED_OUT = new Set([
  'accept',
  'after',
  'before',
  'clip',
  'extra',
  'include',
  'machine',
  'repeat',
  'reverse',
  'states',
  'together',
  'undo',
])

const keys = Object.entries(schemas)
  .filter(([name]) => name.startsWith('blocks/'))
  .map(([name, schema]) => ({ key: name.slice('blocks/'.length), ...(schema as KeySchema) }))

/** A procedure with the example in the key's own place; JSON is YAML, and every string stays what it is. */
function withExample(key: string, place: string, example: unknown): string {
  const block = (indent: string) =>
    `${indent}\`\`\`yaml\n${indent}${key}: ${JSON.stringify(example)}\n${indent}\`\`\`\n`
  return procedureText(
    [
      place === 'document' ? block('') : '',
      '## Change {#change}\n',
      place === 'phase' ? block('') : '',
      '1. Lift the old idler out.',
      place === 'step' ? block('   ') : '',
    ].join('\n'),
    'variants: { wheel-stud: [m22, m24] }\n',
  )
}

/** Words and figures of at least two letters, whatever stands between them. */
function wordsOf(text: string): ReadonlySet<string> {
  const plain = text
    .replace(/<(?:script|style)[\s\S]*?<\/(?:script|style)>/g, ' ')
    .replace(/&#?\w+;/g, ' ')
    .toLowerCase()
  return new Set(plain.match(/[\p{L}\p{N}]{2,}/gu))
}

/**
 * Values that print in another form: a target as its number, a rating as the signal word, the energy with the machine.
 * `together: all` prints as a sentence; a limit prints as its band.
 */
const IN_ANOTHER_FORM = new Set([
  'go',
  'otherwise',
  'redo',
  'steps',
  'severity',
  'likelihood',
  'energy',
  'together',
  'limit',
  'limits',
])

function leavesOf(value: unknown): readonly string[] {
  if (typeof value === 'string') return [value]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inner]) => (IN_ANOTHER_FORM.has(key) ? [] : leavesOf(inner)))
}

const missingFrom = (output: string, example: unknown): readonly string[] => {
  const there = wordsOf(output)
  return [...wordsOf(leavesOf(example).join(' '))].filter((word) => !there.has(word))
}

function entriesOf(stepFile: StepFile): StepFile['entries'] {
  const ofPhases = stepFile.phases.flatMap((phase) => [
    ...phase.entries,
    ...phase.steps.flatMap((step) => step.entries),
  ])
  return [...stepFile.entries, ...ofPhases]
}

function limitsOf(stepFile: StepFile): readonly string[] {
  const steps = stepFile.phases.flatMap((phase) => phase.steps)
  const limits = steps.flatMap((step) => [...step.torques, ...step.readings]).map((one) => one.limit)
  return limits.flatMap((limit) => limit?.text ?? [])
}

describe('nothing an author wrote is dropped', () => {
  for (const { key, examples, places } of keys) {
    for (const place of places.filter((one) => one !== 'front-matter')) {
      it(`${key} in a ${place}: step file, page and print`, () => {
        for (const example of examples) {
          const stepFile = stepFileUnchecked(withExample(key, place, example))
          // The long form says what the author meant; the small words of a short form are grammar.
          const meant = entriesOf(stepFile).find((entry) => entry.key === key)?.data
          expect(meant, `${key} of the step file`).toBeDefined()
          if (CARRIED_OUT.has(key)) continue
          const { files } = checklistSources(stepFile, { paper: 'a4', draft: false, standard: null })
          const sheet = files.find((file) => file.path === 'sheet.json')
          const print = sheet && 'text' in sheet ? sheet.text : ''
          const page = pageHtml(stepFile, { draft: false })
          const shown = [meant, ...limitsOf(stepFile)]
          expect({ page: missingFrom(page, shown), print: missingFrom(print, shown) }).toEqual({ page: [], print: [] })
        }
      })
    }
  }
})
