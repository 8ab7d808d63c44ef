import {
  blockKeys,
  itemSchema,
  type LocatedSchema,
  propertySchema,
  type ShortForm,
} from '../../syntax/fit-block-schema.ts'
import { blocksOf, visitBlock } from '../blocks.ts'
import type { OpenText } from '../open-text.ts'
import * as names from './offer-names.ts'
import { offerUnits, startOfUnit } from './offer-units.ts'
import type { Offer } from './suggestion.ts'

/** What is offered, and how many letters before the cursor it replaces. */
export interface Offered {
  readonly offers: readonly Offer[]
  readonly replaces: number
}

/** A value that is being typed. */
export interface TypedValue {
  readonly open: OpenText
  readonly schema: LocatedSchema
  /** Keys above it, without items of lists. */
  readonly path: readonly string[]
  readonly typed: string
  /** Text of the entries beside it, where one decides what is meant: the fragment of an `include`. */
  readonly beside: Readonly<Record<string, string>>
  /** A comma ends the value here: short forms with several pieces cannot stand. */
  readonly isInline: boolean
}

const nothing: Offered = { offers: [], replaces: 0 }

export function offerValue(value: TypedValue): Offered {
  const { schema, typed } = value
  switch (schema.schema.type) {
    case 'array':
      return offerItem(value)
    case 'object':
      return offerShort(value)
    default: {
      const choices = schema.schema.enum
      if (choices !== undefined)
        return { offers: choices.map((label) => ({ label, kind: 'choice' })), replaces: typed.length }
      return offerHeld(value)
    }
  }
}

/** An item of a list that is written on one line: only its last word is being typed. */
function offerItem(value: TypedValue): Offered {
  const items = itemSchema(value.schema)
  if (items === null) return nothing
  const last = /[^\s,[\]]*$/.exec(value.typed)?.[0] ?? ''
  const isNames = items.schema.type !== 'object' && items.schema.holds !== 'sentence'
  return offerValue({ ...value, schema: items, typed: isNames ? last : value.typed })
}

function offerShort(value: TypedValue): Offered {
  const { schema, typed, open } = value
  const { short, keysDefine } = schema.schema
  if (short === undefined) return nothing
  const exact: Offer[] = Object.keys(short.exact ?? {}).map((label) => ({ label, kind: 'choice' }))
  if (short.counted) return offerCounted(value)
  if (short.list === 'names' || (short.whole === undefined && keysDefine === 'role'))
    return { offers: [...exact, ...offerFromLibrary(open, value.path[0] ?? '')], replaces: lastWord(typed) }
  if (short.whole !== undefined) {
    const inner = propertySchema(schema, short.whole)
    const offered = inner === null ? nothing : offerValue({ ...value, schema: inner })
    return { offers: [...exact, ...offered.offers], replaces: exact.length > 0 ? typed.length : offered.replaces }
  }
  return offerPiece(value, short)
}

const lastWord = (typed: string): number => /[^\s,[\]]*$/.exec(typed)?.[0].length ?? 0

function offerCounted({ open, path, typed }: TypedValue): Offered {
  const thing = typed.replace(/^.*[×x*]\s*/u, '')
  const key = path[0] ?? ''
  const offers = key === 'uses' ? names.offerResources(open) : names.offerThings(open, key)
  return { offers, replaces: lastWord(thing) }
}

/** What a list of the document may take from `shared/`. */
export function offerFromLibrary(open: OpenText, key: string): readonly Offer[] {
  const { tools, instruments, gear, ppe, hazards, roles } = open.library.catalogues
  switch (key) {
    case 'tools':
      return [...names.fromCatalogue(tools, 'resource'), ...names.fromCatalogue(instruments, 'resource')]
    case 'gear':
      return names.fromCatalogue(gear, 'resource')
    case 'ppe':
      return names.fromCatalogue(ppe, 'resource')
    case 'hazards':
      return [...names.offerDefined(open, 'hazard', 'hazard'), ...names.fromCatalogue(hazards, 'hazard')]
    case 'roles':
      return [...names.fromCatalogue(roles, 'role'), ...names.offerRoles(open)]
    default:
      return []
  }
}

