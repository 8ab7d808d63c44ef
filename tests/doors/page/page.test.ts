import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { indexHtml } from '../../../src/outputs/index-page/index-html.ts'
import { pageHtml } from '../../../src/outputs/page/page-html.ts'
import type { StepFile } from '../../../src/step-file/step-file.ts'
import { sampleStepFile } from '../../outputs/checklist/sample-step-file.ts'
import { beltJob } from '../../outputs/page/page-sample.ts'
import { hears, openBench, type PageBench, press, saveRecord, tick, tickDone } from './page-bench.ts'

/** The page as a technician has it: a file, opened from disk, with nothing else to ask. */

let bench: PageBench

beforeAll(async () => {
  bench = await openBench()
})

afterAll(() => bench?.close())

const openPage = (stepFile: StepFile, name: string, html?: string): Promise<Page> =>
  bench.open(stepFile, name, { html })

describe('a job from the first step to the record', () => {
  let page: Page

  beforeAll(async () => {
    page = await openPage(beltJob, 'belt')
  })

  it('asks who and which before the first step', async () => {
    await tick(page, /^1\.1 done/)
    await hears(page, 'This job')
    await page.getByLabel('Equipment and serial number').fill('BC-3')
    await page.getByLabel('Name, fitter').fill('Ann Lee')
    await page.getByRole('button', { name: 'm20' }).click()
    await page.getByText('Next1.1Turn the isolator').waitFor()
    expect(await page.getByText('600 to 740 N·m').isVisible()).toBe(false)
    expect(await page.getByText('350 to 430 N·m').isVisible()).toBe(true)
  })

  it('refuses to tick a step whose lock is not on, or whose reading is missing', async () => {
    await tick(page, /^1\.1 done/)
    await hears(page, 'not ticked: Lock on')
    await tick(page, 'Lock on: belt isolator')
    await tick(page, /^1\.1 done/)
    await tick(page, /^1\.2 done/)
    await hears(page, 'a reading is missing')
  })

  it('judges what is typed in any unit, by the very limit', async () => {
    const pressure = page.getByRole('textbox', { name: 'pressure', exact: true })
    const verdict = page.locator('[data-item="step:isolate/pressure"] .verdict').first()
    await pressure.fill('72 psi')
    await pressure.press('Enter')
    // 72 psi = 0.4964 MPa: in (1 psi = 6894.757 Pa, NIST SP 811).
    await page.getByText('In limit').waitFor()
    await pressure.fill('73 psi')
    await pressure.press('Enter')
    // The old value stays, and the new one waits for a reason.
    await page.getByText('Was 72 psi, now 73 psi. Why?').waitFor()
    expect(await verdict.textContent()).toContain('In limit')
    await press(page, 'Leave it as it was')
    await expect.poll(() => pressure.inputValue()).toBe('72')
    await pressure.fill('73 psi')
    await pressure.press('Enter')
    await press(page, 'Read again')
    await page.getByText('HIGH, out of limit').waitFor()
    await pressure.fill('five')
    await pressure.press('Enter')
    await press(page, 'Mistyped')
    await expect.poll(() => verdict.textContent()).toBe('Cannot be read as a figure')
  })

  it('shows what follows out of limit, and counts the tries', async () => {
    const pressure = page.getByRole('textbox', { name: 'pressure', exact: true })
    await pressure.fill('0.51 MPa')
    await pressure.press('Enter')
    await page.getByText('OUT OF LIMIT: pressure').waitFor()
    await page.getByRole('button', { name: 'Do it again: try 2 of 2' }).click()
    await page.getByText('Next1.1').waitFor()
    await tick(page, 'Lock on: belt isolator')
    await tick(page, /^1\.1 done/)
    await pressure.fill('0.6')
    await pressure.press('Enter')
    await expect.poll(() => page.locator('[data-next]').textContent()).toContain('STOP')
    expect(await page.locator('[data-next]').textContent()).toContain('The cylinder cannot be bled here.')
    // It was mistyped: the figure can be put right.
    await pressure.fill('0.06')
    await pressure.press('Enter')
    await page.getByLabel('Or in your words').fill('A zero was left out')
    await page.locator('.why').getByRole('button', { name: 'Write it down' }).click()
    await page.getByText('In limit').waitFor()
    await page.getByRole('button', { name: 'Yes', exact: true }).click()
    await tick(page, /^1\.2 done/)
  })

  it('blocks everything after a hold until another person signs it', async () => {
    await tick(page, /^2\.1 done/)
    await hears(page, 'H1')
    const name = page.getByRole('textbox', { name: 'Name of the supervisor' }).first()
    await name.fill('Bo Hart')
    await press(page, /sign H1/)
    await hears(page, 'First: 1.3')
    await tick(page, /^1\.3 done/)
    await name.fill('ann  lee')
    await press(page, /sign H1/)
    await hears(page, 'another person')
    await name.fill('Bo Hart')
    await press(page, /sign H1/)
    await page
      .getByText(/Signed: Bo Hart/)
      .first()
      .waitFor()
    await tick(page, /^1\.1 done/)
    await hears(page, 'signed for')
  })

  it('keeps everything over a reload', async () => {
    await page.reload()
    await page.locator('html.is-live').waitFor()
    await page.getByText('Next2.1').waitFor()
    expect(await page.getByLabel('Equipment and serial number').inputValue()).toBe('BC-3')
    expect(await page.getByRole('textbox', { name: 'pressure', exact: true }).inputValue()).toBe('0.06')
    expect(
      await page
        .getByText(/Signed: Bo Hart/)
        .first()
        .isVisible(),
    ).toBe(true)
  })

  it('opens the branch that is decided on and leaves out the other', async () => {
    await tick(page, /^60 %/)
    await tick(page, /^100 % — 390/)
    await tick(page, /^2\.1 done/)
    for (const side of ['left', 'right']) {
      await page.getByRole('textbox', { name: `takeup, ${side}` }).fill(side === 'left' ? '45' : '1-3/4 in')
      await page.keyboard.press('Enter')
    }
    // 45 mm - 44.45 mm, exactly.
    await press(page, 'Worked out: 0.55 mm. Write it down')
    await tickDone(page, /^2\.2 done/)
    await page.getByRole('button', { name: 'worn' }).click()
    await tickDone(page, /^2\.3 done/)
    await tickDone(page, /^2\.4 done/)
    await press(page, /Take this.*lagging = good/)
    await hears(page, 'it is not so: lagging = good')
    await press(page, /Take this.*Otherwise/)
    await page.getByText('Next2B.1').waitFor()
    expect(await page.locator('[data-phase="keep"]').textContent()).toContain('Not taken')
    expect(await page.getByRole('checkbox', { name: /^2A\.1 done/ }).isVisible()).toBe(false)
    await tick(page, /^2B\.1 done/)
  })

  it('signs what opens a step before the step, waives a witness, and exports the record', async () => {
    await page.getByRole('button', { name: 'Does not apply: leave out' }).click()
    await page.getByRole('textbox', { name: 'Name of the supervisor' }).last().fill('Bo Hart')
    await press(page, /sign H2/)
    await page.getByText('Next3.2').waitFor()
    await tick(page, 'Lock off: belt isolator')
    await tick(page, /^3\.2 done/)
    await page.getByRole('textbox', { name: 'Name of the fitter' }).fill('Ann Lee')
    await page.getByRole('button', { name: 'Waived: not witnessed' }).click()
    await page.getByText('All done. Close the job').waitFor()
    await page.locator('[data-deviation] textarea').fill('<b>Rain</b> at 2.2')
    await page.locator('[data-deviation] [name=name]').fill('Ann Lee')
    await page.locator('[data-deviation] button').click()
    await page.getByText('<b>Rain</b> at 2.2').waitFor()

    const record = await saveRecord(page)
    expect(record.document.digest).toBe(beltJob.digest)
    expect(record.complete).toBe(true)
    expect(record.people).toMatchObject([{ role: 'fitter', name: 'Ann Lee', initials: 'AL' }])
    expect(record.variants).toEqual({ bolt: 'm20' })
    expect(record.holds.map(({ number, outcome, name }) => `${number} ${outcome} ${name}`)).toEqual([
      'H1 signed Bo Hart',
      'H2 signed Bo Hart',
      'H3 waived Ann Lee',
    ])
    const outcomes = Object.fromEntries(record.steps.map((step) => [step.number, step]))
    expect(outcomes['2A.1']).toMatchObject({ outcome: 'left-out', because: 'Not taken' })
    expect(outcomes['3.1']).toMatchObject({ outcome: 'left-out', because: 'Does not apply' })
    expect(outcomes['1.2']).toMatchObject({
      outcome: 'done',
      attempt: 2,
      by: [{ role: 'fitter', name: 'Ann Lee', initials: 'AL' }],
    })
    // 1-3/4 in = 44.45 mm exactly (1 in = 25.4 mm, NIST SP 811).
    expect(outcomes['2.2']?.readings.map(({ verdict, judgedAs }) => `${verdict} ${judgedAs}`)).toEqual([
      'in ',
      'in 44.45 mm',
      'in ',
    ])
    // The figures that were out of limit are still in the entries.
    const typed = record.entries.flatMap((entry) => (entry.kind === 'reading' ? [entry.typed] : []))
    expect(typed).toEqual(expect.arrayContaining(['73 psi', '0.51 MPa', '0.6 MPa', '0.06 MPa']))
  })

  it('keeps the old record when a new job is begun', async () => {
    await page.getByText('Read a record back, or start again').click()
    await page.getByRole('button', { name: 'Start a new job' }).click()
    await page.getByText('0 of 15').waitFor()
    expect(await page.getByRole('button', { name: /Save the record begun/ }).count()).toBe(1)
  })
})

