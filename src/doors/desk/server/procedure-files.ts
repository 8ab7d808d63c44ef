import { createHash } from 'node:crypto'
import { existsSync, lstatSync, mkdirSync, readdirSync, realpathSync, renameSync, rmSync } from 'node:fs'
import { basename, dirname, join, sep } from 'node:path'
import { replaceText } from '../../../devices/replace-text.ts'
import { whyNotWritten, writeFile } from '../../../devices/write-output.ts'
import type { LibraryReader } from '../../../library/library-reader.ts'
import { identifierFrom } from '../../../text/identifier.ts'
import type { MadeAnswer, ReadAnswer, SaveAnswer } from '../wire.ts'

/** The procedures of a library on the disk: read, written in full, made, copied, renamed. */
export interface ProcedureShelf {
  readonly root: string
  readonly reader: LibraryReader
  /** Where new procedures are made, in the library. */
  readonly folder: string
  /** The only files that are ever read or written as procedures. */
  readonly files: () => readonly string[]
}

export function hashOf(text: string): string {
  return createHash('sha256').update(text).digest('hex')
}

export function readProcedureFile(shelf: ProcedureShelf, file: string): ReadAnswer | null {
  if (!shelf.files().includes(file)) return null
  const answer = shelf.reader.readText(file)
  if (answer.kind !== 'text') return null
  return { file, text: withLineFeeds(answer.text), hash: hashOf(answer.text) }
}

/**
 * Puts the text into the file, unless the file is no longer the one that was read (`hash`).
 * The page counts in line feeds; a file with other line ends keeps them.
 */
export function saveProcedureFile(shelf: ProcedureShelf, file: string, hash: string, text: string): SaveAnswer {
  if (!shelf.files().includes(file)) return { kind: 'failed', because: 'the file is no longer there.' }
  const now = shelf.reader.readText(file)
  if (now.kind !== 'text') return { kind: 'failed', because: 'the file is no longer there.' }
  if (hashOf(now.text) !== hash) return { kind: 'changed', text: withLineFeeds(now.text), hash: hashOf(now.text) }
  const newText = now.text.includes('\r\n') ? text.replaceAll('\n', '\r\n') : text
  if (newText === now.text) return { kind: 'saved', hash }
  const answer = replaceText(join(shelf.root, file), now.text, newText)
  if (answer.kind === 'written') return { kind: 'saved', hash: hashOf(newText) }
  if (answer.kind === 'failed') return { kind: 'failed', because: answer.because }
  const other = shelf.reader.readText(file)
  if (other.kind !== 'text') return { kind: 'failed', because: 'the file is no longer there.' }
  return { kind: 'changed', text: withLineFeeds(other.text), hash: hashOf(other.text) }
}

/** Makes `<folder>/<name>/<name>.md` from a text; never in the place of another. */
export function makeProcedureFile(shelf: ProcedureShelf, title: string, text: string): MadeAnswer {
  const name = freeName(shelf, identifierFrom(title))
  const file = inFolder(shelf.folder, `${name}/${name}.md`)
  const written = writeFile(join(shelf.root, file), text)
  return written.kind === 'written' ? { kind: 'made', file } : { kind: 'failed', because: written.because }
}

/** Gives the folder of a procedure and its file another name; figures move along. */
export function renameProcedureFile(shelf: ProcedureShelf, file: string, title: string): MadeAnswer {
  if (!shelf.files().includes(file)) return { kind: 'failed', because: 'the file is no longer there.' }
  const oldName = basename(file, '.md')
  const newName = identifierFrom(title)
  if (newName === oldName) return { kind: 'made', file }
  const folder = dirname(file)
  const ownsFolder = basename(folder) === oldName && proceduresIn(shelf, folder) === 1
  const parent = ownsFolder ? dirname(folder) : folder
  const target = ownsFolder ? `${parent}/${newName}/${newName}.md` : `${parent}/${newName}.md`
  const taken = join(shelf.root, ownsFolder ? dirname(target) : target)
  if (existsSync(taken)) return { kind: 'failed', because: `there is already something called ${newName} there.` }
  try {
    if (!isInside(shelf.root, join(shelf.root, file)))
      return { kind: 'failed', because: 'it lies outside the library.' }
    // The file first: whatever happens between the two, it stands whole in one place.
    renameSync(join(shelf.root, file), join(shelf.root, folder, `${newName}.md`))
    if (ownsFolder) renameSync(join(shelf.root, folder), join(shelf.root, dirname(target)))
    return { kind: 'made', file: normal(target) }
  } catch (error) {
    return { kind: 'failed', because: whyNotWritten(error) }
  }
}

const anHour = 60 * 60 * 1000

/** Takes the leavings of saves that were cut off away, once they are an hour old: each procedure itself is whole. */
export function removeCutOffSaves(shelf: ProcedureShelf, now: number): void {
  for (const folder of new Set(shelf.files().map((file) => dirname(file)))) {
    for (const name of readdirSync(join(shelf.root, folder))) {
      const path = join(shelf.root, folder, name)
      if (!name.startsWith('.part-')) continue
      if (now - lstatSync(path).mtimeMs > anHour) rmSync(path, { recursive: true, force: true })
    }
  }
}

/** Makes the folder where it is missing; null where it is or would be outside the library. */
export function folderInside(root: string, path: string): string | null {
  const folder = join(root, path)
  if (!existsSync(folder)) {
    if (!isInside(root, dirname(folder))) return null
    mkdirSync(folder)
  }
  return isInside(root, folder) ? folder : null
}

function isInside(root: string, path: string): boolean {
  const realRoot = realpathSync(root)
  const real = realpathSync(path)
  return real === realRoot || real.startsWith(realRoot.endsWith(sep) ? realRoot : realRoot + sep)
}

function proceduresIn(shelf: ProcedureShelf, folder: string): number {
  return shelf.files().filter((file) => dirname(file) === folder).length
}

function freeName(shelf: ProcedureShelf, wanted: string): string {
  for (let number = 1; ; number++) {
    const name = number === 1 ? wanted : `${wanted}-${number}`
    if (!existsSync(join(shelf.root, inFolder(shelf.folder, name)))) return name
  }
}

function inFolder(folder: string, path: string): string {
  return folder === '' ? path : `${folder}/${path}`
}

const normal = (path: string): string => path.replace(/^\.\//, '')

function withLineFeeds(text: string): string {
  return text.replace(/\r\n?/g, '\n')
}
