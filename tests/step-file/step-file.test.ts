import { readFileSync } from 'node:fs'
import { Validator } from '@cfworker/json-schema'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, it } from 'vitest'
import { stepFileTypes } from '../../src/build/write-step-file-types.mjs'
import { digestHolds, stepFileText } from '../../src/step-file/make-step-file.ts'
import { compileText, stepFileOf } from '../compile-text.ts'

const root = new URL('../../', import.meta.url)
const schema = JSON.parse(readFileSync(new URL('schema/step-file.schema.json', root), 'utf8'))

const text = `
\`\`\`yaml
roles: { fitter: { who: plant fitter }, supervisor: { who: shift supervisor, different-from: [fitter] } }
states:
  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated, proved-by: supervisor }
\`\`\`

## Isolate {#isolate}

\`\`\`yaml
by: fitter
\`\`\`

1. Lock the isolator.
   \`\`\`yaml
   sets: { power: isolated }
   locks: [bc-3-iso]
   \`\`\`
2. Have it looked at.
   \`\`\`yaml
   hold: { supervisor: "The lock is on, and the belt does not start." }
   proves: { power: isolated }
   \`\`\`
3. Unlock the isolator.
   \`\`\`yaml
   unlocks: [bc-3-iso]
   sets: { power: live }
   \`\`\`
`

describe('the step file', () => {
  it('fits its schema by two independent validators', () => {
    const stepFile = JSON.parse(stepFileText(stepFileOf(text)))
    const ajv = new Ajv2020({ strict: true, allowUnionTypes: true })
    const first = ajv.compile(schema)
    expect(first(stepFile), JSON.stringify(first.errors)).toBe(true)
    const second = new Validator(schema, '2020-12').validate(stepFile)
    expect(second.errors).toEqual([])
    expect(first({ ...stepFile, extra: 1 })).toBe(false)
    expect(new Validator(schema, '2020-12').validate({ ...stepFile, extra: 1 }).valid).toBe(false)
  })

  it('carries a digest of what it holds, the same for the same text', () => {
    const stepFile = stepFileOf(text)
    expect(digestHolds(stepFile)).toBe(true)
    expect(digestHolds({ ...stepFile, cautions: [] })).toBe(false)
    expect(stepFileText(stepFileOf(text))).toBe(stepFileText(stepFile))
    expect(stepFileOf(text.replace('Have it looked at', 'Have it seen')).digest).not.toBe(stepFile.digest)
  })

  it('does not exist where an error stands', () => {
    expect(compileText(text.replace('energy: electrical', 'enrgy: electrical')).stepFile).toBeNull()
  })

  it('has types that are those of its schema', async () => {
    const committed = readFileSync(new URL('src/step-file/generated/step-file.ts', root), 'utf8')
    expect(await stepFileTypes(root.pathname)).toBe(committed)
  })
})
