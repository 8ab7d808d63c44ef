/** Rows of words in columns two blanks apart, each line behind two blanks. The last column takes what room it needs. */
export function inColumns(rows: readonly (readonly string[])[]): string {
  const widths: number[] = []
  for (const row of rows)
    for (const [column, cell] of row.entries()) widths[column] = Math.max(widths[column] ?? 0, letters(cell))
  const line = (row: readonly string[]) =>
    row.map((cell, column) => cell + ' '.repeat(Math.max(0, (widths[column] ?? 0) - letters(cell)))).join('  ')
  return rows.map((row) => `  ${line(row)}`.trimEnd().concat('\n')).join('')
}

function letters(cell: string): number {
  return [...cell].length
}
