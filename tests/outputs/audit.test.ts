import { createHash } from 'node:crypto'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { libraryOnDisk } from '../../src/devices/library-on-disk.ts'
import { auditCsv } from '../../src/outputs/audit/audit-csv.ts'
import { auditHtml } from '../../src/outputs/audit/audit-html.ts'
import { indexHtml } from '../../src/outputs/index-page/index-html.ts'
import type { StepFile } from '../../src/step-file/step-file.ts'
import { placeOfAcceptance } from '../../src/wording/accepted-text.ts'
import { csvText } from '../../src/wording/csv-text.ts'
import { allSteps } from '../../src/wording/step-file-parts.ts'
import { openBrowser, type TestBrowser } from '../browser.ts'
import { stepFileOf } from '../compile-text.ts'
import { root, textOf } from '../house/source-files.ts'
import { sampleStepFile } from './checklist/sample-step-file.ts'

/** Small, with one of everything an auditor asks about. */
const small = stepFileOf(
  `\`\`\`yaml
roles:
  fitter: { who: conveyor fitter }
  supervisor: { who: shift supervisor, different-from: [fitter] }
states:
  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated, proved-by: supervisor }
zones:
  under-belt: { what: below the return belt, safe-when: { power: isolated } }
tools: { tw: { name: torque wrench, range: 40 to 400 N·m } }
\`\`\`

## Train {#train}

\`\`\`yaml
by: fitter
where: out
\`\`\`

1. Turn the screw of the tail pulley, watch the belt for three rounds. {#watch}
   \`\`\`yaml
   enters: under-belt
   exposed:
     zone: under-belt
     who: fitter
     because: The belt can only be trained while it runs.
     controls: [long-handled key, second person at the pull cord]
     hold: { supervisor: The second person stands at the pull cord. }
   \`\`\`

## Fit {#fit}

\`\`\`yaml
by: fitter
where: out
\`\`\`

1. Tell everyone at the belt that it stops for work.
2. Turn the isolator off and lock it.
   \`\`\`yaml
   locks: [belt-isolator]
   sets: { power: isolated }
   \`\`\`
3. Show the supervisor the isolation.
   \`\`\`yaml
   hold: { supervisor: "I saw the isolator off, and the start tried." }
   proves: { power: isolated }
   \`\`\`
4. Tighten the housing.
   \`\`\`yaml
   where: under-belt
   torque: { housing: "170 to 190 N·m, 8 × M16 10.9, oiled, star, passes 50 100 %, with tw, extension 150 mm, wrench-length 450 mm" }
   \`\`\`

## Hand back {#hand-back}

\`\`\`yaml
by: fitter
where: out
\`\`\`

1. Take the lock off and turn the isolator on.
   \`\`\`yaml
   unlocks: [belt-isolator]
   sets: { power: live }
   \`\`\`
2. Run the belt, and listen at the housing.
   \`\`\`yaml
   check: { quiet: The housing runs quiet. }
   else: stop
   \`\`\`
`,
  {},
  'accept:\n  - { finding: flow/exposed, step: watch, because: "=Agreed, on the \\"20th\\".", role: safety-officer }\n',
)

const demoFile = 'procedures/haul-truck-front-wheel-hub/haul-truck-front-wheel-hub.md'
const compiledDemo = compileProcedure(demoFile, openLibrary(libraryOnDisk(root))).stepFile
if (compiledDemo === null) throw new Error('the demo does not compile')
const demo: StepFile = compiledDemo

const files: readonly (readonly [string, StepFile])[] = [
  ['the small one', small],
  ['the demo', demo],
  ['the sample by hand', sampleStepFile],
]

const squeezed = (text: string) => text.replace(/\s+/g, ' ').trim()
const times = (text: string, words: string) => text.split(squeezed(words)).length - 1

/** A reader of RFC 4180, written from its grammar and by nothing of ours. */
function readCsv(text: string): readonly (readonly string[])[] {
  const rows: string[][] = []
  let row: string[] = []
  let at = text.startsWith('\uFEFF') ? 1 : 0
  while (at < text.length) {
    let cell = ''
    if (text[at] === '"') {
      at++
      while (!(text[at] === '"' && text[at + 1] !== '"')) {
        if (at >= text.length) throw new Error('a cell is not closed')
        if (text[at] === '"') at++
        cell += text[at++]
      }
      at++
    } else while (at < text.length && text[at] !== ',' && text[at] !== '\r') cell += text[at++]
    row.push(cell)
    if (text[at] === ',') at++
    else if (text.startsWith('\r\n', at)) {
      rows.push(row)
      row = []
      at += 2
    } else throw new Error(`no comma and no line end at ${at}`)
  }
  return rows
}

