/**
 * Rows as RFC 4180 (October 2005): comma, CRLF after every row, each cell in quotes, a quote in it doubled.
 * The mark for UTF-8 stands first, without which spreadsheets take the text for another encoding.
 */
export function csvText(rows: readonly (readonly string[])[]): string {
  return `\uFEFF${rows.map((row) => `${row.map(cellText).join(',')}\r\n`).join('')}`
}

function cellText(text: string): string {
  return `"${harmless(text.replace(/\s+/g, ' ').trim()).replaceAll('"', '""')}"`
}

/**
 * A spreadsheet takes a cell that begins with one of these for a formula and carries it out; behind an apostrophe it is text.
 * Common practice against formula injection, no published standard. The wide forms are taken for the same signs.
 */
function harmless(text: string): string {
  return /^[=+\-@＝＋－＠]/.test(text) ? `'${text}` : text
}
