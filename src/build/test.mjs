import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { ensureInstalled } from './ensure-installed.mjs'
import { rootFolder } from './root-folder.mjs'

/**
 * `npm test`: install what is missing, compile the program, run the tests.
 * The last line, `N passed, N failed`, is counted from the runner's own result; further arguments go to the runner.
 */
let passed = 0
let failed = 1
try {
  ensureInstalled()
  const { compileProgram } = await import('./compile-program.mjs')
  await compileProgram()
  ;({ passed, failed } = runTests(process.argv.slice(2)))
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
}
console.log(`${passed} passed, ${failed} failed`)
process.exitCode = failed === 0 ? 0 : 1

function runTests(moreArguments) {
  const folder = mkdtempSync(join(tmpdir(), 'witnessmark-tests-'))
  const resultFile = join(folder, 'result.json')
  try {
    const runner = join(rootFolder, 'node_modules/vitest/vitest.mjs')
    const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${resultFile}`]
    const run = spawnSync(process.execPath, [runner, 'run', ...reporters, ...moreArguments], {
      cwd: rootFolder,
      stdio: 'inherit',
    })
    if (!existsSync(resultFile)) return { passed: 0, failed: 1 }
    return counted(JSON.parse(readFileSync(resultFile, 'utf8')), run.status)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

function counted(result, exitStatus) {
  // A file that cannot even be loaded fails without a single test of its own.
  const filesThatDidNotRun = result.testResults.filter(
    (file) => file.status === 'failed' && !file.assertionResults.some((test) => test.status === 'failed'),
  ).length
  const notRun = result.numPendingTests + result.numTodoTests
  if (notRun > 0) console.log(`${notRun} not run`)
  const failures = result.numFailedTests + filesThatDidNotRun
  // The runner also fails for an error outside any test.
  return { passed: result.numPassedTests, failed: failures === 0 && exitStatus !== 0 ? 1 : failures }
}
