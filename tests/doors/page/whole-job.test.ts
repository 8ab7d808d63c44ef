import { Buffer } from 'node:buffer'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { validators } from '#generated/schema-validators'
import { entryAfter } from '../../../src/record/chain.ts'
import { makeJob } from '../../../src/record/make-job.ts'
import { makeRecord } from '../../../src/record/make-record.ts'
import { readRecord } from '../../../src/record/read-record.ts'
import { tellRecord } from '../../../src/record/tell-record.ts'
import { entriesOf } from '../../record/happenings.ts'
import { pumpJob } from '../../record/pump-job.ts'
import { hears, openBench, type PageBench, press, savedText, tick } from './page-bench.ts'

/** One job from sign-in to the signed record, with everything that goes wrong on a night shift. */

const pump = pumpJob()
const job = makeJob(pump)
let bench: PageBench

beforeAll(async () => {
  bench = await openBench()
})

afterAll(() => bench?.close())

const nextIs = (page: Page, words: string) =>
  expect.poll(() => page.locator('[data-next]').textContent(), { timeout: 4000 }).toContain(words)
const timerOf = (page: Page, id: string) => page.locator(`[data-wait="${id}"] .timer-now`)

async function readVoltage(page: Page, text: string): Promise<void> {
  const voltage = page.getByRole('textbox', { name: 'voltage' })
  await voltage.fill(text)
  await voltage.press('Enter')
}

async function signs(page: Page, label: string, name: string): Promise<void> {
  const band = page.locator(`section[aria-label="HOLD ${label}"]`)
  await band.getByRole('textbox').fill(name)
  await band.getByRole('button', { name: new RegExp(`sign ${label}`) }).click({ force: true })
}

async function takeIn(page: Page, text: string): Promise<void> {
  await page.getByText('Read a record back, or start again').click()
  await page
    .locator('[data-take-in]')
    .setInputFiles({ name: 'record.json', mimeType: 'application/json', buffer: Buffer.from(text) })
}

