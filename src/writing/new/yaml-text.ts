/** A text as a value of YAML, in quotes where it would be read otherwise without them. */
export function yamlText(text: string): string {
  const isPlain = /^[\p{L}\p{N}?][^"'\\]*$/u.test(text) && !/: | #|:$|^\?\s|\s$/.test(text)
  return isPlain ? text : JSON.stringify(text)
}

/** The same between braces and brackets, where a comma ends a value. */
export function inlineText(text: string): string {
  return /[,[\]{}]/.test(text) ? JSON.stringify(text) : yamlText(text)
}

/** Words that Markdown shows as they are: on one line, without its signs. */
export function plainWords(text: string): string {
  return text
    .replace(/\s+/g, ' ')
    .replace(/[\\`*_{}[\]<>#|]/g, (sign) => `\\${sign}`)
    .trim()
}
