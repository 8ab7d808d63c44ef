import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { loadTypesetter } from '../../../src/devices/typesetter/typesetter.ts'
import { type ChecklistChoices, checklistSources } from '../../../src/outputs/checklist/checklist-sources.ts'
import type { StepFile } from '../../../src/step-file/step-file.ts'
import { stepFileOf } from '../../compile-text.ts'
import { isInstalled, needs, run, saved } from '../../devices/typesetter/pdf-tools.ts'
import { greyImage, largestDifference } from './grey-image.ts'
import { idlerBody, idlerFront } from './idler.ts'
import { hazard, hold, phase, step, stepFile } from './step-file-parts.ts'

/**
 * What three small checklists look like: their text in the order in which it is read, and two pages of each, small and grey.
 * After a change that is meant: `npx vitest run tests/outputs/checklist/golden.test.ts --update` for the text, and take the images
 * that have changed away to have them made again. Look at both before they are kept.
 */
const folder = join(dirname(fileURLToPath(import.meta.url)), 'golden')
const patience = 120_000
/** Of 255: other versions of the program that draws them smooth letters a little otherwise. */
const tolerance = 24

// The same at every change of the step file's form, as number and square code are.
const digest = `sha256:${'3f9a12c7'.repeat(8)}`
const idler = (): StepFile => {
  const file = stepFileOf(idlerBody, {}, idlerFront)
  return { ...file, digest, document: { ...file.document, status: 'issued' } }
}

const guards = (): StepFile =>
  stepFile({
    digest,
    hazards: [
      hazard('whip', 'danger', {
        hazard: 'The chain whips back',
        consequence: 'breaks a leg',
        avoid: 'Stand to the side.',
        controls: ['chain guard'],
      }),
      hazard('pinch', 'caution', {
        hazard: 'The clamp pinches',
        consequence: 'bruises',
        avoid: 'Hold it by the ears.',
      }),
      hazard('grit', 'notice', {
        hazard: 'Grit scores the shaft',
        consequence: 'the seal leaks',
        avoid: 'Wipe it first.',
      }),
    ],
    phases: [
      phase('a', '1', 'Free the chain', {
        steps: [
          step('a/b', '1.1', 'Let the chain off the wheel.', {
            hazards: ['whip', 'pinch', 'grit'],
            holds: [hold('a/b', 'lead', 'I saw the guard shut.')],
          }),
          step('a/c', '1.2', 'Say how the wheel is.', {
            decide: {
              ask: 'Is a tooth broken?',
              branches: [
                {
                  answer: 'yes',
                  when: null,
                  otherwise: false,
                  target: null,
                  action: 'stop',
                  reason: 'Call the lead hand.',
                  leave: [],
                },
                {
                  answer: 'no',
                  when: null,
                  otherwise: false,
                  target: null,
                  action: 'continue',
                  reason: null,
                  leave: [],
                },
              ],
            },
          }),
        ],
      }),
    ],
  })

const documents: readonly (readonly [
  name: string,
  file: () => StepFile,
  choices: Partial<ChecklistChoices>,
  pages: readonly number[],
])[] = [
  ['idler-a4', idler, { paper: 'a4' }, [1, 4]],
  ['idler-letter-m16-one-unit', idler, { paper: 'letter', variant: { bolt: 'm16' }, units: 'one' }, [1, 4]],
  ['guards-a4', guards, { paper: 'a4' }, [1, 3]],
]

describe.each(documents)('%s', (name, file, choices, pages) => {
  const print = async () => {
    const typesetter = loadTypesetter()
    if ('missing' in typesetter) throw new Error(typesetter.missing)
    return saved(
      await typesetter.render(checklistSources(file(), { paper: 'a4', draft: false, standard: 'a-3a', ...choices })),
    )
  }

  it.skipIf(!isInstalled('pdftotext'))(
    `says what it said (${needs('pdftotext')})`,
    async () => {
      const text = run('pdftotext', '-raw', await print(), '-').replaceAll('\f', '\n=== page ===\n')
      await expect(text).toMatchFileSnapshot(join(folder, `${name}.txt`))
    },
    patience,
  )

  it.skipIf(!isInstalled('pdftoppm'))(
    `looks as it looked (${needs('pdftoppm')})`,
    async () => {
      const pdf = await print()
      for (const page of pages) {
        const drawn = join(dirname(pdf), `page-${page}`)
        run('pdftoppm', '-r', '20', '-gray', '-png', '-singlefile', '-f', `${page}`, '-l', `${page}`, pdf, drawn)
        const now = readFileSync(`${drawn}.png`)
        const kept = join(folder, `${name}-${page}.png`)
        if (!existsSync(kept)) {
          mkdirSync(folder, { recursive: true })
          writeFileSync(kept, now)
        }
        expect(largestDifference(greyImage(readFileSync(kept)), greyImage(now)), `page ${page}`).toBeLessThan(tolerance)
      }
    },
    patience,
  )
})

it('sees a line of print that has moved', () => {
  const blank = { width: 16, height: 16, pixels: new Uint8Array(256).fill(255) }
  const line = { ...blank, pixels: blank.pixels.map((_, index) => (index >= 32 && index < 64 ? 0 : 255)) }
  expect(largestDifference(blank, blank)).toBe(0)
  expect(largestDifference(blank, line)).toBeGreaterThan(tolerance)
})
