import { spawnSync } from 'node:child_process'
import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { ensureInstalled } from './ensure-installed.mjs'
import { rootFolder } from './root-folder.mjs'

/**
 * `npm run bench [part of a name]`: bundles each `tests/bench/<name>.bench.ts` as the command itself is bundled, and runs it in a
 * process of its own. Tables go to standard output. A missed target is shown, and is no failure: the machine may be busy.
 */
try {
  ensureInstalled()
  const { build } = await import('esbuild')
  const folder = join(rootFolder, 'tests/bench')
  const wanted = process.argv[2] ?? ''
  const names = readdirSync(folder).filter((name) => name.endsWith('.bench.ts') && name.includes(wanted))
  if (names.length === 0) throw new Error(`No bench is named like "${wanted}".`)
  for (const name of names.sort()) {
    const outfile = join(rootFolder, 'out/bench', name.replace('.bench.ts', '.mjs'))
    await build({
      absWorkingDir: rootFolder,
      entryPoints: [join(folder, name)],
      outfile,
      bundle: true,
      format: 'esm',
      platform: 'node',
      target: 'node20',
      packages: 'external',
      logLevel: 'silent',
    })
    process.stdout.write(`\n## ${name.replace('.bench.ts', '')} (Node ${process.version})\n\n`)
    const run = spawnSync(process.execPath, [outfile], { cwd: rootFolder, stdio: 'inherit' })
    if (run.status !== 0) process.exitCode = 1
  }
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
  process.exitCode = 1
}
