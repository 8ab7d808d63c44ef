import { chmodSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { compileProcedure, openLibrary } from '../../../src/compile.ts'
import type { Program } from '../../../src/doors/cli/program.ts'
import { witnessmark } from '../../../src/doors/cli/witnessmark.ts'
import type { Finding } from '../../../src/findings/finding.ts'
import { sourceText } from '../../../src/text/source-text.ts'
import { faultPageFiles, readPage } from '../../fault-pages.ts'
import { mapLibrary } from '../../map-library.ts'
import { toyProgram, workplace } from './toy-program.ts'

let place = workplace({})
afterEach(() => place.remove())
const use = (files: Record<string, string>) => {
  place.remove()
  place = workplace(files)
  return place
}

const document = (steps: string) => `---
number: KRQ-BC-030
title: Set the belt scraper
revision: A
status: for-review
date: 2026-03-02
---

\`\`\`yaml
roles: { fitter: { who: conveyor fitter }, supervisor: { who: shift supervisor } }
\`\`\`

## Scraper {#scraper}

\`\`\`yaml
by: fitter
\`\`\`

${steps}`

const misspelt = document('1. **Fiter:** Loosen both adjusters.\n2. **Superviser:** Look at the blade.\n')

describe('witnessmark check --fix', () => {
  it('makes what is certain, tells each change, and says what still stands', async () => {
    const { run, read } = use({ 'procedures/scraper.md': misspelt })
    expect((await run(['check', 'procedures', '--fix'], witnessmark)).err).toMatchInlineSnapshot(`
      "procedures/scraper.md:19 Write fitter: "Fiter" → "fitter"
      procedures/scraper.md:20 Write supervisor: "Superviser" → "supervisor"
      1 procedure checked: 2 changes made, nothing found.
      "
    `)
    expect(read('procedures/scraper.md')).toContain('1. **fitter:** Loosen')
    const again = await run(['check', 'procedures', '--fix'], witnessmark)
    expect(again).toEqual({ status: 0, out: '', err: '1 procedure checked: 0 changes made, nothing found.\n' })
  })

  it('with --dry-run writes nothing, and --dry-run alone is wrong use', async () => {
    const { run, read } = use({ 'scraper.md': misspelt })
    const result = await run(['check', '.', '--fix', '--dry-run'], witnessmark)
    expect(result.err).toContain('2 changes would be made')
    expect(result.status).toBe(1)
    expect(read('scraper.md')).toBe(misspelt)
    expect((await run(['check', '.', '--dry-run'], witnessmark)).status).toBe(2)
  })

  it('keeps line ends, byte order mark and permissions', async () => {
    const { run, read, folder, list } = use({ 'scraper.md': `\uFEFF${misspelt.replaceAll('\n', '\r\n')}` })
    chmodSync(join(folder, 'scraper.md'), 0o640)
    await run(['check', '.', '--fix'], witnessmark)
    expect(read('scraper.md')).toBe(
      `\uFEFF${misspelt.replace('Fiter', 'fitter').replace('Superviser', 'supervisor').replaceAll('\n', '\r\n')}`,
    )
    expect(statSync(join(folder, 'scraper.md')).mode & 0o777).toBe(0o640)
    expect(list('.')).toEqual(['scraper.md'])
  })

  it('leaves a file alone that somebody changed in the meantime', async () => {
    const { run, read, put } = use({ 'scraper.md': misspelt })
    const meddled: Program = {
      ...witnessmark,
      openLibrary: (root, texts) => {
        const library = witnessmark.openLibrary(root, texts)
        return {
          ...library,
          compile: (file) => {
            const compiled = library.compile(file)
            put('scraper.md', `${misspelt}3. Tighten both adjusters.\n`)
            return compiled
          },
        }
      },
    }
    const result = await run(['check', '.', '--fix'], meddled)
    expect(result.err).toContain('scraper.md: somebody changed it in the meantime')
    expect(result.status).toBe(1)
    expect(read('scraper.md')).toBe(`${misspelt}3. Tighten both adjusters.\n`)
  })

  it('makes changes that overlap one after the other', async () => {
    const { run, read } = use({ 'a.md': 'one two three' })
    expect((await run(['check', '.', '--fix'], toyWith({ 'one two': '1 two', 'two three': '2 3' }))).status).toBe(0)
    expect(read('a.md')).toBe('1 2 3')
  })

  it('ends where two changes undo one another, says so, and writes only what it told', async () => {
    const { run, read } = use({ 'a.md': 'left' })
    const result = await run(['check', '.', '--fix'], toyWith({ left: 'right', right: 'left' }))
    expect(result.err).toContain('After 20 rounds there were still changes to make.')
    expect(read('a.md')).toBe('left')
  })
})

/** Each word is to be replaced by another. */
function toyWith(words: Readonly<Record<string, string>>): Program {
  const findingsIn = (file: string, text: string): readonly Finding[] =>
    Object.entries(words).flatMap(([word, better]) => {
      const start = text.indexOf(word)
      const at = { file, start, end: start + word.length }
      const edit = { title: `Write ${better}`, changes: [{ at, newText: better }] }
      return start < 0 ? [] : [{ name: 'toy/word', severity: 'warning', at, message: 'No.', advice: 'Other.', edit }]
    })
  return {
    ...toyProgram,
    openLibrary: (root, texts) => ({
      ...toyProgram.openLibrary(root, texts),
      compile: (file) => {
        const text = texts?.get(file) ?? place.read(file)
        return { findings: findingsIn(file, text), stepFile: null, sources: [sourceText(file, text)] }
      },
    }),
  }
}

describe('a fix of spelling', () => {
  const body = document(`1. Set the gap to 2mm and the spring to 35N·m. {#set}
   \`\`\`yaml
   measure: { gap: ".5 to 2mm" }
   else: stop
   \`\`\`
`)

  it('changes no limit, no step and no consequence', async () => {
    const { run, read } = use({ 'a.md': body })
    await run(['check', '.', '--fix'], witnessmark)
    const fixed = read('a.md')
    expect(fixed).toContain('Set the gap to 2 mm and the spring to 35 N·m.')
    expect(fixed).toContain('0.5 to 2 mm')
    const meaning = (text: string) => {
      const { stepFile } = compileProcedure('a.md', openLibrary(mapLibrary({ 'a.md': text })))
      const steps = stepFile?.phases.flatMap((one) => one.steps) ?? []
      return steps.map(({ id, text: said, readings, consequences, by }) => ({
        id,
        said: said.plain.replace(/\s/g, ''),
        limits: readings.map(({ limit }) => [limit?.lower?.exact, limit?.upper?.exact, limit?.unit]),
        consequences,
        by,
      }))
    }
    expect(meaning(fixed)).toEqual(meaning(body))
    expect(meaning(body)).toHaveLength(1)
  })
})

describe('on every example that is reported', () => {
  const examples = faultPageFiles.flatMap((path) => readPage(path).examples).filter(({ expect }) => expect !== null)
  const files = Object.fromEntries(
    examples.flatMap((example, index) => [
      [`${index}/witnessmark.yaml`, 'site: Kestrel Ridge Quarry\n'],
      ...Object.entries(example.files).map(([path, text]) => [`${index}/${path}`, text]),
    ]),
  ) as Record<string, string>
  const folders = examples.map((_, index) => `${index}/procedures`)

  it('leaves nothing that could be fixed, and a second time changes nothing', async () => {
    const { run, read, list } = use(files)
    const first = await run(['check', ...folders, '--fix', '--format', 'json'], witnessmark)
    expect(first.err).not.toContain('rounds there were still changes')
    const left = (
      JSON.parse(first.out) as { findings: { name: string; file: string; edit: unknown }[] }
    ).findings.filter(
      // A number that jumps may be a step that was lost: somebody has to look.
      ({ name }) => name !== 'syntax/step-number-out-of-order',
    )
    expect(left.filter(({ edit }) => edit !== null).map(({ name, file }) => `${file} ${name}`)).toEqual([])
    const once = new Map(list('.').map((path) => [path, read(path)]))
    const changed = new Set(
      [...once].filter(([path, text]) => files[path] !== text).map(([path]) => path.split('/')[0]),
    )
    expect(changed.size).toBeGreaterThan(10)
    const again = [...changed].map((index) => `${index}/procedures`)
    const second = await run(['check', ...again, '--fix', '--format', 'json'], witnessmark)
    expect(second.err).toContain(' 0 changes made')
    expect(new Map(list('.').map((path) => [path, read(path)]))).toEqual(once)
  })
})
