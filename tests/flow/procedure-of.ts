import { type OpenLibrary, openLibrary } from '../../src/compile.ts'
import type { Finding } from '../../src/findings/finding.ts'
import { buildGraph } from '../../src/flow/build-graph.ts'
import type { LibraryReader } from '../../src/library/library-reader.ts'
import { readMachine } from '../../src/library/read-machine.ts'
import type { FragmentShelf } from '../../src/model/passes/include-fragments.ts'
import type { Procedure } from '../../src/model/procedure.ts'
import { resolveProcedure } from '../../src/model/resolve-procedure.ts'
import { fitFragment, fitProcedure } from '../../src/syntax/fit-schema.ts'
import { readFragment } from '../../src/syntax/read-fragment.ts'
import { readProcedure } from '../../src/syntax/read-procedure.ts'
import { sourceText } from '../../src/text/source-text.ts'
import { procedureText } from '../compile-text.ts'
import { mapLibrary } from '../map-library.ts'

export interface Resolved {
  readonly procedure: Procedure
  /** Faults of the text itself, before anything was explored. */
  readonly findings: readonly Finding[]
}

/** The first floors of the staircase: what both explorers are given. */
export function procedureOf(file: string, reader: LibraryReader, library: OpenLibrary = openLibrary(reader)): Resolved {
  const text = reader.readText(file)
  if (text.kind !== 'text') throw new Error(`no ${file}`)
  const read = readProcedure(sourceText(file, text.text))
  const written = fitProcedure(read.value)
  const resolved = resolveProcedure(written.value, {
    library: reader,
    defaults: library.configuration,
    catalogues: {
      ...library.catalogues,
      roles: new Map([...library.catalogues.roles, ...library.configuration.roles]),
    },
    fragments: fragmentsOf(reader),
    machine: (id) => {
      const machine = readMachine(reader, id)
      return { value: machine.value.value, findings: machine.findings }
    },
  })
  return {
    procedure: { ...resolved.value, graph: buildGraph(resolved.value) },
    findings: [...read.findings, ...written.findings, ...resolved.findings],
  }
}

/** A text with ordinary front matter around it. */
export function procedureFrom(body: string, files: Readonly<Record<string, string>> = {}, front = ''): Resolved {
  const file = 'procedures/example/example.md'
  return procedureOf(file, mapLibrary({ [file]: procedureText(body, front), ...files }))
}

function fragmentsOf(reader: LibraryReader): FragmentShelf {
  const folder = 'shared/fragments/'
  const ids = reader
    .listFolder(folder.slice(0, -1))
    .filter((path) => path.endsWith('.md') && !path.endsWith('/README.md'))
    .map((path) => path.slice(folder.length, -'.md'.length))
  return {
    ids,
    read: (id) => {
      const text = reader.readText(`${folder}${id}.md`)
      if (text.kind !== 'text') return { value: null, findings: [] }
      const fitted = fitFragment(readFragment(sourceText(`${folder}${id}.md`, text.text)).value)
      const { frontMatter, prose, block, steps } = fitted.value
      return { value: { frontMatter: frontMatter?.map ?? null, prose, block, steps }, findings: fitted.findings }
    },
  }
}