describe('an author’s words', () => {
  /** In every text of a step file: markup, script addresses, template and string endings. */
  const attack = `"'\`><img src=x onerror="window.hurt=1"></script><script>window.hurt=1</script>{{this}}\${1}<!--<a href="javascript:window.hurt=1">`

  /** Words of the language must stay for the file to be one; everything else is the author's. */
  const fixed = new Set([
    'kind',
    'status',
    'action',
    'timing',
    'on',
    'signalWord',
    'mediaType',
    'instance',
    'form',
    'exact',
    'format',
    'formatVersion',
  ])

  function attacked(value: unknown, key = ''): unknown {
    if (typeof value === 'string') return fixed.has(key) ? value : `${value}${attack}`
    if (Array.isArray(value)) return value.map((inner) => attacked(inner, key))
    if (value === null || typeof value !== 'object') return value
    return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, attacked(inner, name)]))
  }

  it('never run, whatever they are and wherever they stand', async () => {
    const hostile = attacked({
      ...sampleStepFile,
      purpose: [
        {
          kind: 'paragraph',
          children: [
            { kind: 'link', address: 'javascript:window.hurt=1', children: [{ kind: 'text', text: 'press' }] },
          ],
        },
      ],
      figures: [
        {
          ...sampleStepFile.figures[0],
          content:
            '<svg xmlns="http://www.w3.org/2000/svg" onload="window.hurt=1"><script>window.hurt=1</script></svg>',
        },
      ],
    }) as StepFile
    const page = await openPage(hostile, 'hostile')
    await page.waitForTimeout(300)
    for (const summary of await page.locator('summary').all()) await summary.click()
    expect(await page.evaluate(() => 'hurt' in window)).toBe(false)
    expect(await page.locator('main script, main [onerror], main iframe, main object').count()).toBe(0)
    // Only our own two elements hold script or data, and every picture is one of ours.
    expect(await page.locator('script').count()).toBe(2)
    expect(await page.locator('img:not([src^="data:image/"])').count()).toBe(0)
    const links = await page.locator('a').evaluateAll((all) => all.map((link) => link.getAttribute('href') ?? ''))
    expect(links.filter((address) => !address.startsWith('#'))).toEqual([])
    // The same words typed by a technician only ever become text.
    await page.locator('[data-deviation] textarea').fill(attack)
    await page.locator('[data-deviation] [name=name]').fill(attack)
    await page.locator('[data-deviation] button').click()
    await page.locator('[data-deviations] li').waitFor()
    expect(await page.evaluate(() => 'hurt' in window)).toBe(false)
    expect(await page.locator('[data-deviations] li').textContent()).toContain(attack)
  })
})

