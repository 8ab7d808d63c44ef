import { it } from 'vitest'
import { readFileSync } from 'node:fs'
import { compileProcedure, openLibrary } from '../src/compile.ts'
import { mapLibrary } from './map-library.ts'
it('x', () => {
    const text = readFileSync(process.env.FX ?? '', 'utf8')
    const c = compileProcedure('procedures/x/x.md', openLibrary(mapLibrary({ 'procedures/x/x.md': text })))
    for (const p of c.stepFile?.phases ?? []) for (const s of p.steps) console.log(JSON.stringify([s.readings.map((r) => [r.name, r.limit?.text, r.limit?.unit, r.unit, r.limit?.inUnits]), s.torques.map((t) => t.limit.text)]))
})
