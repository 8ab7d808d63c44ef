import { existsSync, readdirSync, realpathSync, statSync } from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { globSync, isDynamicPattern } from 'tinyglobby'
import { nearestName } from '../../text/nearest-name.ts'
import { shownPath } from './shown-path.ts'

export interface FoundProcedures {
  /** Absolute paths, each once, in the order of their paths. */
  readonly files: readonly string[]
  /** A sentence for each thing typed that leads to no procedure: wrong use. */
  readonly complaints: readonly string[]
  /** A sentence for each folder that could not be looked into: what is in it may be wrong. */
  readonly unread: readonly string[]
}

/** Reads the entries of a folder; tests put a folder that cannot be read in its place. */
export type ReadFolder = (folder: string) => readonly string[]

/**
 * The procedures that the typed files, folders and patterns mean.
 * A folder means every `.md` below it but README.md, fragments, and what stands in hidden folders or node_modules.
 */
export function findProcedures(
  typed: readonly string[],
  folder: string,
  readFolder: ReadFolder = (path) => readdirSync(path),
): FoundProcedures {
  const files = new Map<string, string>()
  const complaints: string[] = []
  const unread: string[] = []
  const add = (path: string) => {
    const real = realPath(path)
    if (!files.has(real)) files.set(real, path)
  }
  for (const name of typed) {
    const path = resolve(folder, name)
    if (isFolder(path)) {
      const before = files.size
      const below = filesBelow(path, readFolder)
      for (const unreadable of below.unreadable)
        unread.push(
          `${shownPath(unreadable, folder)}: the folder could not be read, so what is in it was not looked at.`,
        )
      below.files.forEach(add)
      if (files.size === before && below.files.length === 0 && below.unreadable.length === 0)
        complaints.push(`${name}: there is no procedure (a file ending in .md) in this folder.`)
    } else if (existsSync(path)) {
      const complaint = notAProcedure(name, path)
      if (complaint === null) add(path)
      else complaints.push(complaint)
    } else if (isDynamicPattern(name)) {
      const matches = globSync(name, { cwd: folder, absolute: true, ignore: ['**/node_modules/**'] })
      const procedures = matches.filter(isProcedureInFolder)
      if (procedures.length === 0) complaints.push(`${name}: no procedure (a file ending in .md) matches this pattern.`)
      procedures.forEach(add)
    } else complaints.push(missing(name, path, readFolder))
  }
  return { files: [...files.values()].sort(), complaints, unread }
}

function filesBelow(top: string, readFolder: ReadFolder) {
  const files: string[] = []
  const unreadable: string[] = []
  const visited = new Set<string>()
  const visit = (folder: string) => {
    const real = realPath(folder)
    // A link may lead back to a folder above it.
    if (visited.has(real)) return
    visited.add(real)
    let names: readonly string[]
    try {
      names = readFolder(folder)
    } catch {
      unreadable.push(folder)
      return
    }
    for (const name of [...names].sort()) {
      if (name.startsWith('.') || name === 'node_modules') continue
      const path = join(folder, name)
      if (isFolder(path)) visit(path)
      else if (isProcedureInFolder(path)) files.push(path)
    }
  }
  visit(top)
  return { files, unreadable }
}

/** False for what cannot be looked at; reading it later says why. */
function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory()
  } catch {
    return false
  }
}

function isProcedureInFolder(path: string): boolean {
  return path.endsWith('.md') && basename(path).toLowerCase() !== 'readme.md' && !isFragment(path)
}

function isFragment(path: string): boolean {
  return basename(dirname(path)) === 'fragments' && basename(dirname(dirname(path))) === 'shared'
}

/** Why a file named by itself is no procedure, or null. */
function notAProcedure(name: string, path: string): string | null {
  if (!name.endsWith('.md')) return `${name}: a procedure is a Markdown file, and its name ends in .md.`
  if (isFragment(path))
    return `${name}: this is a fragment. It is looked at with the procedures that include it; name one of those.`
  return null
}

function missing(name: string, path: string, readFolder: ReadFolder): string {
  const near = nearestName(basename(path), namesIn(dirname(path), readFolder))
  const advice = near === null ? '' : ` Did you mean ${join(dirname(name), near)}?`
  return `${name}: there is no such file or folder.${advice}`
}

function namesIn(folder: string, readFolder: ReadFolder): readonly string[] {
  try {
    return readFolder(folder)
  } catch {
    return []
  }
}

function realPath(path: string): string {
  try {
    return realpathSync(path)
  } catch {
    return path
  }
}