describe('a whole job', () => {
  let page: Page
  let saved: string

  it('signs people in with name, initials and role', async () => {
    page = await bench.open(pump, 'pump', { at: '2026-03-02T22:00:00' })
    await tick(page, /^1\.1 done/)
    await hears(page, 'This job')
    await page.getByLabel('Equipment and serial number').fill('PU-7')
    await page.getByLabel('Name, fitter').fill('Ann Lee')
    await page.getByLabel('Name, supervisor').fill('Bo Hart')
    await page.getByLabel('Name, watcher').fill('Di Roe')
    await expect.poll(() => page.getByLabel('Initials, fitter').inputValue()).toBe('AL')
    await page.getByLabel('shaft seal: lot or serial number').fill('L-21')
    await tick(page, 'Lock on: pump isolator')
    await tick(page, /^1\.1 done/)
    await nextIs(page, '1.2')
    await page.getByText('Open 1').click()
    await page.getByText('Lock on: pump isolator, Ann Lee').first().waitFor()
    await page.getByText('Open 1').click()
  })

  it('does a failing reading again, and refuses a hold to whoever did the work', async () => {
    await readVoltage(page, '7 V')
    await page.getByText('HIGH, out of limit').waitFor()
    await press(page, 'Do it again: try 2 of 2')
    await readVoltage(page, '0.2 V')
    await page.getByText('In limit').waitFor()
    await tick(page, /^2\.1 done/)
    await hears(page, 'Waits for H1')
    await tick(page, /^1\.2 done/)
    await signs(page, 'H1', 'Ann Lee')
    await hears(page, 'must be signed by another person')
    await signs(page, 'H1', 'Bo Hart')
    await page
      .getByText(/Signed: Bo Hart \(BH\), 2026-03-02 22:00, as released/)
      .first()
      .waitFor()
  })

  it('runs the fire watch and the wait, and lets nobody past the wait', async () => {
    await tick(page, /^2\.1 done/)
    await expect
      .poll(() => page.locator('[data-timer-bar]').textContent())
      .toMatch(/^2\.1 (?:1 h 00 min|59 min 5\d s)$/)
    await press(page, 'Start the wait of 2.2')
    await page.clock.fastForward('05:00')
    await expect.poll(() => timerOf(page, 'wait:cool:1').textContent()).toMatch(/14 min 5\d s LEFT|15 min 00 s LEFT/)
    await tick(page, /^2\.2 done/)
    await hears(page, 'the wait is not over')
    await tick(page, /^2\.3 done/)
    await hears(page, 'Wait at 2.2 first')
  })

  it('loses nothing when the power is cut, and its timers have gone on', async () => {
    const debug = await bench.browser.context.newCDPSession(page)
    // The page dies at once and never answers.
    void debug.send('Page.crash').catch(() => undefined)
    await new Promise((resolve) => page.once('crash', resolve))
    await page.close()
    page = await bench.open(pump, 'pump', { at: '2026-03-02T22:12:00' })
    expect(await page.getByLabel('Equipment and serial number').inputValue()).toBe('PU-7')
    await page
      .getByText(/Signed: Bo Hart/)
      .first()
      .waitFor()
    await expect.poll(() => timerOf(page, 'wait:cool:1').textContent()).toMatch(/[78] min \d\d s LEFT/)
    await nextIs(page, '2.2')
  })

  it('ends a wait early only as a deviation with its reason', async () => {
    await press(page, 'End the wait of 2.2 early: a deviation')
    await page.locator('.why').getByRole('button', { name: 'Write it down' }).click()
    await hears(page, 'Write why')
    await page.getByLabel('Or in your words').fill('Cold wind, 15 degrees by touch')
    await page.locator('.why').getByRole('button', { name: 'Write it down' }).click()
    await page.getByText('Cold wind, 15 degrees by touch').first().waitFor()
    await tick(page, /^2\.2 done/)
    // The chamber is cold by the steps that were done.
    await page.getByText('By your readings: applies.').waitFor()
    await tick(page, /^2\.3 done/)
  })

  it('keeps a note and a photo at a step', async () => {
    const step = page.locator('[data-item="step:seal/wipe-the-bore"]')
    await step.getByText('Note, photo or deviation').click()
    await step.getByLabel('Note', { exact: true }).fill('Two scratches at six o’clock.')
    await step.getByLabel('Your name').first().fill('Ann Lee')
    await step.getByRole('button', { name: 'Write the note down' }).click()
    await step.getByText(/Note, Ann Lee .*: Two scratches/).waitFor()
    await step
      .locator('[data-photo]')
      .setInputFiles({ name: 'dial.png', mimeType: 'image/png', buffer: await picture(page) })
    await step.getByAltText(/Photo taken at this step/).waitFor()
    await step
      .locator('[data-photo]')
      .setInputFiles({ name: 'x.png', mimeType: 'image/png', buffer: Buffer.from('no picture') })
    await hears(page, 'no photo that can be read')
  })

  it('hands over, and the old proof blocks until it is taken again', async () => {
    await page.locator('.stop-here').nth(1).getByRole('button', { name: 'Hand over to another person' }).click()
    const card = page.locator('#hand-over')
    await card.getByText('Lock on: pump isolator, Ann Lee').waitFor()
    await card.getByText('power isolated (was: H1 at 1.2)').waitFor()
    await card.getByText('chamber: cold').waitFor()
    await card.getByText('Before 2.4').waitFor()
    await card.getByLabel('I leave: name').fill('Ann Lee')
    await card.getByLabel('I take over: name').fill('Cy Dunn')
    await press(page, 'Both sign: hand over')
    await hears(page, 'Both say first')
    await card.getByLabel('I have told all that is open').check()
    await card.getByLabel('I have seen it for myself').check()
    await press(page, 'Both sign: hand over')
    await hears(page, 'take them again first')
    expect(await page.getByLabel('Name, fitter').inputValue()).toBe('Cy Dunn')
    await page.clock.fastForward('11:00')
    await tick(page, /^2\.4 done/)
    await hears(page, 'Waits for H1')
    await tick(page, /^1\.2 done/)
    await hears(page, 'a reading is missing')
    await readVoltage(page, '0.1 V')
    await tick(page, /^1\.2 done/)
    await signs(page, 'H1', 'Bo Hart')
    await hears(page, 'H1 signed')
  })

  it('holds the next signature back until the fire watch is over', async () => {
    await tick(page, 'Fit new: shaft seal')
    await tick(page, /^2\.4 done/)
    await signs(page, 'H2', 'Bo Hart')
    await hears(page, 'First: 2.1')
    await page.clock.fastForward('50:00')
    await signs(page, 'H2', 'Bo Hart')
    await hears(page, 'H2 signed')
  })

  it('closes only when everything is as it must be left, and then changes no more', async () => {
    await page.locator('[data-close] [name=name]').fill('Cy Dunn')
    await page.getByRole('button', { name: 'Close the job', exact: true }).click()
    await hears(page, 'Still open: 3.1')
    await tick(page, 'Lock off: pump isolator')
    await tick(page, /^3\.1 done/)
    await page.getByRole('button', { name: 'Close the job', exact: true }).click()
    await hears(page, 'Left like this')
    await tick(page, 'live')
    await tick(page, 'cold')
    await page.getByRole('button', { name: 'Close the job', exact: true }).click()
    await hears(page, 'Closed. Save the record.')
    await tick(page, /^3\.1 done/)
    await hears(page, 'This job is closed')
    saved = await savedText(page)
  })

  it('tells all of it in the record', () => {
    const { record, faults } = readRecord(saved)
    expect(faults).toEqual([])
    if (record === null) throw new Error('no record')
    expect(validators.record?.(record), JSON.stringify(validators.record?.errors)).toBe(true)
    expect(record.complete).toBe(true)
    expect(record.end).toMatchObject({ how: 'finished', by: [{ name: 'Cy Dunn' }] })
    expect(record.holds.map(({ number, outcome, name }) => `${number} ${outcome} ${name}`)).toEqual([
      'H1 withdrawn Bo Hart',
      'H1 signed Bo Hart',
      'H2 signed Bo Hart',
    ])
    const readings = record.steps.flatMap((step) => step.readings)
    expect(readings.map(({ typed, verdict, counts }) => `${typed} ${verdict} ${counts}`)).toEqual([
      '7 V high false',
      '0.2 V in false',
      '0.1 V in true',
    ])
    expect(record.deviations).toMatchObject([{ step: 'cool', because: 'Cold wind, 15 degrees by touch' }])
    expect(record.handovers).toMatchObject([
      { from: { name: 'Ann Lee' }, to: { name: 'Cy Dunn', initials: 'CD' }, withdrawn: ['power isolated (H1 at 1.2)'] },
    ])
    expect(record.handovers[0]?.locks).toEqual([{ lock: 'Lock on: pump isolator', of: 'Ann Lee' }])
    expect(record.notes[0]?.text).toContain('Two scratches')
    expect(record.photos[0]?.content?.length).toBeGreaterThan(100)
    expect(record.identities).toMatchObject([{ for: 'parts:seal', part: 'lot', text: 'L-21' }])
    expect(record.waits.map(({ number, outcome }) => `${number} ${outcome}`)).toEqual([
      '2.1 over',
      '2.2 ended-early',
      '2.4 over',
    ])
    expect(tellRecord(job, record).map(({ what }) => what)).toEqual(['out-of-limit', 'withdrawn'])
  })

  it('prints what is filled in', async () => {
    await page.emulateMedia({ media: 'print' })
    await page
      .getByText(/Signed: Bo Hart/)
      .first()
      .waitFor()
    expect(await page.getByRole('textbox', { name: 'voltage' }).inputValue()).toBe('0.1')
    await page.getByText(/Before: 7 V at try 1 \(22:00\): HIGH, out of limit; 0\.2 V at try 2/).waitFor()
    await page
      .getByText(/Cold wind, 15 degrees by touch/)
      .first()
      .waitFor()
    await page.getByText(/22:\d\d: Ann Lee to Cy Dunn/).waitFor()
    expect(await page.locator('.live').filter({ visible: true }).count()).toBe(0)
    await page.emulateMedia({ media: null })
  })

  it('goes on from the record on another tablet', async () => {
    const other = await openBench({ width: 600, height: 900 })
    try {
      const fresh = await other.open(pump, 'pump', { at: '2026-03-03T06:00:00' })
      await takeIn(fresh, saved)
      await hears(fresh, 'Taken in')
      await fresh
        .getByText(/Signed: Bo Hart/)
        .first()
        .waitFor()
      await fresh.getByAltText(/Photo taken at this step/).waitFor()
      expect(await fresh.getByLabel('Equipment and serial number').inputValue()).toBe('PU-7')
      expect(JSON.parse(await savedText(fresh)).entries).toEqual(JSON.parse(saved).entries)
      expect(other.complaints).toEqual([])
    } finally {
      await other.close()
    }
  })
})

