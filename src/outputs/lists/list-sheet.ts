import type { StepFile } from '../../step-file/step-file.ts'
import { inWords } from '../../wording/state-text.ts'

export type ListPaper = 'a4' | 'letter'

/** What every list has at its head and foot. */
export interface ListHead {
  readonly paper: ListPaper
  readonly kind: string
  /** Number and revision, or empty for a list over several procedures. */
  readonly document: string
  readonly title: string
  readonly digestShort: string
  readonly dateText: string
  /** Year, month, day, or null. */
  readonly date: readonly number[] | null
  readonly language: string
  /** `DRAFT`, `FOR REVIEW` or `WITHDRAWN`; null for what may be worked from. */
  readonly notForUse: string | null
  readonly cautions: readonly string[]
}

/** Templates and data of one list to typeset; nothing else is read. */
export interface ListSources {
  readonly main: string
  readonly files: readonly { readonly path: string; readonly text: string }[]
  readonly standard: 'a-3a'
}

/** Makes text fit for paper, wherever it stands in a sheet. */
export type Tidy = <Value>(value: Value) => Value

export function headOf(stepFile: StepFile, kind: string, paper: ListPaper): ListHead {
  const { document, digest, cautions } = stepFile
  const hex = digest.replace(/^sha256:/, '')
  return {
    paper,
    kind,
    document: `${document.number} rev ${document.revision}`,
    title: document.title,
    digestShort: `${hex.slice(0, 4)}-${hex.slice(4, 8)}`,
    dateText: document.date,
    date: datePartsOf(document.date),
    language: document.language,
    notForUse: document.status === 'issued' ? null : inWords(document.status).toUpperCase(),
    cautions,
  }
}

/** Year, month, day of `2026-03-02`; null where it is no date. */
export function datePartsOf(text: string): readonly number[] | null {
  const date = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text)
  return date === null ? null : date.slice(1).map(Number)
}
