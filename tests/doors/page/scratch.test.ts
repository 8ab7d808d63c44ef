import { writeFile } from 'node:fs/promises'
import { pathToFileURL } from 'node:url'
import { it } from 'vitest'
import { pageHtml } from '../../../src/outputs/page/page-html.ts'
import { openBrowser } from '../../browser.ts'
import { beltJob } from '../../outputs/page/page-sample.ts'
it('scratch', async () => {
  await writeFile('/tmp/belt.html', pageHtml(beltJob, { draft: false }))
  const browser = await openBrowser({})
  const page = await browser.context.newPage()
  page.setDefaultTimeout(4000)
  page.on('console', (m) => console.log('console', m.text()))
  page.on('pageerror', (e) => console.log('error', e.stack))
  await page.goto(pathToFileURL('/tmp/belt.html').href)
  await page.locator('html.is-live').waitFor()
  await page.getByLabel('Equipment and serial number').fill('BC-3')
  await page.getByLabel('Name, fitter').fill('Ann Lee')
  await page.getByRole('button', { name: 'm20' }).click()
  const pressure = page.getByRole('textbox', { name: 'pressure', exact: true })
  await pressure.fill('72 psi')
  await pressure.press('Enter')
  await page.getByText('In limit').waitFor()
  await pressure.fill('73 psi')
  await pressure.press('Enter')
  await page.waitForTimeout(600)
  console.log(await page.locator('[data-said]').textContent(), await page.locator('.why').count(), await page.locator('.why').textContent().catch(() => ''))
  await page.screenshot({ path: '/tmp/a.png' })
  await browser.close()
}, 60000)
