import { readdirSync, readFileSync, realpathSync, statSync } from 'node:fs'
import { join, posix, sep } from 'node:path'
import type { FileAnswer, LibraryReader } from '../library/library-reader.ts'

/** More than any procedure or figure needs; a file above it is a mistake (8 MB). */
const largestFile = 8 * 1024 * 1024

type Found =
  | { readonly kind: 'bytes'; readonly bytes: Uint8Array }
  | Extract<FileAnswer, { kind: 'missing' | 'refused' }>

/**
 * Reads a library below its root folder and nothing outside it: not by `../`, not by an absolute path,
 * not by a link that leads out. Never throws for what stands on the disk; `because` is a sentence without the path.
 */
export function libraryOnDisk(root: string): LibraryReader {
  const realRoot = realpathSync(root)
  return {
    readText: (path) => {
      const found = find(realRoot, path)
      return found.kind === 'bytes' ? decoded(found.bytes) : found
    },
    readBytes: (path) => {
      const found = find(realRoot, path)
      return found.kind === 'bytes' ? { kind: 'bytes', base64: Buffer.from(found.bytes).toString('base64') } : found
    },
    listFolder: (folder) => listed(realRoot, folder),
  }
}

function find(realRoot: string, path: string): Found {
  const refusal = refusedPath(path)
  if (refusal !== null) return { kind: 'refused', because: refusal }
  try {
    const target = realpathSync(join(realRoot, path))
    if (!isWithin(realRoot, target))
      return {
        kind: 'refused',
        because: 'It is a link that leads out of the library. Put the file itself into the library.',
      }
    const facts = statSync(target)
    if (facts.isDirectory()) return { kind: 'refused', because: 'It is a folder, and a file is wanted.' }
    // A pipe or a device could hang or never end.
    if (!facts.isFile()) return { kind: 'refused', because: 'It is not an ordinary file.' }
    if (facts.size > largestFile)
      return {
        kind: 'refused',
        because: `It is too large: ${megabytes(facts.size)} MB, and 8 MB is the most that is read.`,
      }
    return { kind: 'bytes', bytes: readFileSync(target) }
  } catch (error) {
    return notRead(error)
  }
}

/** Why a path is refused by its wording alone, or null. */
function refusedPath(path: string): string | null {
  if (path === '' || path.includes('\0')) return 'That is not the name of a file.'
  if (path.includes('\\')) return 'Its path has a backslash. Write it with forward slashes.'
  if (path.startsWith('/') || /^[a-z]:/i.test(path))
    return 'Its path starts at the root of the disk. Write it relative to the procedure, inside the library.'
  const normal = posix.normalize(path)
  if (normal === '..' || normal.startsWith('../'))
    return 'It lies outside the library, and nothing outside the library is read.'
  return null
}

function isWithin(realRoot: string, target: string): boolean {
  const rootWithSlash = realRoot.endsWith(sep) ? realRoot : realRoot + sep
  return target === realRoot || target.startsWith(rootWithSlash)
}

function notRead(error: unknown): Found {
  const code = errorCode(error)
  if (code === 'ENOENT' || code === 'ENOTDIR') return { kind: 'missing' }
  if (code === 'EACCES' || code === 'EPERM')
    return { kind: 'refused', because: 'It may not be read: you have no permission for it.' }
  if (code === 'EISDIR') return { kind: 'refused', because: 'It is a folder, and a file is wanted.' }
  if (code === 'ELOOP') return { kind: 'refused', because: 'It is a link that leads back to itself.' }
  if (code === 'ENAMETOOLONG') return { kind: 'refused', because: 'Its name is too long for the disk.' }
  return { kind: 'refused', because: `It could not be read (${code}).` }
}

function decoded(bytes: Uint8Array): FileAnswer {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
    return { kind: 'refused', because: 'It is saved as UTF-16. Save it as UTF-8.' }
  if (bytes.includes(0)) return { kind: 'refused', because: 'It is not a text file: it has zero bytes in it.' }
  try {
    return { kind: 'text', text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) }
  } catch {
    return {
      kind: 'refused',
      because: `It is not UTF-8 text: line ${lineOfBadByte(bytes)} has a byte that UTF-8 does not allow. Save it as UTF-8.`,
    }
  }
}

/** The first line (from 1) that does not decode. A line end is one byte in UTF-8, so lines can be decoded one by one. */
function lineOfBadByte(bytes: Uint8Array): number {
  const decoder = new TextDecoder('utf-8', { fatal: true })
  let line = 1
  let start = 0
  while (start < bytes.length) {
    const lineEnd = bytes.indexOf(0x0a, start)
    const end = lineEnd < 0 ? bytes.length : lineEnd + 1
    try {
      decoder.decode(bytes.subarray(start, end))
    } catch {
      return line
    }
    line++
    start = end
  }
  return line
}

function listed(realRoot: string, folder: string): readonly string[] {
  const path = posix.normalize(folder === '' ? '.' : folder).replace(/\/$/, '')
  if (refusedPath(path) !== null) return []
  try {
    const target = realpathSync(join(realRoot, path))
    if (!isWithin(realRoot, target)) return []
    return readdirSync(target)
      .filter((name) => !name.startsWith('.') && isOrdinaryFile(realRoot, join(target, name)))
      .map((name) => (path === '.' ? name : `${path}/${name}`))
      .sort()
  } catch {
    return []
  }
}

/** A link to a file counts, whether or not it leads out: reading it then says what is wrong with it. */
function isOrdinaryFile(realRoot: string, path: string): boolean {
  try {
    return statSync(path).isFile() || !isWithin(realRoot, realpathSync(path))
  } catch {
    return false
  }
}

function megabytes(bytes: number): string {
  return (Math.ceil((bytes / (1024 * 1024)) * 10) / 10).toFixed(1)
}

function errorCode(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : 'unknown'
}
