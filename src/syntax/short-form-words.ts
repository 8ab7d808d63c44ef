import { type Finding, found } from '../findings/finding.ts'
import { nearestName } from '../text/nearest-name.ts'
import type { Place } from '../text/place.ts'
import type { MapEntry, MapNode, ScalarNode } from './block-node.ts'
import type { LocatedSchema, ShortForm } from './fit-block-schema.ts'
import { emptyValue, repeatedWord, unknownWord } from './schema-faults.ts'
import { hasLook, isOtherBound, limitWords } from './short-form-looks.ts'
import { atCommas, impliedScalar, type Piece, placeOf, scalarOf, trimmed } from './short-form-pieces.ts'

type Reading =
  | { readonly kind: 'entries'; readonly entries: readonly MapEntry[] }
  | { readonly kind: 'empty'; readonly word: string }
  | { readonly kind: 'unknown' }

/** Reads a text of pieces parted by commas: a head, then `word value` pairs, fixed phrases and what is known by its look. */
export function readPieces(
  node: ScalarNode,
  whole: Piece,
  schema: LocatedSchema,
  short: ShortForm,
  report: (finding: Finding, partOf: Place) => void,
): MapNode {
  const entries: MapEntry[] = []
  withAims(atCommas(whole), whole).forEach((piece, index) => {
    const reading = readPiece(node, piece, short, index === 0)
    if (reading.kind === 'unknown') report(unknown(node, piece, schema, short), node.at)
    if (reading.kind === 'empty') report(withoutValue(node, piece, reading.word), node.at)
    if (reading.kind !== 'entries') return
    for (const entry of reading.entries) {
      const before = entries.find((other) => other.key === entry.key)
      if (before === undefined) entries.push(entry)
      else report(repeated(entry, before, node), node.at)
    }
  })
  return { kind: 'map', at: node.at, entries }
}

/** `10 to 12 mm, aim 11 mm` is one limit. */
function withAims(pieces: readonly Piece[], whole: Piece): readonly Piece[] {
  const joined: Piece[] = []
  for (const piece of pieces) {
    const before = joined.at(-1)
    if (before === undefined || !/^aim\s/.test(piece.text) || !hasLook('limit', before.text)) {
      joined.push(piece)
      continue
    }
    const end = piece.from + piece.text.length - whole.from
    joined[joined.length - 1] = { text: whole.text.slice(before.from - whole.from, end), from: before.from }
  }
  return joined
}

function readPiece(node: ScalarNode, piece: Piece, short: ShortForm, isFirst: boolean): Reading {
  if (isFirst && short.first !== undefined) return entry(node, short.first, piece, piece)
  if (piece.text === '') return { kind: 'empty', word: '' }
  return (
    readFlag(node, piece, short) ??
    readWord(node, piece, short) ??
    readLooks(node, piece, short, isFirst) ?? { kind: 'unknown' }
  )
}

function readFlag(node: ScalarNode, piece: Piece, short: ShortForm): Reading | null {
  const phrase = piece.text.replace(/\s+/g, ' ')
  const flag = short.flags !== undefined && Object.hasOwn(short.flags, phrase) ? short.flags[phrase] : undefined
  if (flag === undefined) return null
  const at = placeOf(node, piece)
  const entries = Object.entries(flag).map(([key, text]) => ({ key, keyAt: at, value: impliedScalar(text, at) }))
  return { kind: 'entries', entries }
}

function readWord(node: ScalarNode, piece: Piece, short: ShortForm): Reading | null {
  if (isOtherBound(piece.text)) return null
  // The longest first: `added to` before `added`.
  const words = Object.keys(short.words ?? {}).sort((a, b) => b.length - a.length)
  for (const word of words) {
    if (piece.text === word) return { kind: 'empty', word }
    if (!piece.text.startsWith(word) || !/\s/.test(piece.text[word.length] ?? '')) continue
    const value = trimmed({ text: piece.text.slice(word.length), from: piece.from + word.length })
    return entry(node, short.words?.[word] ?? word, { text: word, from: piece.from }, value)
  }
  return null
}

function readLooks(node: ScalarNode, piece: Piece, short: ShortForm, isFirst: boolean): Reading | null {
  if (isFirst) {
    const head = short.heads?.find(({ looks }) => hasLook(looks, piece.text))?.gives ?? short.head
    if (head !== undefined && !isKnownAlone(piece.text, short)) return entry(node, head, piece, piece)
  }
  const known = short.pieces?.find(
    ({ looks, among }) => (looks !== undefined && hasLook(looks, piece.text)) || among?.includes(piece.text),
  )
  return known === undefined ? null : entry(node, known.gives, piece, piece)
}

/** A first piece that is known by itself is no head: `4 × M20 8.8, dry`. */
function isKnownAlone(text: string, short: ShortForm): boolean {
  return (
    short.pieces?.some(({ looks, among }) => among?.includes(text) || (looks === 'fastener' && hasLook(looks, text))) ??
    false
  )
}

function entry(node: ScalarNode, key: string, keyPiece: Piece, value: Piece): Reading {
  return { kind: 'entries', entries: [{ key, keyAt: placeOf(node, keyPiece), value: scalarOf(node, value) }] }
}

function unknown(node: ScalarNode, piece: Piece, schema: LocatedSchema, short: ShortForm): Finding {
  const words = Object.keys(short.words ?? {})
  const phrases = [...Object.keys(short.flags ?? {}), ...(short.pieces ?? []).flatMap(({ among }) => among ?? [])]
  const [firstWord = ''] = piece.text.split(/\s/)
  const near = nearestName(piece.text, [...phrases, ...words])
  const nearWord = near ?? nearestName(firstWord, [...words, ...limitWords])
  const takesBareList = words.join(', ') + (phrases.length > 0 ? `, ${phrases.join(', ')}` : '')
  const wants = schema.schema.wants === undefined ? '' : ` It wants ${schema.schema.wants}.`
  return found(unknownWord, {
    at: placeOf(node, piece),
    message: `\`${piece.text}\` says nothing that is known here.`,
    advice:
      nearWord !== null ? `Did you mean \`${nearWord}\`?` : `After a comma there can stand: ${takesBareList}.${wants}`,
  })
}

function withoutValue(node: ScalarNode, piece: Piece, word: string): Finding {
  if (word === '')
    return found(emptyValue, {
      at: piece.from > 0 ? placeOf(node, { text: ',', from: node.text.lastIndexOf(',', piece.from - 1) }) : node.at,
      message: 'Nothing stands between this comma and the next, or after it.',
      advice: 'Take the comma out, or type what is missing.',
    })
  return found(emptyValue, {
    at: placeOf(node, piece),
    message: `\`${word}\` has no value.`,
    advice: `Type it after the word: \`${word} …\`, or take the word out.`,
  })
}

function repeated(entry: MapEntry, before: MapEntry, node: ScalarNode): Finding {
  return found(repeatedWord, {
    at: entry.value.at,
    message: `\`${entry.key}\` is said twice in \`${node.text}\`.`,
    advice: 'Take one of the two out.',
    related: [{ at: before.value.at, message: `\`${entry.key}\` stands here already.` }],
  })
}
