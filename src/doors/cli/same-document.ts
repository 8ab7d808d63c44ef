import { found } from '../../findings/finding.ts'
import type { Place } from '../../text/place.ts'
import { numberTakenTwice } from '../faults/faults.ts'
import { documentFolder } from './document-folder.ts'
import type { LookedAt } from './look-at-procedures.ts'

/**
 * A procedure with a finding more where one looked at before it carries the same number and revision.
 * Letter case does not tell two documents apart: many disks do not keep them apart either.
 */
export function withNumberChecked(looked: LookedAt, earlier: readonly LookedAt[]): LookedAt {
  const twin = earlier.find((other) => isSameDocument(looked, other))
  if (twin === undefined || looked.stepFile === null) return looked
  const { number, revision } = looked.stepFile.document
  const taken = found(numberTakenTwice, {
    at: numberPlace(looked),
    message: `${twin.file} carries number ${number}, revision ${revision}, too. Whoever asks for it could be handed either.`,
    advice: 'Give one of them another number or revision.',
    related: [{ at: numberPlace(twin), message: 'The other one stands here.' }],
  })
  return { ...looked, findings: [...looked.findings, taken] }
}

/** Whether two procedures would be written into one folder. */
export function isSameDocument(one: LookedAt, other: LookedAt): boolean {
  if (one.stepFile === null || other.stepFile === null) return false
  const folder = documentFolder(one.stepFile.document)?.toLowerCase()
  return folder !== undefined && folder === documentFolder(other.stepFile.document)?.toLowerCase()
}

/** Where the front matter says `number:`; the start of the file where that cannot be found. */
function numberPlace(looked: LookedAt): Place {
  const text = looked.sources.find((source) => source.path === looked.file)?.text ?? ''
  const line = /^number:[ \t]*(?<value>[^\r\n]*)/m.exec(text)
  const value = line?.groups?.value ?? ''
  const start = line === null ? 0 : line.index + line[0].length - value.length
  return { file: looked.file, start, end: start + value.trimEnd().length }
}
