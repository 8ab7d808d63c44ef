import type { Scalar } from 'yaml'

/** A text that YAML reads the same with and without quotes: it begins with a letter or figure and holds no sign of YAML's. */
const safe = /^[\p{L}\p{N}](?:[^\n\r\t"'\\]*[^\s"'\\:])?$/u

/**
 * A value as it is best typed. Quotes go where YAML does not need them; where it does, they stay as their author typed them.
 *
 * @param isInline between braces or brackets, where commas and brackets have a meaning, too
 */
export function unquotedWhereSafe(typed: string, scalar: Scalar<string>, isInline: boolean): string {
  if (scalar.type !== 'QUOTE_DOUBLE' && scalar.type !== 'QUOTE_SINGLE') return typed
  const text = String(scalar.value ?? '')
  if (!safe.test(text) || /: | #|\n/.test(text)) return typed
  return isInline && /[,[\]{}]|:$/.test(text) ? typed : text
}
