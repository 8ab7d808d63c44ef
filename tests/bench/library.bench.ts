import { compileProcedure, newMemory, openLibrary } from '../../src/compile.ts'
import { mapLibrary } from '../map-library.ts'
import { madeProcedure } from './made-procedures.ts'

/*
 * A library of 50, 500 and 2,000 procedures checked from cold, one after the other in one process; and one letter changed in one of them,
 * with what the first check has kept. No text is seen twice. The share of the first row tells whether it grows with the number.
 */

const SIZES = [50, 500, 2000]
/** Two phases each, about thirty lines: 2,000 of them stay below a minute. */
const PHASES = 2

let seed = 500_000
console.log(
  '| procedures | lines | check, s | a procedure, ms | of the first row | memory at the end, MB | again after one change, ms |',
)
console.log('|---|---|---|---|---|---|---|')
let first: number | null = null
for (const size of SIZES) {
  const files: Record<string, string> = {}
  for (let index = 0; index < size; index++)
    files[`procedures/made-${index}/made-${index}.md`] = madeProcedure(seed++, PHASES, index)
  const paths = Object.keys(files)
  const library = openLibrary(mapLibrary(files))
  const kept = new Map(paths.map((path) => [path, newMemory()]))
  const started = performance.now()
  let findings = 0
  for (const path of paths) findings += compileProcedure(path, library, kept.get(path)).findings.length
  const seconds = (performance.now() - started) / 1000
  const each = (seconds * 1000) / size
  first ??= each
  const changes = [...Array(15).keys()].map((round) => {
    const path = paths[(round * 7919) % size] ?? ''
    const changed = (files[path] ?? '').replace(/(\n1\. [^\n]+)\./, `$1 ${'again'.slice(0, 1 + (round % 4))}.`)
    const reader = mapLibrary({ ...files, [path]: changed })
    const begun = performance.now()
    findings += compileProcedure(path, { ...library, reader }, kept.get(path)).findings.length
    return performance.now() - begun
  })
  const lines = Object.values(files).reduce((sum, text) => sum + text.split('\n').length, 0)
  const again = changes.sort((a, b) => a - b)[7] ?? 0
  const memory = process.memoryUsage().rss / 1e6
  console.log(
    `| ${size} | ${lines} | ${seconds.toFixed(1)} | ${each.toFixed(1)} | ${(each / first).toFixed(2)} | ${memory.toFixed(0)} | ${again.toFixed(1)} |`,
  )
  if (findings < 0) throw new Error('nothing was checked')
}