interface Shown {
  readonly text: string
  readonly sections: ReadonlyMap<string, string>
}

let browser: TestBrowser
const shown = new Map<string, Shown>()

/** What stands in an element, a line each piece of text. */
const linesIn = (element: Element): string => {
  const walker = document.createTreeWalker(element, NodeFilter.SHOW_TEXT)
  const lines: string[] = []
  while (walker.nextNode()) lines.push((walker.currentNode.nodeValue ?? '').replace(/\s+/g, ' ').trim())
  return lines.filter((line) => line !== '').join('\n')
}

let folder: string
async function opened(html: string) {
  const page = await browser.context.newPage()
  const file = join(folder, 'audit.html')
  writeFileSync(file, html)
  await page.goto(pathToFileURL(file).href)
  return page
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'witnessmark-audit-'))
  browser = await openBrowser({})
  for (const [name, stepFile] of files) {
    const page = await opened(auditHtml(stepFile))
    const sections = new Map<string, string>()
    for (const one of await page.locator('section').all()) {
      const text = await one.evaluate(linesIn)
      sections.set(text.split('\n')[0] ?? '', squeezed(text))
    }
    shown.set(name, { text: await page.locator('main').evaluate(linesIn), sections })
    await page.close()
  }
}, 60_000)
afterAll(async () => {
  await browser.close()
  rmSync(folder, { recursive: true, force: true })
})

const section = (name: string, head: string): string => {
  const found = shown.get(name)?.sections.get(head)
  if (found === undefined) throw new Error(`no section “${head}”`)
  return found
}

