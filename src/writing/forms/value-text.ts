import { valueAt } from '../../syntax/block-node.ts'
import { itemSchema, type LocatedSchema, propertySchema } from '../../syntax/fit-block-schema.ts'
import { readYamlText } from '../../syntax/read-yaml-text.ts'
import { sourceText } from '../../text/source-text.ts'
import type { FormValue } from './form.ts'
import { shortText } from './short-text.ts'
import { isBlank, isMap } from './values.ts'

/** More letters than this do not go on one line. */
const widest = 118

/**
 * A value as it stands behind its key on one line: its short form where it has one, else between brackets.
 *
 * @param isInline between braces or brackets already, where a comma ends the value
 */
export function inlineText(value: FormValue, located: LocatedSchema | null, isInline: boolean): string {
  if (typeof value === 'string') return quoted(value, isInline)
  if (!isMap(value)) return listText(value as readonly FormValue[], located, isInline)
  const short = located === null ? null : shortText(value, located)
  if (short !== null) return quoted(short, isInline)
  const names = Object.keys(value)
  if (located?.schema.short?.list === 'names' && names.length > 0 && names.every((name) => isBlank(value[name] ?? '')))
    return `[${names.map((name) => quoted(name, true)).join(', ')}]`
  const entries = Object.entries(value).map(([name, inner]) => {
    const property = located && propertySchema(located, name)
    return `${quoted(name, true)}: ${inlineText(inner, property, true)}`
  })
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`
}

function listText(items: readonly FormValue[], located: LocatedSchema | null, isInline: boolean): string {
  const inner = located && itemSchema(located)
  // One needs no brackets; things that come off are listed in them all the same.
  if (items.length === 1 && located !== null && !inner?.schema.short?.counted) {
    const short = shortText(items, located)
    if (short !== null) return quoted(short, isInline)
  }
  return `[${items.map((item) => inlineText(item, inner, true)).join(', ')}]`
}

/** A key with its value, as the lines of a block without their indent. */
export function keyLines(key: string, value: FormValue, located: LocatedSchema | null): readonly string[] {
  const name = quoted(key, false)
  const items = located && itemSchema(located)
  if (Array.isArray(value) && items?.schema.type === 'object' && isInLines(key, value, items))
    return [`${name}:`, ...value.map((item) => `  - ${inlineText(item, items, false)}`)]
  const inline = inlineText(value, located, false)
  if (!isMap(value) || isBlank(value)) return [`${name}: ${inline}`]
  const isByName = located?.schema.keysDefine !== undefined || isSigned(located)
  const isShort = !inline.startsWith('{')
  if (isShort && !isByName) return [`${name}: ${inline}`]
  if (isShort && inline.startsWith('[')) return [`${name}: ${inline}`]
  if (!isByName && inline.length + name.length < widest && !hasSentences(value, located)) return [`${name}: ${inline}`]
  const lines = Object.entries(value).flatMap(([inner, own]) =>
    keyLines(inner, own, located && propertySchema(located, inner)),
  )
  return [`${name}:`, ...lines.map((line) => `  ${line}`)]
}

/** Items that have a short form stand in one line as long as they fit. */
function isInLines(key: string, items: readonly FormValue[], inner: LocatedSchema): boolean {
  const texts = items.map((item) => shortText(item, inner))
  if (texts.some((text) => text === null)) return items.length > 1 || hasSentences(items[0] ?? '', inner)
  return texts.join(', ').length + key.length > widest
}

/** A sentence for each role. */
function isSigned(located: LocatedSchema | null): boolean {
  const inner = located?.schema.keysHold === 'role' ? propertySchema(located, '') : null
  return inner?.schema.holds === 'sentence'
}

/** Two sentences or more do not read well on one line. */
function hasSentences(value: FormValue, located: LocatedSchema | null): boolean {
  if (!isMap(value)) return false
  const sentences = Object.entries(value).filter(([name, inner]) => {
    const property = located && propertySchema(located, name)
    return property?.schema.holds === 'sentence' && typeof inner === 'string' && inner.includes(' ')
  })
  return sentences.length > 1
}

/** Quotes where the text would otherwise be read as something else. */
function quoted(text: string, isInline: boolean): string {
  return isReadAs(text, text, isInline) ? text : JSON.stringify(text)
}

function isReadAs(written: string, meant: string, isInline: boolean): boolean {
  if (written === '' || /[\n\t]/.test(written)) return false
  const { value, findings } = readYamlText(sourceText('', `x: ${isInline ? `{ y: ${written} }` : written}`))
  if (value === null || findings.length > 0) return false
  const outer = valueAt(value, 'x')
  const read = isInline ? valueAt(outer, 'y') : outer
  const isAlone = !isInline || (outer?.kind === 'map' && outer.entries.length === 1)
  return read?.kind === 'scalar' && read.text === meant && isAlone
}
