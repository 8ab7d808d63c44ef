import { type AuditTable, cell, strongCell } from './audit-table.ts'
import { GAPS, type GapLine, gapLines, worstGapsFirst } from './gap-lines.ts'
import type { AuditedDocument } from './library-documents.ts'
import { documentCell, documentRow } from './library-rows.ts'
import type { Conflict } from './machine-matrix.ts'

/** A gap with the procedure it is in. */
export type LibraryGap = GapLine & { readonly document: AuditedDocument }

/** Gaps of every procedure and those that show only side by side, the worst first. */
export function libraryGaps(
  documents: readonly AuditedDocument[],
  conflicts: readonly Conflict[],
): readonly LibraryGap[] {
  // Beside another procedure that deals with it, an energy is told once, with that procedure.
  const isTold = ({ document, energy }: LibraryGap) =>
    energy !== undefined && conflicts.some((one) => one.document === document && one.energy === energy)
  const own = documents
    .flatMap((document) => gapLines(document.stepFile).map((line): LibraryGap => ({ ...line, document })))
    .filter((gap) => !isTold(gap))
  return worstGapsFirst([...own, ...conflicts])
}

export function gapTable(gaps: readonly LibraryGap[]): AuditTable {
  return {
    id: 'gaps',
    title: 'Where somebody is exposed without signed proof',
    says: 'The worst first. What nobody declared is here too, as far as machines and procedures side by side show it.',
    none: 'No gap was found in what these procedures declare. What nobody declared anywhere cannot be seen here.',
    columns: ['What is missing', 'Procedure', 'Steps', 'Who', 'Where', 'What stands there'],
    rows: gaps.map(({ document, kind, steps, who, where, says }) =>
      documentRow(document, [
        strongCell(GAPS[kind].words),
        documentCell(document),
        cell(steps === '' ? 'whole document' : steps),
        cell(who),
        cell(where),
        cell(says),
      ]),
    ),
  }
}
