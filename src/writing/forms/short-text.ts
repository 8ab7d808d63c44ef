import type { ScalarNode } from '../../syntax/block-node.ts'
import { itemSchema, type LocatedSchema, propertySchema, type ShortForm } from '../../syntax/fit-block-schema.ts'
import type { FormValue } from './form.ts'
import { isMap, isSame, longForm } from './values.ts'

/**
 * The short form of a value, as one text; null where it has none. What is written is read again first: a text that
 * would not mean the very same value is never given.
 */
export function shortText(value: FormValue, located: LocatedSchema): string | null {
  if (typeof value === 'string') return value === '' ? null : value
  const candidates = isMap(value) ? textsOfMap(value, located) : textsOfList(value as readonly FormValue[], located)
  return candidates.find((text) => text !== '' && isSame(longForm(scalar(text), located), value)) ?? null
}

function scalar(text: string): ScalarNode {
  return { kind: 'scalar', text, at: { file: '', start: 0, end: 0 }, contentStart: null }
}

function textsOfList(items: readonly FormValue[], located: LocatedSchema): readonly string[] {
  const inner = itemSchema(located)
  if (inner === null) return []
  const exact = Object.entries(located.schema.short?.exact ?? {}).filter(([, meaning]) =>
    isSame(meaning as FormValue, items),
  )
  const texts = items.map((item) => shortText(item, inner))
  if (texts.some((text) => text === null)) return exact.map(([text]) => text)
  const { between } = located.schema.short ?? {}
  return [
    ...exact.map(([text]) => text),
    ...(between === undefined ? [] : [texts.join(between)]),
    sharedUnit(texts as readonly string[]),
    texts.join(' '),
    texts.join(', '),
  ]
}

/** `50 % 100 %` is typed `50 100 %`. */
function sharedUnit(texts: readonly string[]): string {
  const units = texts.map((text) => /^([\d.,]+) (\S+)$/.exec(text))
  const unit = units[0]?.[2]
  if (texts.length < 2 || unit === undefined || units.some((match) => match?.[2] !== unit)) return ''
  return `${units.map((match) => match?.[1]).join(' ')} ${unit}`
}

function textsOfMap(value: { readonly [name: string]: FormValue }, located: LocatedSchema): readonly string[] {
  const { short } = located.schema
  if (short === undefined) return []
  const exact = Object.entries(short.exact ?? {}).filter(([, meaning]) => isSame(meaning as FormValue, value))
  const inner = (name: string): string => {
    const property = propertySchema(located, name)
    const own = value[name]
    return property === null || own === undefined ? '' : (shortText(own, property) ?? '')
  }
  return [
    ...exact.map(([text]) => text),
    ...(short.whole === undefined ? [] : [inner(short.whole)]),
    ...(short.counted ? [[inner('count'), inner('thing')].filter(Boolean).join(' × ')] : []),
    ...(short.looks === 'fastener' ? [fastenerText(inner)] : []),
    ...(short.looks === 'span' ? [`${inner('from')} to ${inner('to')}`] : []),
    piecesText(value, inner, short),
  ]
}

function fastenerText(inner: (name: string) => string): string {
  const count = inner('count')
  return [count === '' ? '' : `${count} ×`, inner('size'), inner('grade')].filter(Boolean).join(' ')
}

/** Head, what is known by its look, fixed phrases, then `word value` pairs. */
function piecesText(
  value: { readonly [name: string]: FormValue },
  inner: (name: string) => string,
  short: ShortForm,
): string {
  const left = new Set(Object.keys(value))
  const pieces: string[] = []
  const take = (name: string, text: string): void => {
    left.delete(name)
    pieces.push(text)
  }
  const heads = [short.head, short.first, ...(short.heads ?? []).map(({ gives }) => gives)]
  const head = heads.find((name) => name !== undefined && left.has(name))
  if (head !== undefined) take(head, inner(head))
  for (const { gives, among } of short.pieces ?? []) {
    const text = left.has(gives) ? inner(gives) : ''
    if (text !== '' && (among === undefined || among.includes(text))) take(gives, text)
  }
  for (const [word, name] of Object.entries(short.words ?? {})) if (left.has(name)) take(name, `${word} ${inner(name)}`)
  for (const [phrase, gives] of Object.entries(short.flags ?? {})) {
    const names = Object.entries(gives)
    if (!names.every(([name, text]) => left.has(name) && value[name] === text)) continue
    pieces.push(phrase)
    for (const [name] of names) left.delete(name)
  }
  return left.size > 0 || pieces.some((piece) => piece === '') ? '' : pieces.join(', ')
}
