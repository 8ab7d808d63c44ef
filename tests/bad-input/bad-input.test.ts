import { spawnSync } from 'node:child_process'
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { Validator } from '@cfworker/json-schema'
import sarifSchema from '@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json' with { type: 'json' }
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { FindingsReport } from '../../src/findings/as-json.ts'
import { badProcedures } from './bad-procedures.ts'
import { procedure } from './good-procedure.ts'

const projectFolder = fileURLToPath(new URL('../..', import.meta.url))
const command = join(projectFolder, 'src/doors/cli/witnessmark.mjs')
const place = mkdtempSync(join(tmpdir(), 'witnessmark-bad-'))
const library = join(place, 'library')

const put = (path: string, content: string | Uint8Array) => {
  mkdirSync(dirname(join(place, path)), { recursive: true })
  writeFileSync(join(place, path), content)
}

/** The command as a person runs it: a process of its own, in the library's folder. */
function run(...typed: readonly string[]) {
  const { status, stdout, stderr, signal } = spawnSync(process.execPath, [command, ...typed], {
    cwd: library,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
    timeout: 60_000,
  })
  return { status, signal, out: stdout, err: stderr }
}

const stackTrace = /^\s+at .+[:(]\d+/m
const filesBelow = (folder: string) =>
  existsSync(folder)
    ? readdirSync(folder, { recursive: true, withFileTypes: true })
        .filter((entry) => !entry.isDirectory())
        .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
        .sort()
    : []
const goodOutputs = ['audit.csv', 'audit.html', 'checklist.pdf', 'page.html', 'sign-off.pdf', 'steps.json'].map(
  (name) => `KRQ-OK-001-A/${name}`,
)

beforeAll(() => {
  const compiled = spawnSync(process.execPath, [join(projectFolder, 'src/build/compile-program.mjs')], {
    encoding: 'utf8',
  })
  if (compiled.status !== 0) throw new Error(compiled.stderr)
  put('library/witnessmark.yaml', 'site: Kestrel Ridge Quarry\n')
  put('library/good/good.md', procedure('KRQ-OK-001'))
  put('outside/secret.png', new Uint8Array([0x89, 0x50, 0x4e, 0x47]))
  put('outside/secret.md', '---\nsource: none\n---\n\n1. Not yours.\n')
  put('library/shared/fragments/circle.md', '---\nsource: House practice.\n---\n\n```yaml\ninclude: circle\n```\n')
  for (const [name, bad] of Object.entries(badProcedures)) put(`library/bad/${name}/${name}.md`, bad.content)
  mkdirSync(join(library, 'bad/figure-link-out/figures'))
  symlinkSync(join(place, 'outside/secret.png'), join(library, 'bad/figure-link-out/figures/link.png'))
})
afterAll(() => rmSync(place, { recursive: true, force: true }))

describe('bad procedures', () => {
  let report: FindingsReport
  let build: ReturnType<typeof run>
  beforeAll(() => {
    report = JSON.parse(run('check', '.', '--format', 'json').out)
    build = run('build', '.', '--out', '../out')
  })

  it.each(Object.entries(badProcedures))('%s gives an error with a place, a reason and what to type', (name, bad) => {
    const file = `bad/${name}/${name}.md`
    const errors = report.findings.filter(
      (finding) => finding.severity === 'error' && finding.file === (bad.at ?? file),
    )
    expect(errors.length).toBeGreaterThan(0)
    for (const error of errors) {
      expect(error.message).not.toBe('')
      expect(error.advice).not.toBe('')
    }
    expect(errors.map((error) => `${error.message}\n${error.advice}`).join('\n')).toMatch(bad.says)
    expect(build.err).toContain(`${file}: `)
  })

  it('tells all of it to programs too, in SARIF that the published schema accepts', () => {
    const log = JSON.parse(run('check', '.', '--format', 'sarif').out)
    // Source: OASIS SARIF 2.1.0 JSON schema (rtm.5) as carried by the package @microsoft/jest-sarif.
    expect(new Validator(sarifSchema as object, '4', true).validate(log).errors).toEqual([])
    expect(log.runs[0].results).toHaveLength(report.findings.length)
    expect(log.runs[0].tool.driver.rules.filter((rule: { help?: unknown }) => rule.help === undefined)).toEqual([])
  })

  it('tells no secret from outside the library', () => {
    expect(JSON.stringify(report)).not.toContain('Not yours')
  })

  it('builds the good one, writes nothing of the bad ones, and exits with 1 and no stack trace', () => {
    expect(build.status).toBe(1)
    expect(`${build.out}${build.err}`).not.toMatch(stackTrace)
    expect(`${build.out}${build.err}`).not.toContain('witnessmark itself failed')
    expect(filesBelow(join(place, 'out'))).toEqual([...goodOutputs, 'audit.csv', 'audit.html', 'index.html'])
  })

  it('takes 5 MB of prose and 5 MB on one line without falling over', () => {
    const prose = 'The bearing runs in grease, and grease runs out of the bearing. '
    put(
      'large/lines.md',
      procedure('KRQ-LG-001').replace('Both bearings', `${`${prose}\n\n`.repeat(76_000)}Both bearings`),
    )
    put('large/one-line.md', procedure('KRQ-LG-002').replace('Both bearings', `${prose.repeat(80_000)}Both bearings`))
    for (const file of ['lines.md', 'one-line.md']) {
      const result = run('check', `../large/${file}`)
      expect(result.signal, file).toBe(null)
      expect([0, 1], file).toContain(result.status)
      expect(`${result.out}${result.err}`).not.toMatch(stackTrace)
      expect(result.err).not.toContain('itself failed')
    }
  }, 120_000)
})

describe('a bad place to write to', () => {
  it.each([
    ['a file', '../file', 'a file stands where a folder is wanted'],
    ['a device', '/dev/full', 'a file stands where a folder is wanted'],
    ['a part of the running system', '/proc', 'could not be written'],
  ])('%s: one sentence that names the file, status 1, nothing left over', (_name, out, because) => {
    put('file', 'in the way')
    const result = run('build', 'good', '--out', out)
    expect(result.status).toBe(1)
    expect(result.err).toContain('good/good.md: ')
    expect(result.err).toContain(because)
    expect(result.err).not.toMatch(stackTrace)
    expect(readFileSync(join(place, 'file'), 'utf8')).toBe('in the way')
  })

  it('a full disk under standard output: one sentence, status 1', () => {
    const shell = spawnSync('sh', ['-c', `"${process.execPath}" "${command}" check bad/unknown-key > /dev/full`], {
      cwd: library,
      encoding: 'utf8',
    })
    expect(shell.status).toBe(1)
    expect(shell.stderr).toContain('could not be printed')
    expect(shell.stderr).not.toMatch(stackTrace)
  })
})

it('finds nothing in the good procedure', () => {
  expect(run('check', 'good')).toEqual({
    status: 0,
    signal: null,
    out: '',
    err: '1 procedure checked: nothing found.\n',
  })
})

describe('nothing to work on', () => {
  it('says what is missing, with status 2, and still builds the rest', () => {
    const missing = run('build', 'good', 'none/none.md', '--out', '../out-2')
    expect(missing.status).toBe(2)
    expect(missing.err).toContain('none/none.md: there is no such file or folder.')
    expect(filesBelow(join(place, 'out-2'))).toEqual([...goodOutputs, 'audit.csv', 'audit.html', 'index.html'])
    // The same sources give the same bytes.
    for (const file of goodOutputs)
      expect(readFileSync(join(place, 'out-2', file)).equals(readFileSync(join(place, 'out', file))), file).toBe(true)
    mkdirSync(join(place, 'bare'), { recursive: true })
    const bare = run('check', '../bare')
    expect(bare).toMatchObject({
      status: 2,
      out: '',
      err: '../bare: there is no procedure (a file ending in .md) in this folder.\n',
    })
  })
})