describe('for everyone', () => {
  it('is big enough for gloves: every control at least 44 px high and wide', async () => {
    const page = await openPage(sampleStepFile, 'gloves')
    await page.setViewportSize({ width: 390, height: 844 })
    const small = await page
      .locator('button:visible, input:visible, select:visible, textarea:visible, summary:visible')
      .evaluateAll((all) =>
        all.flatMap((control) => {
          const { width, height } = control.getBoundingClientRect()
          return width < 44 || height < 44 ? [`${control.outerHTML.slice(0, 80)} ${width} × ${height}`] : []
        }),
      )
    expect(small).toEqual([])
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
    expect(wide).toBeLessThanOrEqual(0)
  })

  it('can be worked by keyboard alone', async () => {
    const page = await openPage(beltJob, 'keyboard')
    await page.keyboard.press('Tab')
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Skip to the first step')
    await page.locator('[data-next]').focus()
    await page.keyboard.press('Enter')
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('m20')
    await page.keyboard.press('Enter')
    await page.locator('[data-value="m20"][aria-pressed="true"]').waitFor()
  })
})

describe('without our script', () => {
  it('still reads fully, with nothing to press', async () => {
    const file = join(bench.folder, 'bare.html')
    await writeFile(file, pageHtml(beltJob, { draft: false }))
    const session = await bench.browser.context.newPage()
    const debug = await bench.browser.context.newCDPSession(session)
    await debug.send('Emulation.setScriptExecutionDisabled', { value: true })
    await session.goto(pathToFileURL(file).href)
    for (const words of ['Turn the isolator off', 'max 0.5 MPa', '600 to 740', '2A Keep the lagging', 'H3'])
      expect(await session.getByText(words).filter({ visible: true }).count(), words).toBeGreaterThan(0)
    expect(await session.getByRole('button', { name: /sign H1/ }).isVisible()).toBe(false)
    expect(await session.locator('[data-next]').isVisible()).toBe(false)
  })

  it('shows a draft as one, with nothing to sign', () => {
    const html = pageHtml(beltJob, { draft: true })
    expect(html).toContain('NOT FOR USE')
    expect(html).not.toMatch(/<(?:script|button|input|form)/)
  })
})

describe('the index', () => {
  it('finds procedures by words and links to what was built', async () => {
    const files = ['checklist.pdf', 'page.html', 'steps.json']
    const documents = [
      { folder: 'KRQ-BC-014-C', stepFile: beltJob, files },
      { folder: 'KRQ-HT-021-A', stepFile: sampleStepFile, files: ['steps.json'] },
    ]
    const page = await openPage(beltJob, 'index', indexHtml(documents))
    await page.getByRole('searchbox').fill('haul supervisor')
    expect(await page.locator('.documents > li:visible').count()).toBe(1)
    await page.getByRole('searchbox').fill('')
    const links = await page.locator('.files a').evaluateAll((all) => all.map((link) => link.getAttribute('href')))
    expect(links).toEqual([...files.map((file) => `KRQ-BC-014-C/${file}`), 'KRQ-HT-021-A/steps.json'])
  })
})

it('asked no network for anything, and never complained', () => {
  expect(bench.asked).toEqual([])
  expect(bench.complaints).toEqual([])
})
