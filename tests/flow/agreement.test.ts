import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { proveFlow } from '../../src/flow/prove-flow.ts'
import { differences, naiveLengths, provedLengths } from './flow-faults.ts'
import { exploreNaively } from './naive-explorer.ts'
import { procedureFrom } from './procedure-of.ts'
import { randomProcedure, tapes } from './random-procedure.ts'

const isLong = process.env.WITNESSMARK_LONG === '1'
const CASES = { seed: 20260302, numRuns: isLong ? 10_000 : 300 }

/** Kinds that the random procedures are made to show, each in at least two of a hundred. */
const shown = [
  'zone-unsafe',
  'zone-not-cleared',
  'need-unmet',
  'proof-missing',
  'proof-bypassed',
  'proof-stale',
  'proof-lapsed',
  'signer-not-independent',
  'unheld',
  'forbidden-together',
  'not-put-back',
  'left-snug',
  'lock-unpaired',
  'lockout-order',
  'reading-missing',
  'reading-stale',
  'span-broken',
  'guard-off-at-start',
  'stop-unsafe',
  'resume-unproved',
]

describe('the proof of the flow and the naive explorer', () => {
  it(`agree on ${CASES.numRuns} random procedures: every fault, what it is about, and how short its shortest way is`, {
    timeout: isLong ? 3_600_000 * 3 : 600_000,
  }, () => {
    const seen = new Map<string, number>()
    let clean = 0
    let cases = 0
    let leftOut = 0
    fc.assert(
      fc.property(tapes, (tape) => {
        const { front, body } = randomProcedure(tape)
        const { procedure, findings } = procedureFrom(body, {}, front)
        const errors = findings.filter((finding) => finding.severity === 'error')
        // A step that was sent back to may have been taken out to keep the procedure small.
        if (errors.length > 0 && errors.every(({ name }) => name === 'model/unknown-target')) {
          leftOut++
          return
        }
        expect(errors).toEqual([])
        const naive = exploreNaively(procedure)
        expect(naive.isComplete).toBe(true)
        cases++
        const kinds = new Set(naive.faults.map((fault) => fault.fault))
        if (kinds.size === 0) clean++
        for (const kind of kinds) seen.set(kind, (seen.get(kind) ?? 0) + 1)
        const different = differences(naiveLengths(naive), provedLengths(proveFlow(procedure)))
        expect(different, `${different.join('\n')}\n\n${front}\n${body}`).toEqual([])
      }),
      CASES,
    )
    const share = (count: number): number => Math.round((1000 * count) / cases) / 10
    const mix = shown.map((kind) => `${kind} ${share(seen.get(kind) ?? 0)} %`)
    console.info(`${cases} procedures, ${share(clean)} % clean; ${mix.join(', ')}`)
    expect(share(clean)).toBeGreaterThanOrEqual(15)
    expect(leftOut).toBeLessThan(CASES.numRuns / 100)
    expect(shown.filter((kind) => share(seen.get(kind) ?? 0) < 1)).toEqual([])
  })
})
