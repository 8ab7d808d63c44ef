export interface UnprintableText {
  readonly character: string
  /** Printed number of the step, phase or hold it stands in, or null outside of any. */
  readonly number: string | null
  readonly text: string
}

/** Blanks and joiners that need no shape of their own. */
const shapeless = /\s|\u00ad|[\u200b-\u200f]|\u2060|\ufe0e|\ufe0f/u

/** Every character of a sheet that no font can draw, once a character, with the step it is first met in. */
export function unprintableTexts(sheet: unknown, canDraw: (code: number) => boolean): readonly UnprintableText[] {
  const found = new Map<string, UnprintableText>()
  walk(sheet, null, (text, number) => {
    for (const character of text) {
      if (found.has(character) || shapeless.test(character) || canDraw(character.codePointAt(0) ?? 0)) continue
      found.set(character, { character, number, text })
    }
  })
  return [...found.values()]
}

function walk(value: unknown, number: string | null, see: (text: string, number: string | null) => void): void {
  if (typeof value === 'string') see(value, number)
  if (Array.isArray(value)) for (const inner of value) walk(inner, number, see)
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return
  const own = 'number' in value && typeof value.number === 'string' ? value.number : number
  for (const inner of Object.values(value)) walk(inner, own, see)
}

export function unprintableSentence({ character, number, text }: UnprintableText): string {
  const code = (character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')
  const place = number === null ? 'The text' : `Step ${number}`
  const shown = text.length > 60 ? `${text.slice(0, 57)}…` : text
  return `${place} has the character "${character}" (U+${code}) in "${shown}": the print fonts cannot draw it. Write it in letters that they have (Latin, Greek, Cyrillic and technical signs).`
}
