import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import type { CDPSession, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { sampleStepFile } from '../../outputs/checklist/sample-step-file.ts'
import { pumpJob } from '../../record/pump-job.ts'
import { openBench, type PageBench, press, tick } from './page-bench.ts'

/** The page in every way that people look at it, by the rules that a machine can look for (WCAG 2.2 A and AA). */

const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']
let bench: PageBench

beforeAll(async () => {
  bench = await openBench()
})

afterAll(() => bench?.close())

/** The page's own policy lets no script in but its own: axe is handed in past it, by the debugger. */
async function axeOn(page: Page): Promise<CDPSession> {
  const session = await bench.browser.context.newCDPSession(page)
  const axe = createRequire(import.meta.url).resolve('axe-core/axe.min.js')
  await session.send('Runtime.evaluate', { expression: await readFile(axe, 'utf8') })
  return session
}

async function faultsOf(session: CDPSession): Promise<readonly string[]> {
  const run = await session.send('Runtime.evaluate', {
    expression: `axe.run(document, ${JSON.stringify({ runOnly: tags })}).then((result) => JSON.stringify({
      passes: result.passes.length,
      faults: result.violations.map((fault) => fault.id + ': ' + fault.nodes.slice(0, 3).map((node) => node.target + ' ' + node.failureSummary).join(' | ')),
    }))`,
    awaitPromise: true,
    returnByValue: true,
  })
  const { passes, faults } = JSON.parse(run.result.value)
  expect(passes).toBeGreaterThan(20)
  return faults
}

const looks: readonly (readonly [name: string, look: (page: Page) => Promise<void>])[] = [
  ['light', async () => {}],
  ['dark', (page) => page.emulateMedia({ colorScheme: 'dark' })],
  ['high contrast', (page) => page.emulateMedia({ contrast: 'more' })],
  ['high contrast in the dark', (page) => page.emulateMedia({ contrast: 'more', colorScheme: 'dark' })],
  ['colours of the system', (page) => page.emulateMedia({ forcedColors: 'active' })],
  // A page at 200 % has half the pixels to lay itself out in (WCAG 1.4.4; 1.4.10 asks for 320).
  ['200 % on a tablet', (page) => page.setViewportSize({ width: 410, height: 590 })],
  ['a narrow phone', (page) => page.setViewportSize({ width: 320, height: 568 })],
]

describe('a page at work', () => {
  let page: Page
  let session: CDPSession

  beforeAll(async () => {
    page = await bench.open(pumpJob(), 'work')
    await page.getByLabel('Equipment and serial number').fill('PU-7')
    await page.getByLabel('Name, fitter').fill('Ann Lee')
    await page.getByLabel('Name, watcher').fill('Di Roe')
    await tick(page, 'Lock on: pump isolator')
    await tick(page, /^1\.1 done/)
    const voltage = page.getByRole('textbox', { name: 'voltage' })
    for (const text of ['7 V', '8 V']) {
      await voltage.fill(text)
      await voltage.press('Enter')
      await page.getByText('HIGH, out of limit').first().waitFor()
    }
    await page.locator('.why').waitFor()
    for (const summary of await page.locator('main summary').all()) await summary.click()
    await page.locator('[data-item="step:try"]').getByLabel('Note', { exact: true }).fill('Cover loose')
    await page.getByText('Open 1').click()
    session = await axeOn(page)
  })

  it.each(looks)('has no fault in %s', async (_, look) => {
    await page.emulateMedia({
      colorScheme: 'light',
      contrast: 'no-preference',
      forcedColors: 'none',
      reducedMotion: 'reduce',
    })
    await page.setViewportSize({ width: 820, height: 1180 })
    await look(page)
    expect(await faultsOf(session)).toEqual([])
    // Nothing runs out of the side, and no control is smaller than a glove.
    expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0)
    const small = await page
      .locator('button:visible, input:visible, select:visible, textarea:visible, summary:visible')
      .evaluateAll((all) =>
        all.flatMap((control) => {
          const { width, height } = control.getBoundingClientRect()
          return width < 44 || height < 44 ? [`${control.outerHTML.slice(0, 80)} ${width} × ${height}`] : []
        }),
      )
    expect(small).toEqual([])
  })

  it('names every control for a screen reader', async () => {
    const nameless = await page
      .locator('button:visible, input:visible, select:visible, textarea:visible, summary:visible')
      .evaluateAll((all) =>
        all.flatMap((control) => {
          const labels =
            control instanceof HTMLInputElement ||
            control instanceof HTMLSelectElement ||
            control instanceof HTMLTextAreaElement
              ? [...(control.labels ?? [])]
              : []
          const name = control.getAttribute('aria-label') ?? labels.map((label) => label.textContent).join('') ?? ''
          return (name || control.textContent || '').trim() === '' ? [control.outerHTML.slice(0, 100)] : []
        }),
      )
    expect(nameless).toEqual([])
  })
})

describe('by keyboard alone', () => {
  it('goes from the top to a signed hold', async () => {
    const page = await bench.open(pumpJob(), 'keys')
    await page.getByText('Read a record back, or start again').click()
    await press(page, 'Start a new job')
    const focused = () =>
      page.evaluate(
        () => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent ?? '',
      )
    const tabTo = async (name: RegExp) => {
      for (let tries = 0; tries < 80; tries++) {
        if (name.test(await focused())) return
        await page.keyboard.press('Tab')
      }
      throw new Error(`never came to ${name}; stands at ${await focused()}`)
    }
    await page.evaluate(() => document.getElementById('start')?.focus())
    await tabTo(/^Name, fitter/)
    await page.keyboard.type('Ann Lee')
    await tabTo(/^Name, watcher/)
    await page.keyboard.type('Di Roe')
    await tabTo(/^Lock on: pump isolator/)
    await page.keyboard.press('Space')
    await tabTo(/^1\.1 done/)
    await page.keyboard.press('Space')
    await tabTo(/^voltage/)
    await page.keyboard.type('0.2 V')
    await tabTo(/^1\.2 done/)
    await page.keyboard.press('Enter')
    await page.getByRole('checkbox', { name: /^1\.2 done Ann Lee/ }).waitFor()
    await page.keyboard.press('Tab')
    await page.keyboard.press('Tab')
    await page.keyboard.type('Bo Hart')
    await page.keyboard.press('Enter')
    await page
      .getByText(/Signed: Bo Hart/)
      .first()
      .waitFor()
  })
})

it('has no fault before anything is done, with everything open', async () => {
  const page = await bench.open(sampleStepFile, 'hub')
  for (const summary of await page.locator('main summary').all()) await summary.click()
  expect(await faultsOf(await axeOn(page))).toEqual([])
})

it('never complained', () => {
  expect(bench.complaints).toEqual([])
})
