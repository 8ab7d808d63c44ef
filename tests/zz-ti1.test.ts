import { readFileSync } from 'node:fs'
import { it } from 'vitest'
import { resolveProcedure } from '../src/model/resolve-procedure.ts'
import { fitProcedure } from '../src/syntax/fit-schema.ts'
import { readProcedure } from '../src/syntax/read-procedure.ts'
import { sourceText } from '../src/text/source-text.ts'
import { procedureText } from './compile-text.ts'
import { mapLibrary } from './map-library.ts'
it('shows', () => {
  const lines = readFileSync('/tmp/ti1/torques.txt', 'utf8').split('\n').filter(Boolean)
  const none = new Map()
  for (const line of lines) {
    const text = procedureText(`\`\`\`yaml\ntools: { tw: { name: torque wrench, range: 40 to 1000 N·m } }\n\`\`\`\n\n## Fit {#fit}\n\n1. Tighten it.\n   \`\`\`yaml\n   torque: { t: "${line}" }\n   \`\`\`\n`)
    const fit = fitProcedure(readProcedure(sourceText('a.md', text)).value)
    const c = resolveProcedure(fit.value, {
    library: mapLibrary({}),
    defaults: { site: null, printUnits: ['metric', 'inch'], language: 'en' },
    catalogues: { tools: none, instruments: none, gear: none, ppe: none, hazards: none, roles: none },
    fragments: { ids: [], read: () => ({ value: null, findings: [] }) },
    machine: () => ({ value: null, findings: [] }),
  })
    console.log('=== ' + line + '\n' + [...fit.findings, ...c.findings].map((f) => '  ! ' + f.severity + ' ' + f.name + ': ' + f.message + ' | ' + f.advice).join('\n'))
    for (const w of c.value.phases[0]?.steps[0]?.workings ?? []) console.log(w.says + '\n   ' + w.formula + '\n     ' + w.lines.join('\n     ') + '\n   fig ' + w.figures.map((f) => `${f.name}=${f.value} ${f.unit}`).join('; ') + '\n   ' + w.caution)
  }
})