describe.each(files)('the audit of %s', (name, stepFile) => {
  const steps = stepFile.phases.flatMap((phase) => allSteps(phase.steps).map((step) => ({ phase, step })))
  const asWritten = readCsv(auditCsv(stepFile))
  // A spreadsheet would read 9.10 as the number 9.1: numbers of steps are read here without the word before them.
  const rows = asWritten.map((row) => row.with(4, (row[4] ?? '').replace(/^step (?=[\d.]+$)/, '')))
  const cells = (kind: RegExp) => rows.slice(1).filter((row) => kind.test(row[2] ?? ''))

  it('has no step that a spreadsheet takes for a number', () => {
    expect(asWritten.flatMap((row) => (/^[\d.]+$/.test(row[4] ?? '') ? [row[4]] : []))).toEqual([])
  })

  it('has every signature once, in the order of the job', () => {
    const text = section(name, 'Signatures, in the order of the job')
    const signed = cells(/^(?:hold|witness|verify|review)$/)
    expect(signed.map((row) => [row[4], row[5], row[7]])).toEqual(
      stepFile.holds.map((hold) => [hold.number, hold.position ?? '', squeezed(hold.says)]),
    )
    stepFile.holds.forEach((hold, index) => {
      expect(text.match(new RegExp(`\\bH${index + 1} [A-Z]`, 'g')), hold.hold).toHaveLength(1)
    })
    for (const says of new Set(stepFile.holds.map((hold) => hold.says)))
      expect(times(text, says), says).toBe(stepFile.holds.filter((hold) => hold.says === says).length)
  })

  it('has every acceptance once, with its reason and role', () => {
    const head = (finding: string) =>
      finding === 'flow/exposed' ? 'People on purpose where it is not safe' : 'Other findings that were accepted'
    for (const accepted of stepFile.accepted) {
      const text = section(name, head(accepted.finding))
      expect(times(text, accepted.because)).toBe(1)
      expect(text).toContain(`Accepted by the ${accepted.role.replace('-', ' ')}`)
      expect(text).toContain(placeOfAcceptance(stepFile, accepted))
      for (const message of accepted.messages) expect(text).toContain(squeezed(message))
    }
    expect(cells(/^acceptance$/)).toHaveLength(stepFile.accepted.length)
  })

  it('has every property once, and everything that was not looked at', () => {
    const text = section(name, 'What was shown')
    const all = stepFile.proof.properties.map(({ says }) => squeezed(says))
    const items = cells(/^shown$/).map((row) => row[7])
    expect([...items].sort()).toEqual([...all].sort())
    for (const says of new Set(all)) expect(times(text, says), says).toBe(all.filter((one) => one === says).length)
    if (stepFile.proof.verdict !== 'nothing-to-prove')
      for (const not of stepFile.proof.notModelled) expect(times(text, not), not).toBe(1)
  })

  it('has every working at every step that has it, and the same one no second time', () => {
    const text = section(name, 'Lifts, supports, torques and how they were worked out')
    const workings = steps.flatMap(({ step }) => step.workings)
    for (const { phase, step } of steps) {
      if (step.workings.length === 0) continue
      const place = [step.number, phase.position?.label ?? ''].join(' ').trim()
      expect(text, place).toContain(place)
    }
    for (const { says, formula, lines, source, caution } of workings) {
      const whole = [says, `How this was worked out: ${formula}`, ...lines, `Source: ${source}`].map(squeezed).join(' ')
      expect(times(text, whole), says).toBe(1)
      expect(text).toContain(squeezed(caution))
    }
    for (const torque of steps.flatMap(({ step }) => step.torques)) expect(text).toContain(squeezed(torque.limit.text))
  })

  it('has every energy, exposure, open finding, caution and approval', () => {
    const text = squeezed([...(shown.get(name)?.sections.values() ?? [])].join(' '))
    const said = [
      ...(stepFile.machine?.energies.flatMap(({ magnitude, because }) => [magnitude ?? '', because ?? '']) ?? []),
      ...steps.flatMap(({ phase, step }) =>
        [...phase.exposed, ...step.exposed].flatMap(({ because, controls, agreedBy }) => [
          ...[because, ...controls],
          ...agreedBy.map(({ says }) => says),
        ]),
      ),
      ...stepFile.findings.flatMap(({ message, advice }) => [message, advice]),
      ...stepFile.cautions,
      ...stepFile.document.approvals.flatMap(({ name, date }) => [name ?? '', date ?? '']),
      stepFile.digest,
    ]
    expect(said.filter((words) => !text.includes(squeezed(words)))).toEqual([])
  })

  it('has every headcount', () => {
    const counted = stepFile.phases
      .flatMap((phase) => [phase, ...allSteps(phase.steps)])
      .filter((one) => one.clear.length)
    expect(cells(/^headcount$/).map((row) => row[4])).toEqual(counted.map(({ number }) => number))
  })

  it('is a table of equal rows, and the same bytes every time', () => {
    expect(new Set(rows.map((row) => row.length))).toEqual(new Set([rows[0]?.length]))
    expect(auditCsv(stepFile)).toBe(auditCsv(stepFile))
    expect(auditHtml(stepFile)).toBe(auditHtml(stepFile))
  })
})

