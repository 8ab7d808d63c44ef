import { it } from 'vitest'
import { readFileSync, readdirSync } from 'node:fs'
import { compileProcedure, openLibrary } from '../src/compile.ts'
import { mapLibrary } from './map-library.ts'
it('x', () => {
  for (const path of (process.env.FX ?? '').split(' ')) {
    const text = readFileSync(path, 'utf8')
    const file = path.startsWith('/') ? 'procedures/x/x.md' : path
    const c = compileProcedure(file, openLibrary(mapLibrary({ [file]: text })))
    console.log(path + '\n' + c.findings.map((f) => `${f.severity} ${f.name} «${text.slice(f.at.start, f.at.end).split('\n')[0]}» ${f.message} | ${f.advice}`).join('\n'))
  }
})
