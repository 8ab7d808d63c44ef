import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { libraryAuditCsv } from '../../src/outputs/audit/library-audit-csv.ts'
import { libraryAuditHtml } from '../../src/outputs/audit/library-audit-html.ts'
import { indexHtml } from '../../src/outputs/index-page/index-html.ts'
import type { StepFile } from '../../src/step-file/step-file.ts'
import { openBrowser, type TestBrowser } from '../browser.ts'
import { compileText, stepFileOf } from '../compile-text.ts'
import { textOf } from '../house/source-files.ts'

/** The machine file, with one isolation point: two revisions of it name another one. */
const pressWith = (point: string, what: string, where: string) => ({
  'shared/machines/press-2.yaml': `source: Invented for Kestrel Ridge Quarry.
name: Workshop press 2
energies:
  power: { kind: electrical, magnitude: 400 V feed of the pump, isolated-by: ${point} }
  ram: { kind: hydraulic, magnitude: 25 MPa in the cylinder }
  plates: { kind: gravity, magnitude: 300 kg upper plate }
isolation-points:
  ${point}: { what: ${what}, where: ${where}, energy: power }
masses: { plates: 300 kg }
`,
})

const people = `roles:
  fitter: { who: press fitter }
  supervisor: { who: shift supervisor, different-from: [fitter] }
`

const lock = (point: string) => `
## Lock {#lock}

\`\`\`yaml
by: fitter
where: out
\`\`\`

1. Tell everyone at the press that it stops for work.
2. Turn the ${point} off and lock it.
   \`\`\`yaml
   locks: [${point}]
   sets: { power: isolated }
   \`\`\`
3. Let the ram down and open the valve.
   \`\`\`yaml
   sets: { ram: bled }
   \`\`\`
`

const unlock = (point: string) => `
## Hand back {#hand-back}

\`\`\`yaml
by: fitter
where: out
\`\`\`

1. Close the valve.
   \`\`\`yaml
   sets: { ram: charged }
   \`\`\`
2. Tell everyone at the press that the locks are off and it starts.
3. Take the lock off and turn the ${point} on.
   \`\`\`yaml
   unlocks: [${point}]
   sets: { power: live }
   \`\`\`
`

/** Isolates, proves and dismisses everything that the machine file names. */
const careful = `\`\`\`yaml
${people}states:
  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated, proved-by: supervisor, lapses: 12 h }
  ram: { values: [charged, bled], start: charged, end: charged, energy: hydraulic, safe: bled, proved-by: reading }
zones:
  under-ram: { what: below the ram, safe-when: { power: isolated, ram: bled } }
tools: { gauge: { name: pressure gauge, measures: pressure, range: 0 to 40 MPa } }
consumables: { oil: { number: ISO VG 46, quantity: 12 L } }
parts: { seal: { number: KB-1, quantity: 2, replace: always } }
\`\`\`
${lock('press-isolator')}
4. Read the gauge of the ram.
   \`\`\`yaml
   measure: { ram-pressure: "max 0.5 MPa, with gauge" }
   else: stop
   proves: { ram: bled }
   \`\`\`
5. Show the supervisor the isolation.
   \`\`\`yaml
   hold: { supervisor: "I saw the isolator off, and the start tried." }
   proves: { power: isolated }
   \`\`\`
6. Take the old seal out from below.
   \`\`\`yaml
   enters: under-ram
   uses: [seal, oil]
   \`\`\`
${unlock('press-isolator')}`

/** On the same press: another isolator, the ram at its word, the plates not thought of, and somebody below it all. */
const careless = `\`\`\`yaml
${people}states:
  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated, proved-by: supervisor }
  ram: { values: [charged, bled], start: charged, end: charged, energy: hydraulic, safe: bled }
zones:
  under-ram: { what: below the ram, safe-when: { power: isolated, ram: bled } }
consumables: { oil: { number: ISO VG 46, quantity: 500 mL } }
parts: { seal: { number: KB-1, quantity: 4, replace: on-condition } }
\`\`\`
${lock('bench-plug')}
4. Show the supervisor the isolation.
   \`\`\`yaml
   hold: { supervisor: "I saw the plug out, and the start tried." }
   proves: { power: isolated }
   \`\`\`
5. Wipe the ram from below.
   \`\`\`yaml
   enters: under-ram
   uses: [oil, seal]
   \`\`\`
${unlock('bench-plug')}`

