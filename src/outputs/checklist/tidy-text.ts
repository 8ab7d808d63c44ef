/** Fields that name things for the template and are never printed. */
const notPrinted = new Set([
  'id',
  'target',
  'targets',
  'step',
  'path',
  'svg',
  'kind',
  'style',
  'signal',
  'key',
  'digest',
  'keywords',
  'field',
  'fields',
  'says',
])

const unitAfterNumber =
  /(\d) (?=(?:mm|cm|m|µm|in|ft|thou|kg|g|t|lb|lbf|N|kN|N·m|kN·m|lbf·ft|lbf·in|Pa|kPa|MPa|bar|psi|°C|°F|K|h|min|s|d|%|A|mA|V|kV|W|kW|Ω|kΩ|MΩ|Hz|rpm|L|mL|turns?)(?![\p{L}\p{N}]))/gu
const thousands = /(\d) (?=\d{3}(?!\d))/g
/** Marks that turn the direction of writing could make figures read backwards; the rest have no shape. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
const unprintable = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ufeff]/g
const tooLong = /[^\s\u200b]{25,}/g

/**
 * Text fit for paper: a number keeps to its unit (`12 × M16`, `250 N·m` never part at a line end), words longer than a
 * column may part, and signs without a shape are taken out.
 */
export function tidyText(text: string): string {
  return text
    .replace(unprintable, '')
    .replace(unitAfterNumber, '$1\u00a0')
    .replace(thousands, '$1\u202f')
    .replace(/(\d) × (?=\S)/g, '$1\u00a0×\u00a0')
    .replace(/(\d) ± (?=\d)/g, '$1\u00a0±\u00a0')
    .replace(tooLong, (word) => word.replace(/[^\u00a0\u202f\u200b]{12}(?=[^\u00a0\u202f\u200b]{3})/gu, '$&\u200b'))
}

/** Every printed text of a sheet, tidied. */
export function tidySheet<T>(value: T): T {
  return tidy(value) as T
}

function tidy(value: unknown): unknown {
  if (typeof value === 'string') return tidyText(value)
  if (Array.isArray(value)) return value.map(tidy)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => [
      key,
      notPrinted.has(key) && !isSentence(key, value) ? inner : tidy(inner),
    ]),
  )
}

/** `says` is the text of a hold, but the content of a square code. */
function isSentence(key: string, owner: object): boolean {
  return key === 'says' && !('svg' in owner)
}
