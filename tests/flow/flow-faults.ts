import { compileProcedure, openLibrary } from '../../src/compile.ts'
import type { Finding } from '../../src/findings/finding.ts'
import { mapLibrary } from '../map-library.ts'
import { exploreNaively } from './naive-explorer.ts'
import { procedureOf } from './procedure-of.ts'

const FILE = 'procedures/example/example.md'

/** Names of the faults that the flow proof finds in a whole text, each once. */
export function flowFaultNames(text: string, files: Readonly<Record<string, string>> = {}): readonly string[] {
  const { procedure } = procedureOf(FILE, mapLibrary({ [FILE]: text, ...files }))
  return [...new Set(exploreNaively(procedure).faults.map((fault) => fault.fault))].sort()
}

/** What the rest of the compiler says of it. */
export function otherFindings(text: string, files: Readonly<Record<string, string>> = {}): readonly string[] {
  const library = openLibrary(mapLibrary({ [FILE]: text, ...files }))
  return compileProcedure(FILE, library).findings.map((finding: Finding) => `${finding.name}: ${finding.message}`)
}