const front = (machine: string) => `machine: ${machine}
site: Kestrel Ridge Quarry
`

/** Errors of these groups may be accepted by the safety officer; the test needs what is left of a document after that. */
const accept = `accept:
  - { finding: flow/energy-undeclared, because: "The plates are blocked, all say.", role: safety-officer }
`

function named(
  stepFile: StepFile,
  number: string,
  revision: string,
  title: string,
  status: StepFile['document']['status'],
) {
  return { ...stepFile, document: { ...stepFile.document, number, revision, title, status } }
}

const clean = named(
  stepFileOf(
    careful,
    pressWith('press-isolator', 'isolator of the press', 'on the post'),
    front('{ id: press-2, dismissed: { plates: "They lie on the bed, nothing lifts them." } }'),
  ),
  'KRQ-PR-001',
  'A',
  'Renew the seal of the ram',
  'issued',
)
const sloppy = named(
  stepFileOf(careless, pressWith('bench-plug', 'plug at the bench', 'below the bench'), front('press-2') + accept),
  'KRQ-PR-002',
  'B',
  'Wipe the ram',
  'for-review',
)
const documents = [
  { folder: 'KRQ-PR-001-A', stepFile: clean, files: ['audit.html', 'checklist.pdf'] },
  { folder: 'KRQ-PR-002-B', stepFile: sloppy, files: ['audit.html'] },
]

describe('two procedures on one machine', () => {
  const rows = libraryAuditCsv(documents)
    .split('\r\n')
    .map((line) => line.slice(1, -1).split('","'))
  const gaps = rows.filter((row) => row[4] === 'gap')

  it('has the gaps first, the worst on top', () => {
    expect(rows.slice(1, 1 + gaps.length)).toEqual(gaps)
    expect(gaps.map((row) => [row[0], row[5], row[6], row[9]])).toMatchSnapshot()
  })

  it('finds what was planted: no proof of the ram, another isolator, plates not dealt with', () => {
    const says = (row: readonly string[] | undefined) => row?.[9] ?? ''
    const own = gaps.filter((row) => row[0] === 'KRQ-PR-002')
    const below = own.find((row) => row[5] === 'nothing proves it')
    expect([below?.[6], below?.[7], below?.[8]]).toEqual(['step 1.5', 'under ram (below the ram)', 'fitter'])
    expect(says(below)).toBe('Safe only with: ram bled. Nothing proves that.')
    const conflicts = gaps.filter((row) => row[5] === 'procedures disagree').map(says)
    expect(conflicts).toContain(
      'Ram: KRQ-PR-001 rev A proves it safe at 1.4; this one makes it safe at 1.3, and nothing proves it.',
    )
    expect(conflicts).toContain(
      'Power is isolated at isolator of the press, on the post (KRQ-PR-001 rev A), and plug at the bench, below the bench (KRQ-PR-002 rev B).',
    )
    expect(own.filter((row) => says(row).includes('plates')).map((row) => row[5])).toEqual(['accepted without proof'])
    const unaccepted = libraryAuditCsv([{ folder: 'x', stepFile: { ...sloppy, accepted: [] } }])
    expect(unaccepted).toContain('plates, gravity, 300 kg upper plate: no state follows it, and no reason is given.')
  })

  it('finds none of it where the second does as the first', () => {
    const twin = { folder: 'KRQ-PR-003-A', stepFile: named(clean, 'KRQ-PR-003', 'A', 'The same again', 'issued') }
    const text = libraryAuditCsv([...documents.slice(0, 1), twin])
    expect(text).not.toContain('procedures disagree')
    expect(text).not.toContain('nothing proves it"')
  })

  it('sees an energy that grew between two builds, and a file that did not know it yet', () => {
    const machine = clean.machine
    if (machine === null) throw new Error('no machine')
    const older = {
      ...clean,
      document: { ...clean.document, number: 'KRQ-PR-004' },
      machine: {
        ...machine,
        energies: machine.energies
          .filter(({ id }) => id !== 'ram')
          .map((energy) => (energy.id === 'power' ? { ...energy, magnitude: '230 V feed' } : energy)),
      },
    }
    const text = libraryAuditCsv([...documents.slice(0, 1), { folder: 'x', stepFile: older }])
    expect(text).toContain(
      'Power is given as 400 V feed of the pump (KRQ-PR-001 rev A), and 230 V feed (KRQ-PR-004 rev A).',
    )
    // Its own state of that name still follows it, so it is not called unknown.
    expect(text).not.toContain('does not know it')
  })

  it('gives the same bytes in whatever order the documents come', () => {
    expect(libraryAuditHtml(documents.toReversed())).toBe(libraryAuditHtml(documents))
    expect(libraryAuditCsv(documents.toReversed())).toBe(libraryAuditCsv(documents))
  })
})

