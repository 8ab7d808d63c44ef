import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { pageHtml } from '../../../src/outputs/page/page-html.ts'
import { readRecord } from '../../../src/record/read-record.ts'
import type { RunRecord } from '../../../src/record/run-record.ts'
import type { StepFile } from '../../../src/step-file/step-file.ts'
import { openBrowser, type TestBrowser } from '../../browser.ts'

/** Pages as a technician has them: files, opened from disk, with nothing else to ask. */
export interface PageBench {
  readonly browser: TestBrowser
  readonly folder: string
  /** What the pages complained of, and what they asked of a network. */
  readonly complaints: string[]
  readonly asked: string[]
  /** `at`: the time on the clock of the page, which then stands still until it is moved. */
  readonly open: (
    stepFile: StepFile,
    name: string,
    options?: { html?: string | undefined; at?: string },
  ) => Promise<Page>
  readonly close: () => Promise<void>
}

export async function openBench(options: Parameters<typeof openBrowser>[0] = {}): Promise<PageBench> {
  const folder = await mkdtemp(join(tmpdir(), 'witnessmark-page-'))
  const browser = await openBrowser(options)
  const complaints: string[] = []
  const asked: string[] = []
  return {
    browser,
    folder,
    complaints,
    asked,
    open: async (stepFile, name, { html = pageHtml(stepFile, { draft: false }), at } = {}) => {
      const file = join(folder, `${name}.html`)
      await writeFile(file, html)
      const page = await browser.context.newPage()
      page.setDefaultTimeout(6000)
      page.on('console', (message) => {
        if (message.type() === 'error' || message.type() === 'warning') complaints.push(`${name}: ${message.text()}`)
      })
      page.on('pageerror', (error) => complaints.push(`${name}: ${error.message}`))
      page.on('dialog', async (dialog) => {
        complaints.push(`${name}: a dialog opened: ${dialog.message()}`)
        await dialog.dismiss()
      })
      page.on('request', (request) => {
        if (!/^(?:file|data|blob):/.test(request.url())) asked.push(request.url())
      })
      if (at !== undefined) await page.clock.install({ time: at })
      await page.goto(pathToFileURL(file).href)
      await page.locator('html.is-live').waitFor()
      return page
    },
    close: async () => {
      await browser.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}

/** Forced, because a control that is not to be used yet says why when it is pressed. */
export const tick = (page: Page, name: string | RegExp) =>
  page.getByRole('checkbox', { name, exact: typeof name === 'string' }).click({ force: true })
/** Ticks what may be ticked now, and waits until it is written down: the next one counts on it. */
export async function tickDone(page: Page, name: RegExp): Promise<void> {
  const box = page.getByRole('checkbox', { name })
  await expect.poll(() => box.getAttribute('aria-disabled'), { timeout: 6000 }).not.toBe('true')
  await box.click({ force: true })
  await expect.poll(() => box.isChecked(), { timeout: 6000 }).toBe(true)
}
export const press = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).click({ force: true })
export const hears = (page: Page, words: string) =>
  expect.poll(() => page.locator('[data-said]').textContent(), { timeout: 4000 }).toContain(words)

/** The text of the record file that the page saves. */
export async function savedText(
  page: Page,
  fileName = /^KRQ-\S+ record (?:.+ )?\d{4}-\d\d-\d\d\.json$/,
): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save the record', exact: true }).click(),
  ])
  expect(download.suggestedFilename()).toMatch(fileName)
  return readFile(await download.path(), 'utf8')
}

export async function saveRecord(page: Page): Promise<RunRecord> {
  const { record, faults } = readRecord(await savedText(page))
  expect(faults).toEqual([])
  if (record === null) throw new Error('no record')
  return record
}