/** One piece of a short form: a head, then `word value` pairs, fixed phrases and what is known by its look. */
function offerPiece(value: TypedValue, short: ShortForm): Offered {
  const { schema, typed, isInline } = value
  const comma = isInline ? -1 : lastComma(typed)
  const piece = typed.slice(comma + 1).trimStart()
  const isFirst = comma < 0
  const words = Object.keys(short.words ?? {}).sort((a, b) => b.length - a.length)
  const word = words.find((candidate) => piece.startsWith(`${candidate} `))
  if (word !== undefined) {
    const inner = propertySchema(schema, short.words?.[word] ?? word)
    if (inner === null) return nothing
    return offerValue({ ...value, schema: inner, typed: piece.slice(word.length).trimStart(), isInline: true })
  }
  if (isFirst) return offerHead(value, short, piece)
  const unit = startOfUnit(piece)
  if (unit !== null) return { offers: offerUnits(value.path), replaces: piece.length - unit }
  const used = new Set(
    typed
      .slice(0, comma + 1)
      .split(', ')
      .map((part) => words.find((candidate) => part.trim().startsWith(`${candidate} `))),
  )
  const offers: Offer[] = [
    ...words.filter((candidate) => !used.has(candidate)).map((label) => wordOffer(schema, short, label)),
    ...Object.keys(short.flags ?? {}).map((label) => ({ label, kind: 'word' as const })),
    ...(short.pieces ?? []).flatMap(({ among, gives }) =>
      (among ?? []).map((label) => ({ label, kind: 'choice' as const, detail: gives })),
    ),
  ]
  return { offers, replaces: piece.length }
}

function wordOffer(schema: LocatedSchema, short: ShortForm, label: string): Offer {
  const inner = propertySchema(schema, short.words?.[label] ?? label)
  return {
    label,
    kind: 'word',
    detail: inner?.schema.wants ?? '',
    documentation: inner?.schema.description ?? '',
    insert: `${label} `,
  }
}

/** The last comma that a blank follows, outside brackets; -1 where there is none. */
function lastComma(typed: string): number {
  let depth = 0
  let last = -1
  for (let index = 0; index < typed.length; index++) {
    const letter = typed[index] ?? ''
    if ('([{'.includes(letter)) depth++
    if (')]}'.includes(letter)) depth--
    if (letter === ',' && depth <= 0 && /\s|$/.test(typed[index + 1] ?? ' ')) last = index
  }
  return last
}

function offerHead(value: TypedValue, short: ShortForm, piece: string): Offered {
  const heads = short.heads ?? []
  const unit = startOfUnit(piece)
  if (unit !== null) return { offers: offerUnits(value.path), replaces: piece.length - unit }
  const offers: Offer[] = []
  if (heads.some(({ looks }) => looks === 'limit')) offers.push(...offerLimitWords(piece))
  if (heads.some(({ looks }) => looks === 'unit') && !/\s/.test(piece)) offers.push(...offerUnits(value.path))
  if (offers.length > 0) return { offers, replaces: lastWord(piece) }
  const name = short.head ?? short.first
  const inner = name === undefined ? null : propertySchema(value.schema, name)
  if (inner !== null) return offerValue({ ...value, schema: inner, typed: piece })
  // Without a head, `word value` pairs may come first: `least 15 min, likely 20 min`.
  const words = Object.keys(short.words ?? {}).map((label) => wordOffer(value.schema, short, label))
  return { offers: words, replaces: piece.length }
}

const limitWords: readonly (readonly [label: string, detail: string])[] = [
  ['max', 'this much at most'],
  ['min', 'this much at least'],
  ['under', 'less than this'],
  ['over', 'more than this'],
]

function offerLimitWords(typed: string): readonly Offer[] {
  if (/\d\S*\s+\S/.test(typed)) return ['to', '±', 'aim'].map((label) => ({ label, kind: 'word', insert: `${label} ` }))
  return limitWords.map(([label, detail]) => ({ label, kind: 'word', detail, insert: `${label} ` }))
}

