import { writeFileSync } from 'node:fs'
import fc from 'fast-check'
import { it } from 'vitest'
import { proveFlow } from '../../src/flow/prove-flow.ts'
import { exploreNaively } from './naive-explorer.ts'
import { procedureFrom } from './procedure-of.ts'
import { randomProcedure } from './random-procedure.ts'

it('compare', () => {
  let n = 0, wrong = 0, tp = 0, tn = 0
  const what = new Map<string, number>()
  const out: string[] = []
  const numRuns = Number(process.env.RUNS ?? 300)
  fc.assert(fc.property(fc.array(fc.noBias(fc.nat(9999)), { minLength: 90, maxLength: 90 , size: 'max'}), (tape) => {
    const { front, body } = randomProcedure(tape)
    const { procedure } = procedureFrom(body, {}, front)
    n++
    let t = performance.now()
    const naive = exploreNaively(procedure, 20000)
    tn += performance.now() - t
    t = performance.now()
    const proof = proveFlow(procedure)
    tp += performance.now() - t
    const a = new Map(naive.faults.map((f) => [`${f.fault} ${f.subject}`, f.length]))
    const b = new Map<string, number>()
    for (const f of proof.faults) { const k = `${f.fault} ${f.subject}`; b.set(k, Math.min(f.length, b.get(k) ?? 1e9)) }
    const diffs: string[] = []
    for (const [k, l] of a) if (b.get(k) !== l) diffs.push(`naive ${k} ${l}, fast ${b.get(k)}`)
    for (const [k, l] of b) if (!a.has(k)) diffs.push(`fast only ${k} ${l}`)
    if (diffs.length) {
      wrong++
      for (const d of diffs) { const k = d.replace(/\d+/g, '#'); what.set(k, (what.get(k) ?? 0) + 1) }
      if (out.length < 60) out.push(diffs.join('\n') + '\n' + body + '\n=======\n')
    }
  }), { seed: Number(process.env.SEED ?? 20260302), numRuns })
  console.log(n, 'wrong', wrong, 'naive ms', tn | 0, 'fast ms', tp | 0)
  console.log([...what].sort((x, y) => y[1] - x[1]).slice(0, 50).map(([k, c]) => `${c} ${k}`).join('\n'))
  writeFileSync('/tmp/f2/diffs.txt', out.sort((x, y) => x.length - y.length).join('\n'))
})