describe('the audit as a file', () => {
  const html = auditHtml(small)

  it('has no script, and allows itself nothing but its own style', () => {
    // Content Security Policy Level 3, 2.3.1: hash-source = SHA-256 of the element's text, in base64.
    const style = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? ''
    const policy = /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(html)?.[1] ?? ''
    const hash = createHash('sha256').update(style).digest('base64')
    expect(policy.replaceAll('&#x27;', "'").replaceAll('&#x3D;', '=')).toContain(`style-src 'sha256-${hash}'`)
    expect(policy.replaceAll('&#x27;', "'")).toContain("script-src 'none'")
    expect(html).not.toMatch(/<script|\s(?:style|on\w+)="/)
  })

  it('has nothing that a checker of accessibility would fault', async () => {
    for (const [, stepFile] of files) {
      // The policy of the page lets no foreign script in, so the checker looks at it without.
      const page = await opened(auditHtml(stepFile).replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, ''))
      await page.addScriptTag({ content: textOf('node_modules/axe-core/axe.min.js') })
      const found = await page.evaluate(async () => {
        const { axe } = window as unknown as {
          axe: { run: () => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> }
        }
        return (await axe.run()).violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)
      })
      expect(found).toEqual([])
      await page.close()
    }
  }, 60_000)

  it('keeps what an author wrote apart from what a browser reads', () => {
    const [first] = small.holds
    if (first === undefined) throw new Error('no hold')
    const text = '<b>5 < 6</b> & "quoted" {{this}}'
    const made = auditHtml({ ...small, holds: [{ ...first, says: text }] })
    expect(made).toContain('&lt;b&gt;5 &lt; 6&lt;/b&gt; &amp; &quot;quoted&quot; {{this}}')
    expect(made).not.toContain('<b>5')
  })

  it('says of a draft that it is not for use', () => {
    expect(auditHtml({ ...small, document: { ...small.document, status: 'draft' } })).toContain('NOT FOR USE')
  })

  it('tells when the one who signs may be the one who did the step', () => {
    expect(html).not.toContain('may be who did the step')
    const roles = small.roles.map((role) => ({ ...role, differentFrom: [] }))
    expect(auditHtml({ ...small, roles }).split('<strong>may be who did the step</strong>')).toHaveLength(
      small.holds.length + 1,
    )
  })

  it('counts a witness, a review and a role that is not asked for as no proof', () => {
    const proves = (stepFile: StepFile) =>
      readCsv(auditCsv(stepFile))
        .filter((row) => row[3] === 'H1')
        .map((row) => [row[8], row[9]])
    expect(proves(small)).toEqual([['power isolated', '']])
    const withHolds = (change: object): StepFile => ({
      ...small,
      phases: small.phases.map((phase) => ({
        ...phase,
        steps: phase.steps.map((step) => ({ ...step, holds: step.holds.map((hold) => ({ ...hold, ...change })) })),
      })),
    })
    const changes = [{ kind: 'witness' }, { kind: 'review' }, { timing: 'before' }, { role: 'fitter' }]
    for (const change of changes) {
      expect(proves(withHolds(change)), JSON.stringify(change)).toEqual([['', 'does not prove: power isolated']])
      expect(auditCsv(withHolds(change))).toContain('"unsigned proof","nothing that counts as proof","step 2.3"')
    }
  })

  it('names the signature for an exposure, or says that there is none', () => {
    const says = 'The second person stands at the pull cord.'
    expect(html).toContain(`${says} (no numbered signature says so)`)
    const [first] = small.holds
    if (first === undefined) throw new Error('no hold')
    // At 2.3, when the exposure at 1.1 is over.
    const late = { ...first, hold: 'watch#hold-supervisor', says }
    expect(auditHtml({ ...small, holds: [...small.holds, late] })).toContain(`${says} (H2, signed only afterwards)`)
    const inTime = { ...small, phases: small.phases.toReversed(), holds: [...small.holds, late] }
    expect(auditHtml(inTime)).toContain(`${says} (H2)`)
  })

  it('is on the index', () => {
    const listed = indexHtml([{ folder: 'KRQ-TX-001-A', stepFile: small, files: ['audit.csv', 'audit.html'] }])
    const links = [...listed.matchAll(/href="(KRQ[^"]+)"/g)].map(([, address]) => address)
    expect(links).toEqual(['KRQ-TX-001-A/audit.html', 'KRQ-TX-001-A/audit.csv'])
  })

  it('reads like this', () => {
    const text = shown.get('the small one')?.text ?? ''
    expect(text.replace(/sha256:[\da-f]{64}/, 'sha256:…')).toMatchSnapshot()
  })

  it('is a table like this', () => {
    expect(auditCsv(small).replace('\uFEFF', '').replaceAll('\r\n', '\n')).toMatchSnapshot()
  })
})

describe('the table', () => {
  it('is read back as it was written, but for blanks made one and what a spreadsheet would carry out', () => {
    const cell = fc.string({
      unit: fc.constantFrom('a', '"', ',', ';', ' ', '\n', '\r', '\t', '=', '+', '-', '@', 'é'),
    })
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { maxLength: 5 }), (rows) => {
        const read = readCsv(csvText(rows))
        expect(read.flat().filter((text) => /^[=+\-@]/.test(text))).toEqual([])
        expect(read).toEqual(
          rows.map((row) =>
            row.map((text) => squeezed(text)).map((text) => (/^[=+\-@]/.test(text) ? `'${text}` : text)),
          ),
        )
      }),
    )
  })

  // RFC 4180 (October 2005), section 2, rules 1, 5, 6 and 7.
  it('ends rows with CRLF, and doubles a quote', () => {
    expect(csvText([['a', 'b "c", d']])).toBe('\uFEFF"a","b ""c"", d"\r\n')
  })

  // Common practice against formula injection, no published standard.
  it.each(['=1+1', '+49', '-1', '@sum', ' =1+1', '\t=1+1', '＝1'])('makes %j harmless', (text) => {
    expect(readCsv(csvText([[text]]))).toEqual([[`'${text.trim()}`]])
  })
})
