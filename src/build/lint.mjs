import { spawnSync } from 'node:child_process'
import { ensureInstalled } from './ensure-installed.mjs'
import { rootFolder } from './root-folder.mjs'

/** `npm run lint`: format and rules, types, unused files and exports. All three run; any of them fails the whole. */
const checks = [
  ['biome', 'check'],
  ['tsc', '-p', '.'],
  ['knip', '--no-progress'],
]

ensureInstalled()
for (const check of checks) {
  console.error(`— ${check.join(' ')}`)
  const run = spawnSync('npx', ['--no-install', ...check], {
    cwd: rootFolder,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  })
  if (run.status !== 0) process.exitCode = 1
}
