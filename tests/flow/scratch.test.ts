import { readFileSync } from 'node:fs'
import { it } from 'vitest'
import { libraryOnDisk } from '../../src/devices/library-on-disk.ts'
import { proveFlow } from '../../src/flow/prove-flow.ts'
import type { LibraryReader } from '../../src/library/library-reader.ts'
import { exploreNaively } from './naive-explorer.ts'
import { oneSided } from './one-sided.ts'
import { procedureOf } from './procedure-of.ts'

it('demo', () => {
  const path = 'procedures/haul-truck-front-wheel-hub/haul-truck-front-wheel-hub.md'
  const disk = libraryOnDisk('.')
  const text = oneSided(readFileSync(path, 'utf8'))
  const reader: LibraryReader = {
    ...disk,
    readText: (name) => (name === path ? { kind: 'text', text } : disk.readText(name)),
  }
  const { procedure, findings } = procedureOf(path, reader)
  console.log(
    findings.map((f) => f.message),
    procedure.graph.nodes.length,
    text.includes('.right'),
  )
  let t = Date.now()
  const p = proveFlow(procedure)
  console.log(
    'fast',
    Date.now() - t,
    p.situations,
    p.verdict,
    p.faults.map((f) => `${f.fault} ${f.subject} ${f.length} ${f.step}`).join('\n'),
  )
  t = Date.now()
  const r = exploreNaively(procedure, 12000)
  console.log(Date.now() - t, 'ms', r.situations, r.isComplete)
  console.log(r.faults.map((f) => `${f.fault} ${f.subject} ${f.length} ${f.at}`).join('\n'))
})
