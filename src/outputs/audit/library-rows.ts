import { inWords } from '../../wording/state-text.ts'
import { type AuditCell, type AuditRow, cell } from './audit-table.ts'
import type { AuditedDocument } from './library-documents.ts'

/** One row about one procedure. It is about `roles`, or else about all of the procedure's. */
export const documentRow = (
  document: AuditedDocument,
  cells: readonly AuditCell[],
  roles: readonly string[] = [],
): AuditRow => ({
  of: {
    documents: [document.name],
    machine: document.machine,
    statuses: [document.status],
    roles: roles.length > 0 ? roles : document.stepFile.roles.map(({ id }) => inWords(id)),
  },
  cells,
})

/** Leads to the audit of the one procedure. */
export function documentCell(document: AuditedDocument): AuditCell {
  return { ...cell(document.name), address: `${encodeURIComponent(document.folder)}/audit.html` }
}
