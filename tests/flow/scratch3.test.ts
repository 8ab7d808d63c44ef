import { readFileSync } from 'node:fs'
import { it } from 'vitest'
import { proveFlow } from '../../src/flow/prove-flow.ts'
import { exploreNaively } from './naive-explorer.ts'
import { procedureFrom } from './procedure-of.ts'

it('one', () => {
  const body = readFileSync('/tmp/f2/one.md', 'utf8')
  const { procedure, findings } = procedureFrom(
    body,
    {},
    body.includes('only: ') ? 'variants: { size: [small, large] }\n' : '',
  )
  console.log(
    findings.map((f) => f.message),
    exploreNaively(procedure).faults,
    proveFlow(procedure).faults.map((f) => `${f.fault} ${f.subject} ${f.length} ${f.step}`),
  )
})
