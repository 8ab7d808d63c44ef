/** A table of the audit: what the page shows, filters and sorts. */
export interface AuditTable {
  /** Anchor on the page. */
  readonly id: string
  readonly title: string
  /** One sentence below the head. */
  readonly says: string
  /** What stands there instead of an empty table. */
  readonly none: string
  readonly columns: readonly string[]
  readonly rows: readonly AuditRow[]
}

export interface AuditRow {
  /** What the filters of the page look for: procedures, machine, status and roles of this row. */
  readonly of: RowFacts
  readonly cells: readonly AuditCell[]
}

export interface RowFacts {
  readonly documents: readonly string[]
  readonly machine: string
  readonly statuses: readonly string[]
  /** As words. */
  readonly roles: readonly string[]
}

export interface AuditCell {
  readonly lines: readonly string[]
  /** What must not be overlooked. */
  readonly isStrong: boolean
  /** Page to open, or null. */
  readonly address: string | null
}

export const cell = (text: string | readonly string[]): AuditCell => ({
  lines: (typeof text === 'string' ? [text] : text).filter((line) => line !== ''),
  isStrong: false,
  address: null,
})

export const strongCell = (text: string): AuditCell => ({ ...cell(text), isStrong: true })

/** For `audit/table.hbs`. */
export function tableView(table: AuditTable) {
  return {
    ...table,
    count: table.rows.length,
    rows: table.rows.map(({ of, cells }) => ({
      documents: of.documents.join('|'),
      machine: of.machine,
      statuses: of.statuses.join('|'),
      roles: of.roles.join('|'),
      cells: cells.map((one, index) => ({ ...one, isHead: index === 0 })),
    })),
  }
}

/** For the audit of one procedure, which need not name it in every row. */
export function withoutProcedure(table: AuditTable): AuditTable {
  const at = table.columns.indexOf('Procedure')
  const kept = <Item>(items: readonly Item[]) => items.filter((_, index) => index !== at)
  return {
    ...table,
    columns: kept(table.columns),
    rows: table.rows.map((row) => ({ ...row, cells: kept(row.cells) })),
  }
}
