import { it } from 'vitest'
import { readFileSync, readdirSync } from 'node:fs'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { mapLibrary } from '../map-library.ts'
it('probe', () => {
  for (const f of readdirSync('/tmp/probe').filter((x) => x.endsWith('.md')).sort()) {
    const path = 'procedures/example/example.md'
    const text = readFileSync('/tmp/probe/' + f, 'utf8')
    const { findings } = compileProcedure(path, openLibrary(mapLibrary({ [path]: text })))
    console.log('== ' + f + '\n' + findings.map((x) => `${x.severity} ${x.name} "${text.slice(x.at.start, x.at.end).slice(0, 80)}"\n   ${x.message} → ${x.advice}`).join('\n'))
  }
})
