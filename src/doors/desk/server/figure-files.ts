import { createHash } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import { dirname, extname, join } from 'node:path'
import { writeFile } from '../../../devices/write-output.ts'
import { identifierFrom } from '../../../text/identifier.ts'
import type { FigureAnswer } from '../wire.ts'
import { folderInside, type ProcedureShelf } from './procedure-files.ts'

/** As much as the library reads of a file (8 MB). */
const largestFigure = 8 * 1024 * 1024

/** What a picture begins with, by its ending. */
const kinds: readonly { readonly ending: string; readonly begins: (bytes: Buffer) => boolean }[] = [
  { ending: '.png', begins: (bytes) => bytes.subarray(0, 8).equals(Buffer.from('89504e470d0a1a0a', 'hex')) },
  { ending: '.jpg', begins: (bytes) => bytes.subarray(0, 3).equals(Buffer.from('ffd8ff', 'hex')) },
  {
    ending: '.svg',
    begins: (bytes) =>
      /^(?:\uFEFF)?\s*(?:<\?xml[^>]*>\s*)?(?:<!--[\s\S]*?-->\s*)*<svg[\s>]/.test(bytes.toString('utf8', 0, 4096)),
  },
]

/**
 * Puts a picture into `figures/` beside a procedure, under a safe name that no other picture has; the same picture is
 * not put there twice. What it is, its bytes say and not its name.
 *
 * @returns the path to write in the procedure, `figures/jack.png`
 */
export function saveFigure(shelf: ProcedureShelf, file: string, name: string, base64: string): FigureAnswer {
  if (!shelf.files().includes(file)) return { kind: 'failed', because: 'the procedure is no longer there.' }
  const bytes = Buffer.from(base64, 'base64')
  if (bytes.length === 0) return { kind: 'failed', because: 'it is empty.' }
  if (bytes.length > largestFigure) return { kind: 'failed', because: 'it is larger than 8 MB. Save it smaller.' }
  const kind = kinds.find(({ begins }) => begins(bytes))
  if (kind === undefined) return { kind: 'failed', because: 'it is no PNG, JPEG or SVG picture.' }
  const folder = folderInside(shelf.root, join(dirname(file), 'figures'))
  if (folder === null) return { kind: 'failed', because: 'its folder of figures leads out of the library.' }
  const wanted = identifierFrom(name.slice(0, name.length - extname(name).length))
  for (let number = 1; ; number++) {
    const free = `${number === 1 ? wanted : `${wanted}-${number}`}${kind.ending}`
    const path = join(folder, free)
    if (existsSync(path)) {
      if (isSame(path, bytes)) return { kind: 'made', path: `figures/${free}` }
      continue
    }
    const written = writeFile(path, bytes)
    return written.kind === 'written'
      ? { kind: 'made', path: `figures/${free}` }
      : { kind: 'failed', because: written.because }
  }
}

function isSame(path: string, bytes: Buffer): boolean {
  return digest(readFileSync(path)) === digest(bytes)
}

const digest = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex')
