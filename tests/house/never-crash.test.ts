import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { libraryOnDisk } from '../../src/devices/library-on-disk.ts'
import { faultPageFiles, readPage } from '../fault-pages.ts'
import { mapLibrary } from '../map-library.ts'
import { filesMatching, root, textOf } from './source-files.ts'

const examples = faultPageFiles.flatMap((path) => readPage(path).examples)
const procedures = filesMatching('procedures/*/*.md')
const oddTexts = filesMatching('tests/**/*.md')

function crashesIn(files: Readonly<Record<string, string>>, compiled: string): readonly string[] {
  const { findings } = compileProcedure(compiled, openLibrary(mapLibrary(files)))
  return findings.filter(({ name }) => name === 'checks/crashed').map(({ message }) => message)
}

describe('checks never crash', () => {
  it('on the procedures of the library, cut off in the middle', () => {
    expect(procedures.length).toBeGreaterThan(0)
    const library = libraryOnDisk(root)
    for (const path of procedures) {
      const lines = textOf(path).split('\n')
      for (const share of [0.8, 0.3]) {
        const text = lines.slice(0, Math.ceil(lines.length * share)).join('\n')
        const reader = {
          ...library,
          readText: (asked: string) => (asked === path ? { kind: 'text' as const, text } : library.readText(asked)),
        }
        const { findings } = compileProcedure(path, openLibrary(reader))
        expect(findings.filter(({ name }) => name === 'checks/crashed')).toEqual([])
      }
    }
  })

  it('on odd texts kept for tests', () => {
    for (const path of oddTexts) expect(crashesIn({ [path]: textOf(path) }, path)).toEqual([])
  })

  it('on examples with lines taken out, doubled or moved', () => {
    const mangled = fc.tuple(
      fc.constantFrom(...examples),
      fc.array(fc.tuple(fc.nat(), fc.nat(), fc.constantFrom('out', 'double', 'move', 'indent')), {
        minLength: 1,
        maxLength: 4,
      }),
    )
    fc.assert(
      fc.property(mangled, ([{ files, compiled }, changes]) => {
        const lines = (files[compiled] ?? '').split('\n')
        for (const [from, to, change] of changes) {
          const at = from % Math.max(lines.length, 1)
          const line = lines[at] ?? ''
          if (change === 'out' || change === 'move') lines.splice(at, 1)
          if (change === 'double') lines.splice(at, 0, line)
          if (change === 'move') lines.splice(to % Math.max(lines.length, 1), 0, line)
          if (change === 'indent') lines[at] = to % 2 === 0 ? `  ${line}` : line.trimStart()
        }
        expect(crashesIn({ ...files, [compiled]: lines.join('\n') }, compiled)).toEqual([])
      }),
      { numRuns: 150, seed: 20260302 },
    )
  })
})
