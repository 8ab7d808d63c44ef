import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { LookedAt } from './look-at-procedures.ts'
import type { IndexedDocument, Program } from './program.ts'

/** The documents that stand in an output folder, whichever run wrote them, in the order of their folders. */
export function standingBuilds(outFolder: string, program: Program): readonly IndexedDocument[] {
  return entries(outFolder).flatMap((folder) => {
    const stepFile = readStepFile(join(outFolder, folder, 'steps.json'), program)
    return stepFile === null ? [] : [{ folder, stepFile, files: entries(join(outFolder, folder)) }]
  })
}

/**
 * Those that came from a procedure which may no longer be built as it stands.
 * Other revisions of it stay, as long as its number and revision can still be read.
 */
export function buildsOf(looked: LookedAt, standing: readonly IndexedDocument[]): readonly IndexedDocument[] {
  const number = frontMatterValue(looked, 'number')
  const revision = frontMatterValue(looked, 'revision')
  return standing.filter(({ stepFile }) => {
    if (stepFile.file !== looked.fileInLibrary) return false
    if (number === null || revision === null) return true
    return stepFile.document.number === number && stepFile.document.revision === revision
  })
}

/** A value of the front matter as typed, without quotes; null where it is not plain to see. */
function frontMatterValue(looked: LookedAt, key: 'number' | 'revision'): string | null {
  const text = looked.sources.find((source) => source.path === looked.file)?.text ?? ''
  const frontMatter = /^---\r?\n(?<body>[\s\S]*?)\r?\n---/.exec(text)?.groups?.body
  const line = new RegExp(`^${key}:[ \\t]*(?<quote>["']?)(?<value>[^\\r\\n]+?)\\k<quote>[ \\t]*$`, 'm').exec(
    frontMatter ?? '',
  )
  return line?.groups?.value ?? null
}

function readStepFile(path: string, program: Program) {
  try {
    return program.readStepFile(readFileSync(path, 'utf8'))
  } catch {
    return null
  }
}

function entries(folder: string): readonly string[] {
  try {
    return readdirSync(folder).sort()
  } catch {
    return []
  }
}
