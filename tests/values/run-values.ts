import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs'
import { basename, join } from 'node:path'
import { calculators } from '../../src/trade/calculators.ts'
import { readCaseFile } from './case-file.ts'
import { mappings } from './mappings.ts'
import { type CaseResult, runFile } from './run-cases.ts'

/**
 * `npm run values [folder]`: works out every case of a folder’s files of published values. Exit status 1 for a case that failed, and in our own
 * folder for one that nothing works out; cases from memory are told and do not count.
 */
const [ownFolder = '', folder = ownFolder] = process.argv.slice(2)
const isOwn = folder === ownFolder
const files = existsSync(folder) && statSync(folder).isDirectory() ? readdirSync(folder).filter(isCaseFile).sort() : []
if (files.length === 0) console.error(`There are no files of published values in ${folder}.`)
let isGood = files.length > 0
let all: readonly CaseResult[] = []
for (const name of files) {
  const file = readCaseFile(readFileSync(join(folder, name), 'utf8'), basename(name))
  const results = runFile(file, mappings[file.family] ?? [], calculators)
  all = [...all, ...results]
  console.log(`${file.family.padEnd(16)} ${countsOf(results)}`)
  for (const { id, basis, status, detail } of results) {
    if (status === 'passed') continue
    const counts = basis !== 'memory' && (status === 'failed' || isOwn)
    if (counts) isGood = false
    console.log(`  ${status}${counts ? '' : ' (not counted)'} ${id}: ${detail}`)
  }
}
console.log(`${'all'.padEnd(16)} ${countsOf(all)}`)
process.exitCode = isGood ? 0 : 1

/** A list of cases: signatures and other files of the folder are left alone. */
function isCaseFile(name: string): boolean {
  if (!name.endsWith('.json')) return false
  const file: unknown = JSON.parse(readFileSync(join(folder, name), 'utf8'))
  return typeof file === 'object' && file !== null && 'cases' in file
}

function countsOf(results: readonly CaseResult[]): string {
  const count = (status: CaseResult['status']) => results.filter((each) => each.status === status).length
  return `${count('passed')} passed, ${count('failed')} failed, ${count('unmapped')} unmapped`
}
