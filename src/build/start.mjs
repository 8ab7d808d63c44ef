import { spawnSync } from 'node:child_process'
import { join } from 'node:path'
import { ensureInstalled } from './ensure-installed.mjs'
import { rootFolder } from './root-folder.mjs'

/** `npm start`: install what is missing, compile the program, build every procedure of `procedures/` into `out/`. */
try {
  ensureInstalled()
  const { compileProgram } = await import('./compile-program.mjs')
  const { made } = await compileProgram()
  if (made) console.error('Program compiled.')
  const command = join(rootFolder, 'src/doors/cli/witnessmark.mjs')
  const build = spawnSync(
    process.execPath,
    [command, 'build', 'procedures', '--out', 'out', ...process.argv.slice(2)],
    {
      cwd: rootFolder,
      stdio: 'inherit',
    },
  )
  process.exitCode = build.status ?? 1
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
  process.exitCode = 1
}