describe('a hold that an exposure names', () => {
  const body = (hold: string, more = '') => `\`\`\`yaml
${people}states:
  belt: { values: [running, stopped], start: running, end: running, energy: motion, safe: stopped }
zones:
  under-belt: { what: below the belt, safe-when: { belt: stopped } }
\`\`\`

## Train {#train}

\`\`\`yaml
by: fitter
where: out
\`\`\`

1. Have somebody stand at the pull cord. {#cord-manned}
   \`\`\`yaml
   hold: { ${more === '' ? 'supervisor' : more}: Somebody stands at the pull cord. }
   \`\`\`
2. Turn the screw of the pulley.
   \`\`\`yaml
   enters: under-belt
   exposed:
     zone: under-belt
     who: fitter
     because: The belt is trained while it runs.
     controls: [long key]
     hold: { supervisor: ${hold} }
   \`\`\`
`
  const exposedAt = (hold: string) =>
    stepFileOf(body(hold), {}, 'accept:\n  - { finding: flow/exposed, because: Agreed., role: safety-officer }\n')

  it.each(['cord-manned', '"1.1"'])('stands for what it says: %s', (hold) => {
    const agreed = exposedAt(hold).phases.flatMap(({ steps }) => steps.flatMap(({ exposed }) => exposed))[0]?.agreedBy
    expect(agreed).toEqual([{ name: 'supervisor', says: 'Somebody stands at the pull cord.' }])
    expect(libraryAuditCsv([{ folder: 'x', stepFile: exposedAt(hold) }])).toContain('there on purpose, signed for')
  })

  it('is missed where no step has that name, or no such hold', () => {
    const told = (text: string) => compileText(text).findings.filter(({ name }) => name === 'model/unknown-target')
    expect(told(body('cord-maned')).map(({ message, advice }) => `${message} ${advice}`)).toEqual([
      '"cord-maned" is no step or phase of this procedure. Did you mean "cord-manned"?',
    ])
    expect(told(body('cord-manned', 'fitter')).map(({ message }) => message)).toEqual([
      'Step 1.1 ("cord-manned") has no hold of the supervisor, so nobody signs there for this exposure.',
    ])
    expect(told(body('Somebody stands at the pull cord.'))).toEqual([])
  })
})