describe('what does not go as written', () => {
  it('is asked about, kept with its reason, and closed as stopped where it cannot go on', async () => {
    const page = await bench.open(pump, 'otherwise', { at: '2026-03-02T22:00:00' })
    await page.getByText('Read a record back, or start again').click()
    await press(page, 'Start a new job')
    await page.getByLabel('Name, fitter').fill('Ann Lee')
    await page.getByLabel('Name, supervisor').fill('Bo Hart')
    await page.getByLabel('Name, watcher').fill('Di Roe')
    await tick(page, /^1\.1 done/)
    await hears(page, 'not ticked: Lock on: pump isolator')
    await tick(page, 'Lock on: pump isolator')
    await tick(page, /^1\.1 done/)
    await tick(page, /^1\.2 done/)
    await hears(page, 'a reading is missing: voltage')
    await readVoltage(page, '0.2 V')
    await tick(page, /^1\.2 done/)
    // Not who was signed in as the supervisor of this job.
    await signs(page, 'H1', 'Cy Dunn')
    await page.getByText('the supervisor on this job is Bo Hart, and Cy Dunn signs').waitFor()
    await press(page, 'Has taken over as supervisor')
    await hears(page, 'H1 signed')
    // The states of this job say: lapses 8 h.
    await page.clock.fastForward('09:00:00')
    await tick(page, /^2\.1 done/)
    await hears(page, 'Too old: power isolated')
    await page.locator('.bar-open summary').click()
    await press(page, 'Go on with the old proof: a deviation')
    await page.getByLabel('Or in your words').fill('Locks seen on by both, no supervisor on site')
    await page.locator('.why').getByRole('button', { name: 'Write it down' }).click()
    await page.locator('.bar-open summary').click()
    await tick(page, /^2\.1 done/)
    await nextIs(page, '2.2')
    await page.locator('[data-close] [name=name]').fill('Ann Lee')
    await press(page, 'It cannot go on: close it as stopped')
    await hears(page, 'Write why it stops')
    await page.locator('[data-close] [name=text]').fill('No seal in store. Locks stay on, supervisor told.')
    await press(page, 'It cannot go on: close it as stopped')
    await hears(page, 'Closed. Save the record.')
    const { record, faults } = readRecord(await savedText(page))
    expect(faults).toEqual([])
    expect(record?.end).toMatchObject({ how: 'stopped', by: [{ name: 'Ann Lee' }] })
    expect(record?.deviations.map(({ text }) => text)).toEqual([
      'H1: the supervisor on this job is Bo Hart, and Cy Dunn signs.',
      'power isolated (H1 at 1.2) is too old, and not proved again.',
    ])
    await page.close()
  })
})

