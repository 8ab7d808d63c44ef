import { execFileSync } from 'node:child_process'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** Programs of poppler-utils, qpdf and mupdf-tools, as second opinions on a PDF. Where one is not installed, tests that need it are skipped and say so. */

export function isInstalled(program: string): boolean {
  try {
    execFileSync(program, [program === 'qpdf' ? '--version' : '-v'], { stdio: 'ignore' })
    return true
  } catch (error) {
    // Some end with another status once they have told their version.
    return !(error instanceof Error && 'code' in error && error.code === 'ENOENT')
  }
}

export const needs = (program: string): string =>
  `needs ${program}${isInstalled(program) ? '' : ', not installed here'}`

export function saved(bytes: Uint8Array, name = 'checklist.pdf'): string {
  const file = join(mkdtempSync(join(tmpdir(), 'checklist-')), name)
  writeFileSync(file, bytes)
  return file
}

export function run(program: string, ...words: readonly string[]): string {
  return execFileSync(program, words, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'], maxBuffer: 1e8 })
}