describe('in a browser, from the file system', () => {
  let browser: TestBrowser
  let folder: string
  const asked: string[] = []
  const complaints: string[] = []

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'witnessmark-library-audit-'))
    writeFileSync(join(folder, 'audit.html'), libraryAuditHtml(documents))
    writeFileSync(join(folder, 'index.html'), indexHtml(documents, ['audit.html']))
    browser = await openBrowser({ width: 1280, height: 900 })
    browser.context.on('request', (request) => {
      if (!request.url().startsWith('file:') && !request.url().startsWith('data:')) asked.push(request.url())
    })
  }, 60_000)
  afterAll(async () => {
    await browser.close()
    rmSync(folder, { recursive: true, force: true })
  })

  async function open(name: string): Promise<Page> {
    const page = await browser.context.newPage()
    page.on('console', (message) => complaints.push(message.text()))
    page.on('pageerror', (error) => complaints.push(String(error)))
    await page.goto(pathToFileURL(join(folder, name)).href)
    return page
  }
  const shownIn = (page: Page, section: string) => page.locator(`#${section} tbody tr:visible`).count()

  it('answers the first question in the head, and marks who to look at first', async () => {
    const page = await open('audit.html')
    expect(await page.locator('.answer-line').textContent()).toBe(
      '1 of 2 procedures has somebody exposed where nothing proves that it is safe.',
    )
    expect(await page.locator('.procedures strong').allTextContents()).toHaveLength(1)
    expect(await page.locator('#gaps tbody th p').first().textContent()).toBe('accepted without proof')
    await page.close()
  })

  it('filters by procedure, words and role, says so, and shows all again', async () => {
    const page = await open('audit.html')
    const all = await shownIn(page, 'gaps')
    await page.getByLabel('Procedure', { exact: true }).selectOption('KRQ-PR-001 rev A')
    const own = await shownIn(page, 'gaps')
    expect(own).toBeGreaterThan(0)
    expect(own).toBeLessThan(all)
    await page.getByLabel('Find words').fill('hydraulic ram')
    expect(await page.locator('[data-said]').textContent()).toMatch(
      /^Only a part is shown: “hydraulic”, “ram”, KRQ-PR-001/,
    )
    expect(await shownIn(page, 'findings')).toBe(0)
    await page.emulateMedia({ media: 'print' })
    expect(await page.locator('[data-said]').isVisible()).toBe(true)
    expect(await page.locator('.choices').isVisible()).toBe(false)
    await page.emulateMedia({ media: 'screen' })
    await page.getByRole('button', { name: 'Show all' }).click()
    await page.waitForFunction(() => document.querySelector('[data-said]')?.textContent === '')
    expect(await shownIn(page, 'gaps')).toBe(all)
    await page.getByLabel('Status').selectOption('for-review')
    expect(await page.locator('#gaps tbody tr:visible a').allTextContents()).not.toContain('KRQ-PR-001 rev A')
    await page.close()
  })

  it('sorts by the keyboard: up, down, and back to the order of the audit', async () => {
    const page = await open('audit.html')
    const column = () => page.locator('#gaps tbody td:nth-child(2)').allInnerTexts()
    const before = await column()
    const button = page.locator('#gaps thead button').nth(1)
    await button.focus()
    await page.keyboard.press('Enter')
    const up = await column()
    expect(up).toEqual([...before].sort())
    expect(await page.locator('#gaps thead th').nth(1).getAttribute('aria-sort')).toBe('ascending')
    await page.keyboard.press('Enter')
    expect(await column()).toEqual([...before].sort().reverse())
    await page.keyboard.press('Enter')
    expect(await column()).toEqual(before)
    await page.close()
  })

  it('finds on the index by machine, status, role and revision', async () => {
    const page = await open('index.html')
    const shown = () => page.locator('.documents > li:visible .document-number').allInnerTexts()
    expect(await shown()).toHaveLength(2)
    await page.getByLabel('Status', { exact: true }).selectOption('for review')
    expect(await shown()).toEqual(['KRQ-PR-002 rev B'])
    await page.getByRole('button', { name: 'Show all' }).click()
    await page.getByRole('searchbox').fill('seal press')
    expect(await shown()).toEqual(['KRQ-PR-001 rev A'])
    await page.getByLabel('Machine', { exact: true }).selectOption('Workshop press 2')
    await page.getByLabel('Role', { exact: true }).selectOption('supervisor')
    await page.getByLabel('Revision', { exact: true }).selectOption('newest here')
    expect(await page.locator('[data-found]').textContent()).toBe('1 of 2 shown')
    await page.close()
  })

  it('has nothing that a checker of accessibility would fault, in light and dark', async () => {
    for (const dark of [false, true]) {
      for (const [name, html] of [
        ['audit', libraryAuditHtml(documents)],
        ['index', indexHtml(documents, ['audit.html'])],
      ] as const) {
        // The policy of the page lets no foreign script in, so the checker looks at it without.
        writeFileSync(join(folder, 'open.html'), html.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, ''))
        const page = await open('open.html')
        await page.emulateMedia({ colorScheme: dark ? 'dark' : 'light' })
        await page.addScriptTag({ content: textOf('node_modules/axe-core/axe.min.js') })
        const found = await page.evaluate(async () => {
          const { axe } = window as unknown as {
            axe: { run: () => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> }
          }
          return (await axe.run()).violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)
        })
        expect(found, `${name} ${dark ? 'dark' : 'light'}`).toEqual([])
        await page.close()
      }
    }
  }, 60_000)

  it('asked no network for anything, and never complained', () => {
    expect(asked).toEqual([])
    expect(complaints).toEqual([])
  })
})

it('names no older revision the newest', () => {
  const old = named(clean, 'KRQ-PR-001', 'A', 'Old', 'withdrawn')
  const young = { ...named(clean, 'KRQ-PR-001', 'B', 'Young', 'issued') }
  const html = indexHtml([
    { folder: 'a', stepFile: old, files: [] },
    { folder: 'b', stepFile: young, files: [] },
  ])
  expect([...html.matchAll(/data-newest="([^"]+)"/g)].map(([, words]) => words)).toEqual(['older', 'newest here'])
})
