import { filesMatching, textOf } from './house/source-files.ts'

export interface PageExample {
  /** The finding that is to come, and the text it begins at; null for an example that is fine. */
  readonly expect: { readonly name: string; readonly at: string } | null
  /** Path to text; the first procedure is the one that is compiled. */
  readonly files: Readonly<Record<string, string>>
  readonly compiled: string
  /** Line of the page at which the example begins. */
  readonly line: number
}

export interface FaultPage {
  readonly path: string
  readonly name: string
  readonly sections: readonly string[]
  readonly examples: readonly PageExample[]
}

const usualFile = 'procedures/example/example.md'
const expectation = /^<!-- expect ([a-z0-9-]+\/[a-z0-9-]+) at "(.*)" -->$/
const opening = /^(`{3,}|~{3,})(\w+)?(?: file=(\S+))?\s*$/

/**
 * Reads the page of a kind of finding.
 *
 *     <!-- expect group/fault at "guilty text" -->
 *     ````md                                     one file: procedures/example/example.md
 *     ````yaml file=shared/hazards/site.yaml     further files of the same example follow with their paths
 */
export function readPage(path: string): FaultPage {
  const lines = textOf(path).split('\n')
  const examples: { expect: PageExample['expect']; files: Record<string, string>; compiled: string; line: number }[] =
    []
  const sections: string[] = []
  let section = ''
  let expect: PageExample['expect'] = null
  let isOpen = false
  for (let index = 0; index < lines.length; index++) {
    const line = lines[index] ?? ''
    if (line.startsWith('## ')) {
      section = line.slice(3).trim()
      sections.push(section)
      isOpen = false
      continue
    }
    const expected = expectation.exec(line)
    if (expected) {
      expect = { name: expected[1] ?? '', at: (expected[2] ?? '').replaceAll('\\"', '"').replaceAll('\\n', '\n') }
      isOpen = false
      continue
    }
    if (line.startsWith('<!-- expect'))
      throw new Error(`${path}:${index + 1} is not like <!-- expect group/fault at "text" -->`)
    const fence = opening.exec(line)
    if (fence === null) {
      if (line.trim() !== '') isOpen = false
      continue
    }
    const end = lines.indexOf(fence[1] ?? '', index + 1)
    if (end === -1) throw new Error(`${path}:${index + 1} opens a fence that nothing closes`)
    const text = `${lines.slice(index + 1, end).join('\n')}\n`
    const file = fence[3] ?? usualFile
    if (section === 'Reported' || section === 'Fine') {
      const last = examples.at(-1)
      if (isOpen && last && fence[3] !== undefined) {
        last.files[file] = text
        if (!isProcedure(last.compiled) && isProcedure(file)) last.compiled = file
      } else {
        if (section === 'Reported' && expect === null)
          throw new Error(`${path}:${index + 1} does not say what to expect`)
        examples.push({
          expect: section === 'Reported' ? expect : null,
          files: { [file]: text },
          compiled: file,
          line: index + 1,
        })
        expect = null
      }
      isOpen = true
    }
    index = end
  }
  const name = /^# (\S+)/.exec(lines[0] ?? '')?.[1] ?? ''
  return { path, name, sections, examples }
}

const isProcedure = (path: string): boolean => path.startsWith('procedures/')

/** Every page of what the compiler finds; what only a door can see (two files side by side) is tested at that door. */
export const faultPageFiles: readonly string[] = filesMatching(['src/*/faults/*.md', 'src/checks/*/*.md']).filter(
  (path) => !path.startsWith('src/doors/'),
)