/** By what a text stands for. */
function offerHeld({ open, schema, path, typed }: TypedValue): Offered {
  const holds = schema.schema.holds ?? ''
  const whole = (offers: readonly Offer[]): Offered => ({ offers, replaces: typed.length })
  const last = (offers: readonly Offer[]): Offered => ({ offers, replaces: lastWord(typed) })
  const words = (...labels: readonly string[]): readonly Offer[] => labels.map((label) => ({ label, kind: 'word' }))
  switch (holds) {
    case 'step':
    case 'phase':
      return whole(names.offerSteps(open))
    case 'step-span':
      return last([...words('this'), ...names.offerSteps(open)])
    case 'target':
      return whole([...words('continue', 'stop'), ...names.offerSteps(open)])
    case 'reading':
      return last(names.offerDefined(open, 'reading', 'reading'))
    case 'state':
      return whole(names.offerStates(open))
    case 'state-value':
      return last([
        ...names.offerValues(open, stateOf(path)),
        ...(path[0] === 'states' && path.at(-1) === 'start' ? words('unknown') : []),
      ])
    case 'zone':
      return last([...words('out'), ...names.offerDefined(open, 'zone', 'zone')])
    case 'role':
      return last(names.offerRoles(open))
    case 'prover':
      return last([...names.offerRoles(open), ...words('reading', 'test')])
    case 'resource':
      return last(names.offerResources(open))
    case 'ppe':
      return last(offerFromLibrary(open, 'ppe'))
    case 'table':
      return whole(names.offerDefined(open, 'table', 'table'))
    case 'variant':
      return whole(names.offerDefined(open, 'variant', 'variant'))
    case 'variant-value':
      return last(names.offerDefined(open, 'variant-value', 'value'))
    case 'position':
      return last(offerPositions(open))
    case 'fastener':
      return whole(names.fromCatalogue(open.library.catalogues.fasteners, 'resource'))
    case 'permit':
      return whole(names.offerDefined(open, 'permit', 'thing'))
    case 'machine':
      return whole(names.offerFiles(open, 'machines'))
    case 'fragment':
      return whole(names.offerFiles(open, 'fragments'))
    case 'finding':
      return whole(names.offerFindings())
    case 'energy':
      return whole(energies.map((label) => ({ label, kind: 'choice' })))
    case 'expression':
      return { offers: names.offerFormula(open), replaces: /[\p{L}\p{N}_.-]*$/u.exec(typed)?.[0].length ?? 0 }
    case 'lubrication':
    case 'finish':
      return whole(amongOf(holds).map((label) => ({ label, kind: 'choice' })))
    case 'unit':
      return whole(offerUnits(path))
    case 'limit':
    case 'quantity':
    case 'amount':
    case 'angle':
      return offerFigure(holds, path, typed)
    default:
      return nothing
  }
}

function offerFigure(holds: string, path: readonly string[], typed: string): Offered {
  const unit = startOfUnit(typed)
  if (unit !== null) return { offers: offerUnits(path), replaces: typed.length - unit }
  return holds === 'limit' ? { offers: offerLimitWords(typed), replaces: lastWord(typed) } : nothing
}

/** The state whose values are wanted: the key itself, or the one above `start`, `end`, `safe`, `values`. */
function stateOf(path: readonly string[]): string | null {
  if (path[0] === 'states' && path[2] !== 'held-by') return path[1] ?? null
  return path.at(-1) ?? null
}

/** Kinds of energy as the description of a state lists them. */
const energies = ['electrical', 'hydraulic', 'pneumatic', 'gravity', 'spring', 'thermal', 'chemical', 'motion']

/** The words that a torque knows without a word before them. */
function amongOf(gives: string): readonly string[] {
  const torque = blockKeys.get('torque')?.$defs?.torque
  return torque?.short?.pieces?.find((piece) => piece.gives === gives)?.among ?? []
}

/** Places of readings, states and repeats of this text: `left`, `right`. */
function offerPositions(open: OpenText): readonly Offer[] {
  const found = new Set<string>()
  for (const block of blocksOf(open.written))
    visitBlock(block, {
      key: () => {},
      scalar: ({ scalar, schema }) => {
        if (schema?.schema.holds === 'position') found.add(scalar.text)
      },
    })
  return [...found].map((label) => ({ label, kind: 'value' }))
}
