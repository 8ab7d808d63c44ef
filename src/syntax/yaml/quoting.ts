/** A value in the quotes that keep it as it is. */
export function quoted(typed: string): string {
  // In 'it's' the author quoted already, with the quote that the value itself holds.
  const value = /^'.*'.*'$/.test(typed) ? typed.slice(1, -1) : typed
  if (!value.includes('"') && !value.includes('\\')) return `"${value}"`
  return `'${value.replaceAll("'", "''")}'`
}

const KEY_AND_REST = /^(\s*(?:- +)*)("[^"]*"|'[^']*'|[^\s:'"{}[\],#][^:{}[\]]*?):[ \t]+(\S.*?)\s*$/
const ITEM_AND_REST = /^(\s*(?:- +)+)(\S.*?)\s*$/

/** A line split into what stays and the value that wants quotes; null where the line has another form. */
export function splitLine(line: string): { readonly head: string; readonly value: string; readonly at: number } | null {
  const match = KEY_AND_REST.exec(line)
  if (match !== null) {
    const [, indent = '', key = '', value = ''] = match
    return { head: `${indent}${key}: `, value, at: line.lastIndexOf(value) }
  }
  const item = ITEM_AND_REST.exec(line)
  if (item === null) return null
  const [, indent = '', value = ''] = item
  return { head: indent, value, at: indent.length }
}

/** The line as it should be typed, its value in quotes. */
export function quotedLine(line: string): string | null {
  const split = splitLine(line)
  return split === null ? null : (split.head + quoted(split.value)).trim()
}
