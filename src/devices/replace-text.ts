import { chmodSync, readFileSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { whyNotWritten } from './write-output.ts'

export type ReplaceAnswer =
  | { readonly kind: 'written' }
  /** Somebody else changed the file since it was read: it was left as it is. */
  | { readonly kind: 'changed' }
  /** `because` ends the sentence "… could not be written: ". */
  | { readonly kind: 'failed'; readonly because: string }

const byteOrderMark = '\uFEFF'

/**
 * Puts a new text in the place of the one that was read, and never in the place of another: the file is read again first.
 * Written in full beside it and renamed, with its permissions and its byte order mark kept; a link stays a link.
 */
export function replaceText(path: string, wasRead: string, newText: string): ReplaceAnswer {
  let part: string | null = null
  try {
    const real = realpathSync(path)
    const now = readFileSync(real, 'utf8')
    const mark = now.startsWith(byteOrderMark) ? byteOrderMark : ''
    if (now !== mark + wasRead) return { kind: 'changed' }
    part = join(dirname(real), `.part-${process.pid}-${basename(real)}`)
    writeFileSync(part, mark + newText, { flag: 'wx' })
    chmodSync(part, statSync(real).mode)
    renameSync(part, real)
    return { kind: 'written' }
  } catch (error) {
    if (part !== null) rmSync(part, { force: true })
    return { kind: 'failed', because: whyNotWritten(error) }
  }
}
