import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { basename, dirname, join } from 'node:path'

export type WriteAnswer =
  | { readonly kind: 'written' }
  /** `because` ends the sentence "… could not be written: ". */
  | { readonly kind: 'failed'; readonly path: string; readonly because: string }

export interface OutputFile {
  readonly name: string
  readonly content: string | Uint8Array
}

const partPrefix = '.part-'

/**
 * Writes the files of one folder together: all are written in full into a folder of parts first, then renamed into
 * place, so no reader ever meets half a file. `known` names every file a build may write there: those not written
 * this time are taken away, and whatever else people keep in the folder stays.
 * A failure leaves the folder as it was, with nothing left over.
 */
export function writeFolder(folder: string, files: readonly OutputFile[], known: readonly string[]): WriteAnswer {
  let created: string | null = null
  let parts: string | null = null
  let at = folder
  try {
    created = makeFolder(folder)
    parts = mkdtempSync(join(folder, partPrefix))
    for (const file of files) {
      at = join(folder, file.name)
      refuseFolderInTheWay(at)
      writeFileSync(join(parts, file.name), file.content)
    }
    for (const file of files) {
      at = join(folder, file.name)
      renameSync(join(parts, file.name), at)
    }
    const stale = known.filter((name) => !files.some((file) => file.name === name))
    removeFiles(folder, stale)
    rmSync(parts, { recursive: true, force: true })
    return { kind: 'written' }
  } catch (error) {
    tidyUp(folder, parts, created)
    return { kind: 'failed', path: at, because: whyNotWritten(error) }
  }
}

/**
 * Makes a folder and those above it; gives the topmost that was made, or null.
 * Not by Node's own recursion: it never ends where a file system takes no folders (seen on Linux in /proc).
 */
function makeFolder(folder: string): string | null {
  const there = statSync(folder, { throwIfNoEntry: false })
  if (there?.isDirectory()) return null
  if (there) throw Object.assign(new Error(folder), { code: 'ENOTDIR' })
  const above = makeFolder(dirname(folder))
  mkdirSync(folder)
  return above ?? folder
}

/** After a failure: the parts go, and the folders that were made for them, unless something else came into them. */
function tidyUp(folder: string, parts: string | null, created: string | null): void {
  try {
    if (parts !== null) rmSync(parts, { recursive: true, force: true })
    if (created === null) return
    for (let empty = folder; empty.length >= created.length; empty = dirname(empty)) rmdirSync(empty)
  } catch {
    // The failure itself is what must be told.
  }
}

/** Writes one file, whole or not at all. */
export function writeFile(path: string, content: string | Uint8Array): WriteAnswer {
  return writeFolder(dirname(path), [{ name: basename(path), content }], [])
}

/** Takes away what a build wrote into a folder, and the folder if nothing else is in it. */
export function removeBuild(folder: string, known: readonly string[]): WriteAnswer {
  try {
    removeFiles(folder, known)
    if (existsSync(folder) && readdirSync(folder).length === 0) rmdirSync(folder)
    return { kind: 'written' }
  } catch (error) {
    return { kind: 'failed', path: folder, because: whyNotWritten(error) }
  }
}

/** Takes away the parts of a build that was cut off, in the output folder and its documents, once they are an hour old. */
export function removeLeftovers(outFolder: string, now: number): void {
  const hour = 60 * 60 * 1000
  for (const folder of [outFolder, ...foldersIn(outFolder)]) {
    for (const parts of foldersIn(folder)) {
      if (basename(parts).startsWith(partPrefix) && now - statSync(parts).mtimeMs > hour)
        rmSync(parts, { recursive: true, force: true })
    }
  }
}

/** None where the folder cannot be looked into: writing will say what is wrong with it. */
function foldersIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map((entry) => join(folder, entry.name))
  } catch {
    return []
  }
}

/** Found before the first rename, so that it cannot leave a half-renewed build. */
function refuseFolderInTheWay(path: string): void {
  if (existsSync(path) && statSync(path).isDirectory()) throw Object.assign(new Error(path), { code: 'EISDIR' })
}

function removeFiles(folder: string, names: readonly string[]): void {
  for (const name of names) rmSync(join(folder, name), { force: true })
}

export function whyNotWritten(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : String(error)
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return 'the disk is full.'
    case 'EROFS':
      return 'the disk is read-only.'
    case 'EACCES':
    case 'EPERM':
      return 'you have no permission to write there.'
    case 'ENOTDIR':
    case 'EEXIST':
      return 'a file stands where a folder is wanted. Move it away, or name another folder with --out.'
    case 'EISDIR':
      return 'a folder of that name stands in the way.'
    case 'ENOENT':
      return 'no folder can be made there.'
    case 'ENAMETOOLONG':
      return 'the name is too long for the disk.'
    default:
      return `the disk answered ${code}.`
  }
}
