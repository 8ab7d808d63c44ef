import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { FlowFaultName } from '../../src/flow/proof.ts'
import { proveFlow } from '../../src/flow/prove-flow.ts'
import type { Procedure } from '../../src/model/procedure.ts'
import { procedureFrom } from './procedure-of.ts'
import { modelOf, type Promela, promelaOf } from './promela.ts'
import { randomProcedure, tapes } from './random-procedure.ts'

const COUNT = process.env.WITNESSMARK_LONG === '1' ? 200 : 24
/** Jobs in one model: the C that spin writes for many takes long to compile. */
const BATCH = 4

/** What of the proof's faults the model in Promela can say, and how it calls it. */
const sayable: Partial<Record<FlowFaultName, string>> = {
  'zone-unsafe': 'zone',
  'zone-not-cleared': 'zone',
  'proof-missing': 'proof',
  'proof-bypassed': 'proof',
  'proof-stale': 'proof',
  'proof-lapsed': 'proof',
  'forbidden-together': 'never',
  'not-put-back': 'left',
}

const hasSpin = ['spin', 'cc'].every((program) => {
  try {
    execFileSync(program, [program === 'spin' ? '-V' : '--version'], { stdio: 'pipe' })
    return true
  } catch {
    console.info(`Not compared with spin: there is no ${program} on this machine (Debian: apt-get install spin gcc).`)
    return false
  }
})

/** spin 6, https://spinroot.com: an explicit-state model checker that shares nothing with us but the exported text. */
describe('the proof of the flow and spin', () => {
  it.runIf(hasSpin)(`find the same in ${COUNT} random procedures`, { timeout: 1_200_000 }, () => {
    const jobs = exported()
    expect(jobs.length).toBe(COUNT)
    let found = 0
    for (let first = 0; first < jobs.length; first += BATCH) {
      const batch = jobs.slice(first, first + BATCH)
      const told = new Set(markedBySpin(modelOf(batch.map(({ promela }) => promela))))
      let mark = 0
      for (const { promela, procedure, body } of batch) {
        const spin = promela.marks.filter((_, index) => told.has(mark + index)).sort()
        mark += promela.marks.length
        found += spin.length
        expect(spin, body).toEqual(sayableFaults(procedure))
      }
    }
    const clean = jobs.filter(({ procedure }) => sayableFaults(procedure).length === 0).length
    console.info(`spin: ${jobs.length} procedures, ${clean} of them clean, ${found} faults, all the same.`)
    expect([clean >= 3, found >= 10]).toEqual([true, true])
  })
})

interface Job {
  readonly promela: Promela
  readonly procedure: Procedure
  readonly body: string
}

function exported(): readonly Job[] {
  const jobs: Job[] = []
  let marks = 0
  for (const tape of fc.sample(tapes, { seed: 20260303, numRuns: COUNT * 30 })) {
    const { front, body } = randomProcedure(tape)
    const { procedure } = procedureFrom(body, {}, front)
    if (jobs.length % BATCH === 0) marks = 0
    const promela = promelaOf(procedure, jobs.length % BATCH, marks)
    if (promela === null) continue
    marks += promela.marks.length
    jobs.push({ promela, procedure, body })
    if (jobs.length === COUNT) break
  }
  return jobs
}

function sayableFaults(procedure: Procedure): readonly string[] {
  const said = proveFlow(procedure).faults.flatMap(({ fault, subject }) => {
    const kind = sayable[fault]
    // A proof that nobody could take is told at its step, of the state alone; that is no matter of a zone.
    return kind === undefined || (kind === 'proof' && !subject.includes('/')) ? [] : [`${kind} ${subject}`]
  })
  return [...new Set(said)].sort()
}

/** Numbers of the marks that spin's exhaustive search came to. */
function markedBySpin(model: string): readonly number[] {
  const folder = mkdtempSync(join(tmpdir(), 'flow-spin-'))
  const run = (program: string, args: readonly string[]): string =>
    execFileSync(program, args, {
      cwd: folder,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
      maxBuffer: 1 << 26,
    })
  try {
    writeFileSync(join(folder, 'jobs.pml'), model)
    run('spin', ['-a', 'jobs.pml'])
    run('cc', ['-w', '-O0', '-DSAFETY', '-DVECTORSZ=8192', '-o', 'pan', 'pan.c'])
    const output = run(join(folder, 'pan'), ['-E', '-n', '-m1000000'])
    expect(output).toContain('errors: 0')
    expect(output).not.toContain('max search depth too small')
    return [...output.matchAll(/TOLD (\d+)/g)].map(([, id]) => Number(id))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
