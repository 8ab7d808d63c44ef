import fc from 'fast-check'
import { it } from 'vitest'
import { proveFlow } from '../../src/flow/prove-flow.ts'
import { differences, naiveLengths, provedLengths } from './flow-faults.ts'
import { exploreNaively } from './naive-explorer.ts'
import { procedureFrom } from './procedure-of.ts'
import { randomProcedure, tapes } from './random-procedure.ts'
it('compare', { timeout: 580000 }, () => {
  let n = 0
  let wrong = 0
  const started = Date.now()
  for (const tape of fc.sample(tapes, { seed: Number(process.env.SEED), numRuns: 10000 })) {
    if (Date.now() - started > 330000) break
    const { front, body } = randomProcedure(tape)
    const { procedure } = procedureFrom(body, {}, front)
    n++
    const d = differences(naiveLengths(exploreNaively(procedure)), provedLengths(proveFlow(procedure)))
    if (d.length > 0) {
      wrong++
      console.log(d.join('\n'), '\n', body)
    }
  }
  console.log('CASES', n, 'WRONG', wrong)
})
