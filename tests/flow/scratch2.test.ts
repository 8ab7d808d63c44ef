import { readdirSync, readFileSync } from 'node:fs'
import { it } from 'vitest'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { libraryOnDisk } from '../../src/devices/library-on-disk.ts'
import type { LibraryReader } from '../../src/library/library-reader.ts'
import { mapLibrary } from '../map-library.ts'
import { exploreNaively } from './naive-explorer.ts'
import { procedureOf } from './procedure-of.ts'

const disk = libraryOnDisk('.')
for (const file of readdirSync('tests/flow/dangers')
  .filter((name) => name.endsWith('.md'))
  .sort())
  it(file, () => {
    const path = 'procedures/example/example.md'
    const map = mapLibrary({
      [path]: readFileSync(`tests/flow/dangers/${file}`, 'utf8'),
      'shared/machines/haul-truck-40.yaml': readFileSync('tests/flow/dangers/haul-truck-40.yaml', 'utf8'),
    })
    const reader: LibraryReader = {
      ...disk,
      readText: (name) => {
        const own = map.readText(name)
        return own.kind === 'text' ? own : disk.readText(name)
      },
    }
    const library = openLibrary(reader)
    const { findings } = compileProcedure(path, library)
    const { procedure } = procedureOf(path, reader, library)
    const r = exploreNaively(procedure, 30000)
    const steps = procedure.phases.reduce((n, p) => n + p.steps.length, 0)
    console.log(
      file,
      steps,
      'steps',
      r.situations,
      '\n   ',
      r.faults.map((f) => `${f.fault} ${f.subject} ${f.length} ${f.at}`).join('\n    '),
      '\n  F ',
      findings.map((f) => `${f.severity} ${f.name}: ${f.message}`).join('\n  F '),
    )
  })
