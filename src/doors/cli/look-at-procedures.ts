import { relative, sep } from 'node:path'
import { findLibraryRoot } from '../../devices/find-library-root.ts'
import type { Finding } from '../../findings/finding.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import type { SourceText } from '../../text/source-text.ts'
import type { Library, Paper, Program } from './program.ts'
import { shownFinding, shownPath, shownSource } from './shown-path.ts'

/** A procedure after the compiler has been over it; every path is the one people see. */
export interface LookedAt {
  readonly file: string
  /** Relative to its library, as its step file names it. */
  readonly fileInLibrary: string
  /** The library's own are told with the first procedure that meets them. */
  readonly findings: readonly Finding[]
  /** Errors of the library itself: they stand in the way of each of its procedures. */
  readonly libraryErrors: number
  readonly paper: Paper | null
  readonly sources: readonly SourceText[]
  readonly stepFile: StepFile | null
  /** The program itself failed on this file: a sentence, else null. */
  readonly breakdown: string | null
}

/**
 * Compiles procedures one by one, each with the library it belongs to.
 * What the library itself has wrong is told once, with the first procedure that meets it.
 */
export function* lookAtProcedures(
  files: readonly string[],
  program: Program,
  folder: string,
  unwritten: UnwrittenTexts = new Map(),
): Generator<LookedAt> {
  const libraries = new Map<string, Library>()
  const told = new Set<string>()
  for (const path of files) {
    const file = shownPath(path, folder)
    const root = findLibraryRoot(path)
    const fileInLibrary = relative(root, path).split(sep).join('/')
    try {
      const library = libraries.get(root) ?? program.openLibrary(root, textsBelow(root, unwritten))
      libraries.set(root, library)
      const compiled = library.compile(fileInLibrary)
      const findings = [...library.findings, ...compiled.findings]
        .map((finding) => shownFinding(finding, root, folder))
        .filter((finding) => firstTold(finding, file, told))
      const sources = [...library.sources, ...compiled.sources].map((source) => shownSource(source, root, folder))
      const libraryErrors = library.findings.filter((finding) => finding.severity === 'error').length
      const { stepFile } = compiled
      yield { file, fileInLibrary, findings, libraryErrors, paper: library.paper, sources, stepFile, breakdown: null }
    } catch (error) {
      const breakdown = brokenDown(file, error)
      yield { file, fileInLibrary, findings: [], libraryErrors: 0, paper: null, sources: [], stepFile: null, breakdown }
    }
  }
}

/** Absolute path to text: what stands otherwise than on the disk, because it is not written yet. */
export type UnwrittenTexts = ReadonlyMap<string, string>

function textsBelow(root: string, unwritten: UnwrittenTexts): ReadonlyMap<string, string> {
  return new Map([...unwritten].map(([path, text]) => [relative(root, path).split(sep).join('/'), text]))
}

/** A shared file with a fault is met by every procedure that uses it. */
function firstTold(finding: Finding, file: string, told: Set<string>): boolean {
  if (finding.at.file === file) return true
  const key = JSON.stringify([finding.name, finding.at, finding.message])
  if (told.has(key)) return false
  told.add(key)
  return true
}

/** No finding may be lost without a word: a compiler that falls over says so, and nothing is written. */
function brokenDown(file: string, error: unknown): string {
  const reason = error instanceof Error ? error.message.split('\n')[0] : String(error)
  return `${file}: witnessmark itself failed on this procedure, so it was not checked (${reason}). This is a fault of the program: please report it together with the file.`
}
