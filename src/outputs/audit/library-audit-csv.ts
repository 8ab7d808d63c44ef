import type { StepFile } from '../../step-file/step-file.ts'
import { csvText } from '../../wording/csv-text.ts'
import { auditRows, COLUMNS, cellOf, type Row } from './audit-csv.ts'
import { GAPS } from './gap-lines.ts'
import { type AuditedDocument, auditedDocuments } from './library-documents.ts'
import { libraryGaps } from './library-gaps.ts'
import { conflictsOf, DEALT_WORDS, type MachineMatrix, machineMatrices, placesOf } from './machine-matrix.ts'

/** The audit of a library as a table: gaps first, then machine by energy by procedure, then each procedure's own rows. */
export function libraryAuditCsv(found: readonly { readonly folder: string; readonly stepFile: StepFile }[]): string {
  const documents = auditedDocuments(found)
  const matrices = machineMatrices(documents)
  const gaps = libraryGaps(documents, matrices.flatMap(conflictsOf)).map(
    ({ document, kind, steps, who, where, says }) =>
      rowOf(document, { kind: 'gap', name: GAPS[kind].words, step: steps, position: where, who, says }),
  )
  const rows = documents.flatMap((document) => auditRows(document.stepFile).map((row) => rowOf(document, row)))
  return csvText([
    ['document', 'revision', 'status', 'machine', ...COLUMNS],
    ...gaps,
    ...matrices.flatMap(matrixRows),
    ...rows,
  ])
}

function rowOf({ stepFile, machine }: AuditedDocument, row: Row): readonly string[] {
  const { number, revision, status } = stepFile.document
  return [number, revision, status, machine, ...COLUMNS.map((column) => cellOf(row, column))]
}

function matrixRows(matrix: MachineMatrix): readonly (readonly string[])[] {
  return matrix.rows.flatMap((row) =>
    row.cells.flatMap((cell, index) => {
      const document = matrix.documents[index]
      if (document === undefined) return []
      return [
        rowOf(document, {
          kind: 'energy',
          name: [row.energy, ...row.magnitudes].join(', '),
          step: cell === null ? '' : placesOf(cell),
          says: cell === null ? 'not known here' : DEALT_WORDS[cell.dealt],
          proves: cell === null ? '' : cell.points.join('; '),
          because: cell === null || cell.dealt === 'silent' ? '' : cell.line.dismissed,
        }),
      ]
    }),
  )
}
