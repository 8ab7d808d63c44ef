import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { faultPageFiles, readPage } from '../fault-pages.ts'
import { mapLibrary } from '../map-library.ts'
import { spoiled, spoilings } from './hostile-texts.ts'

const isLong = process.env.WITNESSMARK_LONG === '1'
const RUNS = { numRuns: isLong ? 100_000 : 300, seed: 20260302 }
/** Ten times what the slowest of 100 000 took alone: only what hangs takes longer. */
const HANGS_AFTER_MS = 20_000

const examples = faultPageFiles
  .flatMap((path) => readPage(path).examples)
  .filter(({ files, compiled }) => files[compiled] !== undefined)

/** Nothing that is typed makes the checker fall over, hang, or show the insides of the program. */
describe('hostile input', () => {
  it(`is answered in words, ${RUNS.numRuns} times`, { timeout: isLong ? 4 * 3_600_000 : 300_000 }, () => {
    let slowest = 0
    fc.assert(
      fc.property(fc.constantFrom(...examples), spoilings, ({ files, compiled }, all) => {
        const text = spoiled(files[compiled] ?? '', all)
        const started = performance.now()
        const { findings, sources } = compileProcedure(
          compiled,
          openLibrary(mapLibrary({ ...files, [compiled]: text })),
        )
        slowest = Math.max(slowest, performance.now() - started)
        expect(performance.now() - started).toBeLessThan(HANGS_AFTER_MS)
        expect(findings.filter(({ name }) => name === 'checks/crashed').map(({ message }) => message)).toEqual([])
        for (const { at } of findings) {
          const length = sources.find(({ path }) => path === at.file)?.text.length ?? 0
          expect([at.start >= 0, at.start <= at.end, at.end <= length]).toEqual([true, true, true])
        }
        const shown = findings.map(({ message, advice }) => `${message} ${advice}`).join('\n')
        expect(
          /\n\s+at \S+ \(|\.[cm]?[jt]s:\d+|node:internal|\bundefined\b|\[object |TypeError|RangeError|\bNaN\b/.exec(
            withoutTyped(shown, text),
          ),
        ).toBeNull()
      }),
      RUNS,
    )
    console.info(`${RUNS.numRuns} hostile texts, the slowest took ${Math.round(slowest)} ms.`)
  })
})

/** What the author typed himself may stand in a finding. */
function withoutTyped(shown: string, text: string): string {
  return text.includes('undefined') || text.includes('NaN') ? '' : shown
}
