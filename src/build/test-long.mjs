import { spawnSync } from 'node:child_process'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'
import { rootFolder } from './root-folder.mjs'

/**
 * `npm run test:long [part of a path]`: the tests that know a full count, each with it. A test says so by asking for WITNESSMARK_LONG, itself
 * or in a file beside it. One file after the other, each with the whole machine; a table with the time of each is printed at the end.
 */
const wanted = process.argv[2] ?? ''
const files = testFiles(join(rootFolder, 'tests')).filter((file) => file.includes(wanted) && knowsFullCount(file))
const commit = spawnSync('git', ['rev-parse', '--short', 'HEAD'], { cwd: rootFolder, encoding: 'utf8' }).stdout.trim()
const lines = []
for (const file of files.sort()) {
  const started = performance.now()
  const run = spawnSync(process.execPath, [join(rootFolder, 'src/build/test.mjs'), relative(rootFolder, file)], {
    cwd: rootFolder,
    env: { ...process.env, WITNESSMARK_LONG: '1' },
    stdio: ['ignore', 'pipe', 'inherit'],
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  })
  process.stdout.write(run.stdout)
  if (run.status !== 0) process.exitCode = 1
  const minutes = ((performance.now() - started) / 60_000).toFixed(1)
  lines.push(`| \`${relative(rootFolder, file)}\` | ${lastLine(run.stdout)} | ${minutes} min |`)
}
console.log(`\nFull counts at ${commit || 'no commit'}, Node ${process.version}, seeds as in the tests:\n`)
console.log(['| test | result | time |', '|---|---|---|', ...lines].join('\n'))

function testFiles(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.test.ts'))
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
}

function knowsFullCount(file) {
  const text = readFileSync(file, 'utf8')
  if (text.includes('WITNESSMARK_LONG')) return true
  return [...text.matchAll(/from '(\.\.?\/[^']+\.ts)'/g)]
    .map(([, path]) => join(dirname(file), path))
    .some(
      (path) => path.includes('/tests/') && existsSync(path) && readFileSync(path, 'utf8').includes('WITNESSMARK_LONG'),
    )
}

function lastLine(text) {
  return text.trimEnd().split('\n').at(-1) ?? ''
}
