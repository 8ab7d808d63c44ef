import { execFileSync } from 'node:child_process'
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { root } from './source-files.ts'

/** The package as it is packed, unpacked elsewhere, with nothing beside it but what it asks for. */
describe('the package', () => {
  const elsewhere = mkdtempSync(join(tmpdir(), 'witnessmark-package-'))
  afterAll(() => rmSync(elsewhere, { recursive: true, force: true }))
  const [packed] = JSON.parse(
    execFileSync('npm', ['pack', '--ignore-scripts', '--json', '--pack-destination', elsewhere], {
      cwd: root,
      stdio: 'pipe',
    }).toString(),
  ) as [{ filename: string; files: { path: string }[] }]
  const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    dependencies: Record<string, string>
  }

  it('holds the program, the schemas and the pages for authors, and no source or test', () => {
    const paths = packed.files.map(({ path }) => path)
    expect(paths).toContain('out/program/cli.js')
    expect(paths).toContain('README.md')
    const known =
      /^(out\/program\/[\w-]+\.js|out\/program\/(NOTICES|LICENSE)\.txt|src\/doors\/cli\/[\w-]+\.mjs|schema\/.+\.json|procedures\/README\.md|README\.md|package\.json)$/
    expect(paths.filter((path) => !known.test(path))).toEqual([])
  })

  it('runs elsewhere: compiles a procedure to a checklist', () => {
    execFileSync('tar', ['-xzf', packed.filename], { cwd: elsewhere })
    for (const name of Object.keys(manifest.dependencies)) {
      const link = join(elsewhere, 'package/node_modules', name)
      mkdirSync(dirname(link), { recursive: true })
      symlinkSync(join(root, 'node_modules', name), link)
    }
    const folder = join(elsewhere, 'work/procedures/belt-conveyor-tail-pulley')
    cpSync(join(root, 'procedures/belt-conveyor-tail-pulley'), folder, { recursive: true })
    cpSync(join(root, 'shared'), join(elsewhere, 'work/shared'), { recursive: true })
    cpSync(join(root, 'witnessmark.yaml'), join(elsewhere, 'work/witnessmark.yaml'))
    const command = join(elsewhere, 'package/src/doors/cli/witnessmark.mjs')
    execFileSync(process.execPath, [command, 'build', 'procedures'], { cwd: join(elsewhere, 'work'), stdio: 'pipe' })
    const made = join(elsewhere, 'work/out/KRQ-BC-031-A')
    expect(readdirSync(made)).toEqual(
      expect.arrayContaining(['checklist.pdf', 'page.html', 'steps.json', 'audit.html']),
    )
    expect(readFileSync(join(made, 'checklist.pdf')).subarray(0, 5).toString()).toBe('%PDF-')
    expect(existsSync(join(elsewhere, 'work/out/index.html'))).toBe(true)
  })
})
