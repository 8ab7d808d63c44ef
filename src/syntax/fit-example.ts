/** An example of a schema as one line of YAML, so that it can be typed as shown: `{ redo: this, then: stop }`. */
export function exampleLine(example: unknown): string {
  if (typeof example === 'string') return quotedWhereNeeded(example, false)
  return inBraces(example)
}

/** `hold: { supervisor: Locks on. }` */
export function exampleOfKey(key: string, example: unknown): string {
  return `${key}: ${exampleLine(example)}`
}

function inBraces(value: unknown): string {
  if (typeof value === 'string') return quotedWhereNeeded(value, true)
  if (Array.isArray(value)) return `[${value.map(inBraces).join(', ')}]`
  const entries = Object.entries(value ?? {}).map(([key, inner]) => `${key}: ${inBraces(inner)}`)
  return `{ ${entries.join(', ')} }`
}

function quotedWhereNeeded(text: string, isInBraces: boolean): string {
  const splits = isInBraces ? /[,[\]{}]|: | #|^[-?:&*!|>%@`"']|^$/ : /: | #|^[&*!|>%@`"'[{]|^$/
  return splits.test(text) ? `"${text.replaceAll('"', "'")}"` : text
}
