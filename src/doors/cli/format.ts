import { readFileSync } from 'node:fs'
import { relative, sep } from 'node:path'
import { findLibraryRoot } from '../../devices/find-library-root.ts'
import { replaceText } from '../../devices/replace-text.ts'
import { formatChanges } from '../../writing/format/format-procedure.ts'
import { withChanges } from '../../writing/with-changes.ts'
import { exitStatus } from './exit-status.ts'
import { findProcedures } from './find-procedures.ts'
import { procedures } from './report.ts'
import { shownPath } from './shown-path.ts'
import type { Surroundings } from './surroundings.ts'

export interface FormatOptions {
  /** Say which files are laid out otherwise, and change nothing. */
  readonly check: boolean
}

/** `witnessmark format`: front matter and blocks in their usual layout; prose and remarks stay as they are. */
export function format(typed: readonly string[], { check }: FormatOptions, surroundings: Surroundings): number {
  const { folder, say, print } = surroundings
  const found = findProcedures(typed, folder)
  for (const sentence of [...found.complaints, ...found.unread]) say(`${sentence}\n`)
  let changed = 0
  let failed = found.unread.length > 0
  for (const path of found.files) {
    const shown = shownPath(path, folder)
    const answer = formatFile(path, check)
    if (answer === 'same') continue
    if (answer === 'changed') {
      changed++
      print(`${shown}\n`)
      continue
    }
    failed = true
    say(`${shown} could not be laid out: ${answer.because}\n`)
  }
  if (found.files.length > 0) say(`${procedures(found.files.length)} looked at: ${changedInWords(changed, check)}.\n`)
  return exitStatus({ wrongUse: found.complaints.length > 0, failed: failed || (check && changed > 0) })
}

function changedInWords(changed: number, check: boolean): string {
  if (changed === 0) return check ? 'all laid out as usual' : 'nothing to change'
  return `${changed} ${check ? 'to be laid out' : 'laid out anew'}`
}

function formatFile(path: string, check: boolean): 'same' | 'changed' | { readonly because: string } {
  let text: string
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(path))
  } catch (error) {
    return { because: error instanceof TypeError ? 'it is not UTF-8 text.' : 'it could not be read.' }
  }
  const file = relative(findLibraryRoot(path), path).split(sep).join('/')
  const changes = formatChanges(file, text)
  if (changes.length === 0) return 'same'
  if (check) return 'changed'
  const answer = replaceText(path, text, withChanges(text, changes))
  if (answer.kind === 'written') return 'changed'
  return { because: answer.kind === 'changed' ? 'somebody else changed it meanwhile.' : answer.because }
}
