import { spawnSync } from 'node:child_process'
import { readdirSync, writeFileSync } from 'node:fs'
import { cpus, loadavg } from 'node:os'
import { join } from 'node:path'
import { ensureInstalled } from './ensure-installed.mjs'
import { rootFolder } from './root-folder.mjs'

/**
 * `npm run bench [part of a name]`: bundles each `tests/bench/<name>.bench.ts` as the command itself is bundled, and runs it in a
 * process of its own. Tables go to standard output, and of a run of all of them to `tests/bench/RESULTS.md`. A missed target is shown, and is
 * no failure: the machine may be busy, which the load at the start of each tells.
 */
try {
  ensureInstalled()
  const { build } = await import('esbuild')
  const folder = join(rootFolder, 'tests/bench')
  const wanted = process.argv[2] ?? ''
  const names = readdirSync(folder).filter((name) => name.endsWith('.bench.ts') && name.includes(wanted))
  if (names.length === 0) throw new Error(`No bench is named like "${wanted}".`)
  const parts = []
  for (const name of names.sort()) {
    const [load = 0] = loadavg()
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
    const heading = `\n## ${name.replace('.bench.ts', '')} (Node ${process.version}, load ${load.toFixed(1)})\n\n`
    process.stdout.write(heading)
    const run = spawnSync(process.execPath, [outfile], { cwd: rootFolder, stdio: ['ignore', 'pipe', 'inherit'] })
    process.stdout.write(run.stdout)
    parts.push(heading, run.stdout.toString())
    if (run.status !== 0) process.exitCode = 1
  }
  if (wanted === '' && process.exitCode === undefined) writeFileSync(join(folder, 'RESULTS.md'), results(parts))
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
  process.exitCode = 1
}

function results(parts) {
  const commit = spawnSync('git', ['rev-parse', '--short', 'HEAD'], { cwd: rootFolder, encoding: 'utf8' }).stdout.trim()
  const machine = `${cpus().length} × ${cpus()[0]?.model ?? 'processor'}`
  const head = `# Measured\n\nWritten by \`npm run bench\` on ${new Date().toISOString().slice(0, 10)}, commit ${commit}, on ${machine}. Compare ratios, not milliseconds.\n`
  return head + parts.join('')
}
