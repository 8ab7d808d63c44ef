import { Validator } from '@cfworker/json-schema'
import { describe, expect, it } from 'vitest'
import { compileProcedure, openLibrary } from '../src/compile.ts'
import { libraryOnDisk } from '../src/devices/library-on-disk.ts'
import { lineAndColumn } from '../src/text/source-text.ts'
import { filesMatching, root, textOf } from './house/source-files.ts'

const procedures = filesMatching('procedures/*/*.md')
const schemaFile = 'schema/step-file.schema.json'

describe('the library', () => {
  it('keeps each procedure in a folder of its own name', () => {
    expect(procedures.length).toBeGreaterThan(0)
    expect(procedures.filter((path) => !/^procedures\/([^/]+)\/\1\.md$/.test(path))).toEqual([])
  })

  it('has nothing wrong in its shared data', () => {
    expect(openLibrary(libraryOnDisk(root)).findings).toEqual([])
  })
})

describe.each(procedures)('%s', (path) => {
  const before = filesMatching(['procedures/**', 'shared/**', 'witnessmark.yaml']).map(
    (file) => [file, textOf(file)] as const,
  )
  const library = openLibrary(libraryOnDisk(root))
  const compiled = compileProcedure(path, library)

  it('compiles with nothing to say', () => {
    const said = compiled.findings.map((finding) => {
      const source = compiled.sources.find((candidate) => candidate.path === finding.at.file)
      const line = source ? lineAndColumn(source, finding.at.start).line : 0
      return `${finding.at.file}:${line} ${finding.severity} ${finding.name} ${finding.message}`
    })
    expect(said).toEqual([])
  })

  it('makes a step file that fits its schema', () => {
    expect(compiled.stepFile).not.toBeNull()
    const validator = new Validator(JSON.parse(textOf(schemaFile)), '2020-12', false)
    const { errors } = validator.validate(JSON.parse(JSON.stringify(compiled.stepFile)))
    expect(errors.slice(0, 5)).toEqual([])
  })

  it('makes the same step file again, and leaves its texts alone', () => {
    const again = compileProcedure(path, openLibrary(libraryOnDisk(root)))
    expect(JSON.stringify(again.stepFile)).toBe(JSON.stringify(compiled.stepFile))
    expect(before.filter(([file, text]) => textOf(file) !== text).map(([file]) => file)).toEqual([])
  })
})
