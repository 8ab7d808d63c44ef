import { type Fault, type FaultKind, found } from '../../findings/finding.ts'
import type { Place } from '../../text/place.ts'
import { numberNotAName, numberTakenTwice } from '../faults/faults.ts'
import { documentFolder } from './document-folder.ts'
import type { LookedAt } from './look-at-procedures.ts'

/**
 * A procedure with what its number and revision have wrong beside those looked at before it.
 * Letter case does not tell two documents apart: many disks do not keep them apart either.
 */
export function withNumberChecked(looked: LookedAt, earlier: readonly LookedAt[]): LookedAt {
  if (looked.stepFile === null) return looked
  const { number, revision } = looked.stepFile.document
  const folder = documentFolder(looked.stepFile.document)
  if (folder === null)
    return refused(looked, numberNotAName, {
      at: numberPlace(looked),
      message: `Number “${number}” with revision “${revision}” cannot name the folder that a build writes.`,
      advice: 'Type letters, digits, “-”, “_” and “.” only, with a letter or a digit first and last.',
    })
  const twin = earlier.find(
    (other) => other.stepFile !== null && isSameFolder(documentFolder(other.stepFile.document), folder),
  )
  if (twin === undefined) return looked
  return refused(looked, numberTakenTwice, {
    at: numberPlace(looked),
    message: `${twin.file} carries number ${number}, revision ${revision}, too. Whoever asks for it could be handed either.`,
    advice: 'Give one of them another number or revision.',
    related: [{ at: numberPlace(twin), message: 'The other one stands here.' }],
  })
}

function refused(looked: LookedAt, kind: FaultKind, fault: Fault): LookedAt {
  return { ...looked, findings: [...looked.findings, found(kind, fault)] }
}

function isSameFolder(one: string | null, other: string): boolean {
  return one !== null && one.toLowerCase() === other.toLowerCase()
}

/** Where the front matter says `number:`; the start of the file where that cannot be found. */
function numberPlace(looked: LookedAt): Place {
  const text = looked.sources.find((source) => source.path === looked.file)?.text ?? ''
  const line = /^number:[ \t]*(?<value>[^\r\n]*)/m.exec(text)
  const value = line?.groups?.value ?? ''
  const start = line === null ? 0 : line.index + line[0].length - value.length
  return { file: looked.file, start, end: start + value.trimEnd().length }
}
