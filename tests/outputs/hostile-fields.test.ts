import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { libraryOnDisk } from '../../src/devices/library-on-disk.ts'
import { auditCsv } from '../../src/outputs/audit/audit-csv.ts'
import { auditHtml } from '../../src/outputs/audit/audit-html.ts'
import { libraryAuditCsv } from '../../src/outputs/audit/library-audit-csv.ts'
import { libraryAuditHtml } from '../../src/outputs/audit/library-audit-html.ts'
import { type IndexedDocument, indexHtml } from '../../src/outputs/index-page/index-html.ts'
import { pageHtml } from '../../src/outputs/page/page-html.ts'
import type { StepFile } from '../../src/step-file/step-file.ts'
import { openBrowser, type TestBrowser } from '../browser.ts'
import { root } from '../house/source-files.ts'

/** What would run, load or break out if an output took an author's text for its own code. Invented here. */
const payloads = [
  '<script>top.ran=1</script>',
  '"><img src=x onerror="top.ran=1">',
  "'><svg onload=top.ran=1>",
  '</script><script>top.ran=1</script>',
  '</style><script>top.ran=1</script>',
  '<!--<script>',
  '{{{constructor}}}',
  '<a href="javascript:top.ran=1">x</a>',
  '<base href="//elsewhere.example/">',
  '<meta http-equiv="refresh" content="0;url=//elsewhere.example/">',
  ']]><script>top.ran=1</script>',
  '&lt;script&gt;',
]

/** Every text that a person writes: the ones with a blank in them. Their shape stays, so that each output takes its usual way. */
function spoiltEverywhere(stepFile: StepFile, shift: number): { stepFile: StepFile; spoilt: number } {
  let spoilt = 0
  const spoil = (value: unknown): unknown => {
    if (
      typeof value === 'string' &&
      /\S \S/.test(value) &&
      !value.startsWith('<svg') &&
      !/^data:|^[\d{[]/.test(value)
    ) {
      spoilt++
      return `${payloads[(spoilt + shift) % payloads.length]} ${value}`
    }
    if (Array.isArray(value)) return value.map(spoil)
    if (typeof value !== 'object' || value === null) return value
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, spoil(inner)]))
  }
  return { stepFile: spoil(stepFile) as StepFile, spoilt }
}

describe('hostile text in every field', () => {
  const folder = mkdtemp(join(tmpdir(), 'witnessmark-hostile-'))
  let browser: TestBrowser
  beforeAll(async () => {
    browser = await openBrowser({})
  })
  afterAll(async () => {
    await browser.close()
    await rm(await folder, { recursive: true, force: true })
  })

  const path = 'procedures/primary-crusher-isolation/primary-crusher-isolation.md'
  const { stepFile } = compileProcedure(path, openLibrary(libraryOnDisk(root)))
  if (stepFile === null) throw new Error('the demo does not compile')

  it.each([0, 5])('runs nothing and loads nothing in a browser (shifted by %i)', async (shift) => {
    const { stepFile: hostile, spoilt } = spoiltEverywhere(stepFile, shift)
    expect(spoilt).toBeGreaterThan(500)
    const documents: IndexedDocument[] = [{ folder: 'x', stepFile: hostile, files: [] }]
    const outputs = {
      page: pageHtml(hostile, { draft: false }),
      audit: auditHtml(hostile),
      'library-audit': libraryAuditHtml(documents),
      index: indexHtml(documents, []),
    }
    for (const [name, html] of Object.entries(outputs)) {
      const file = join(await folder, `${name}-${shift}.html`)
      await writeFile(file, html)
      const page = await browser.context.newPage()
      const asked: string[] = []
      page.on('request', (request) => asked.push(request.url()))
      await page.goto(pathToFileURL(file).href)
      expect(await page.evaluate(() => (window as unknown as { ran?: number }).ran ?? null), name).toBeNull()
      expect(
        await page
          .locator('script[src], link[href^="http"], base, meta[http-equiv=refresh], [onerror], [onload]')
          .count(),
        name,
      ).toBe(0)
      expect(
        asked.filter((url) => !url.startsWith('file:') && !url.startsWith('data:') && !url.startsWith('blob:')),
        name,
      ).toEqual([])
      // The words themselves are shown.
      expect(await page.locator('body').innerText(), name).toContain('top.ran=1')
      await page.close()
    }
  })

  it('makes no formula of a cell', () => {
    const { stepFile: hostile } = spoiltEverywhere(stepFile, 0)
    const documents: IndexedDocument[] = [{ folder: 'x', stepFile: hostile, files: [] }]
    const cells = [auditCsv(hostile), libraryAuditCsv(documents)].flatMap((csv) => csv.split(/[\r\n,]+/))
    expect(cells.length).toBeGreaterThan(100)
    expect(cells.filter((cell) => /^"?[=+@\t]/.test(cell))).toEqual([])
  })
})