describe('two windows', () => {
  it('never overwrite each other', async () => {
    const one = await bench.open(pump, 'two')
    await one.getByText('Read a record back, or start again').click()
    await press(one, 'Start a new job')
    const two = await bench.open(pump, 'two')
    await one.getByLabel('Name, fitter').fill('Ann Lee')
    await one.getByLabel('Name, fitter').press('Enter')
    await expect.poll(() => two.getByLabel('Name, fitter').inputValue()).toBe('Ann Lee')
    // Both at the same moment.
    await Promise.all([tick(one, 'Lock on: pump isolator'), two.getByLabel('Equipment and serial number').fill('PU-9')])
    await two.getByLabel('Equipment and serial number').press('Enter')
    // Whichever comes second is kept too, or told to look first.
    const lock = one.getByRole('checkbox', { name: 'Lock on: pump isolator' })
    const toldToLook = async (window: Page) =>
      (await window.locator('[data-said]').textContent())?.includes('Something was written in another window') === true
    await expect
      .poll(async () => (await lock.getAttribute('aria-checked')) === 'true' || (await toldToLook(one)))
      .toBe(true)
    const [isOneTold, isTwoTold] = [await toldToLook(one), await toldToLook(two)]
    await one.reload()
    await one.locator('html.is-live').waitFor()
    const kinds = (JSON.parse(await savedText(one)).entries as { kind: string }[]).map(({ kind }) => kind)
    expect([kinds.includes('tick') || isOneTold, kinds.includes('equipment') || isTwoTold]).toEqual([true, true])
    expect(kinds.includes('tick') || kinds.includes('equipment')).toBe(true)
    expect(new Set(kinds).size).toBe(kinds.length)
  })
})

