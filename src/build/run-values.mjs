import { spawnSync } from 'node:child_process'
import { join, resolve } from 'node:path'
import { build } from 'esbuild'
import { rootFolder } from './root-folder.mjs'

/** `npm run values [folder]`: bundles the runner of published values and runs it on a folder, `tests/values` unless one is named. */
const bundle = join(rootFolder, 'out/program/run-values.mjs')
await build({
  entryPoints: [join(rootFolder, 'tests/values/run-values.ts')],
  outfile: bundle,
  bundle: true,
  platform: 'node',
  format: 'esm',
  logLevel: 'error',
})
const own = join(rootFolder, 'tests/values')
const [folder] = process.argv.slice(2)
const run = spawnSync(process.execPath, [bundle, own, folder === undefined ? own : resolve(folder)], {
  stdio: 'inherit',
})
process.exitCode = run.status ?? 1