describe('a record that is not what it should be', () => {
  const attack = '"><img src=x onerror="window.hurt=1"><script>window.hurt=1</script>'
  let page: Page

  beforeAll(async () => {
    page = await bench.open(pump, 'hostile-record')
    await page.getByText('Read a record back, or start again').click()
    await press(page, 'Start a new job')
    await page.getByText('Read a record back, or start again').click()
  })

  const whole = makeRecord(job, {
    entries: entriesOf(job, []),
    source: 'page',
    saved: '2026-03-02T22:00:00+10:00',
    photos: new Map(),
  })

  it.each([
    ['no record at all', '<script>window.hurt=1</script>', 'no JSON'],
    ['one that was changed', JSON.stringify({ ...whole, equipment: 'another' }), 'changed or damaged'],
    ['one of another procedure', JSON.stringify(ofAnother()), 'Not taken in: it is of KRQ-XX-999'],
    ['one that is judged wrongly', JSON.stringify(misjudged()), 'judged wrongly'],
  ])('refuses %s', async (_, text, words) => {
    await takeIn(page, text)
    await hears(page, words)
    await page.getByText('Read a record back, or start again').click()
  })

  it('shows hostile words as words', async () => {
    const binding = { run: attack, procedure: job.digest }
    const person = { role: attack, name: attack, initials: attack }
    const entries = [
      { kind: 'begin', run: attack } as const,
      { kind: 'equipment', text: attack } as const,
      { kind: 'person', person: { ...person, role: 'fitter' } } as const,
      { kind: 'note', step: 'try', text: attack } as const,
      { kind: 'deviation', step: null, wait: null, text: attack, because: attack } as const,
      { kind: 'sign', hold: 'try#hold-supervisor', meaning: 'released' } as const,
      { kind: 'tick', item: '__proto__' } as const,
      { kind: 'photo', step: 'try', photo: 'a'.repeat(64), mediaType: 'image/jpeg', bytes: 1 } as const,
    ].reduce<ReturnType<typeof entryAfter>[]>(
      (all, happening) => all.concat(entryAfter(binding, all, '', [person], happening)),
      [],
    )
    const record = makeRecord(job, { entries, source: 'page', saved: '2026-03-02T22:00:00+10:00', photos: new Map() })
    await takeIn(page, JSON.stringify(record))
    await hears(page, 'Taken in')
    await page.getByText(attack).first().waitFor()
    expect(await page.evaluate(() => 'hurt' in window)).toBe(false)
    expect(await page.locator('main script, main [onerror], main img[src="x"]').count()).toBe(0)
  })
})

it('asked no network for anything, and never complained', () => {
  expect(bench.asked).toEqual([])
  expect(bench.complaints).toEqual([])
})

function ofAnother() {
  const other = { ...job, number: 'KRQ-XX-999', digest: `sha256:${'0'.repeat(64)}` }
  return makeRecord(other, {
    entries: entriesOf(other, []),
    source: 'page',
    saved: '2026-03-02T22:00:00+10:00',
    photos: new Map(),
  })
}

function misjudged() {
  const reading = {
    kind: 'reading',
    reading: 'try#voltage',
    position: null,
    typed: '230 V',
    verdict: 'in',
    judgedAs: '',
    limit: 'max 5 V',
  } as const
  const entries = entriesOf(job, [{ ...reading, correction: null }])
  return makeRecord(job, { entries, source: 'page', saved: '2026-03-02T22:00:00+10:00', photos: new Map() })
}

/** A picture of the page itself stands for one of a dial. */
async function picture(page: Page): Promise<Buffer> {
  return page.screenshot({ clip: { x: 0, y: 0, width: 200, height: 120 } })
}
