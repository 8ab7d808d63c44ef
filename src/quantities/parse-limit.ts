import { convertBetween } from './convert.ts'
import {
  type BoundWord,
  boundPattern,
  boundWords,
  hyphenRange,
  type Operator,
  otherBoundWord,
  splitAtOperator,
  splitPair,
} from './limit-words.ts'
import { type NumberWithUnit, plainNumber, readNumberWithUnit, tidyBlanks } from './parse-quantity.ts'
import { readTolerance, type Tolerance } from './parse-tolerance.ts'
import type { Bound, Limit, Parsed, QuantityKind, Rational } from './quantity-types.ts'
import { refused, type Stretch } from './refusal.ts'
import type { Unit } from './unit-table.ts'
import { kindInWords, readUnit } from './units.ts'

/** A limit without what stands around it: `aim`, the pair in parentheses. */
interface Core {
  readonly form: Limit['form']
  readonly lower: Bound | null
  readonly upper: Bound | null
  readonly aim: Rational | null
  readonly aimWritten: string | null
  readonly unit: Unit
}

/** No limit is longer; it keeps every search below quick. */
const MOST_LETTERS = 300

const aimPattern = /(^|,|\s)\s*aim\s+/

/**
 * Reads a limit: `max Q`, `min Q`, `under Q`, `over Q`, `Q to Q`, `Q ± Q`, `Q ± 5 %`, `Q +a/-b`, each with `, aim Q` behind it if wanted;
 * `aim Q` alone, or a bare quantity, has no tolerance. A second value in parentheses at the end is kept as the pair.
 *
 *     0.10 to 0.20 mm (0.004 to 0.008 in)
 *
 * A lower end above the upper one is returned as typed: a check explains it. `asked` is as for `parseQuantity`.
 */
export function parseLimit(text: string, asked?: QuantityKind): Parsed<Limit> {
  if (text.length > MOST_LETTERS)
    return refused('This is too long for a limit.', 'Type one limit, such as `10 to 12 mm`.', 0, text.length)
  const { main, pair: pairStretch } = splitPair(text)
  const limit = readLimit(text, main, asked)
  if (!limit.ok || !pairStretch) return limit
  const pair = readLimit(text, pairStretch, undefined)
  if (!pair.ok) return pair
  if (pair.value.kind !== limit.value.kind)
    return refused(
      `"${text.slice(pairStretch.from, pairStretch.to)}" is ${kindInWords(pair.value.kind)}, the value before it ${kindInWords(limit.value.kind)}.`,
      'Type the same limit in the other unit between the parentheses, or leave them out.',
      pairStretch.from,
      pairStretch.to,
    )
  return { ok: true, value: { ...limit.value, typed: tidyBlanks(text), pair: pair.value } }
}

function readLimit(text: string, stretch: Stretch, asked: QuantityKind | undefined): Parsed<Limit> {
  const within = text.slice(stretch.from, stretch.to)
  const aim = within.includes('aim') ? aimPattern.exec(within) : null
  const coreEnd = aim ? stretch.from + aim.index : stretch.to
  const aimFrom = aim ? stretch.from + aim.index + aim[0].length : stretch.to
  if (aim && within.slice(0, aim.index).trim() === '') return readLoneAim(text, stretch, aimFrom, asked)
  const core = readCore(text, { from: stretch.from, to: coreEnd }, asked)
  if (!core.ok) return core
  if (!aim) return { ok: true, value: asLimit(within, core.value) }
  const value = readAim(text, { from: aimFrom, to: stretch.to }, core.value.unit)
  if (!value.ok) return value
  if (core.value.form === 'nominal')
    return refused(
      'A value without a tolerance cannot have an aim beside it.',
      'Type a limit before the aim, such as `10 to 12 mm, aim 11 mm`.',
      stretch.from,
      stretch.to,
    )
  return {
    ok: true,
    value: asLimit(within, { ...core.value, aim: value.value.value, aimWritten: value.value.written }),
  }
}

function readLoneAim(text: string, stretch: Stretch, from: number, asked: QuantityKind | undefined): Parsed<Limit> {
  const core = readCore(text, { from, to: stretch.to }, asked)
  if (!core.ok) return core
  if (core.value.form !== 'nominal')
    return refused(
      'An aim is one value.',
      'Type the limit first and the aim behind it: `10 to 12 mm, aim 11 mm`.',
      from,
      stretch.to,
    )
  return { ok: true, value: asLimit(text.slice(stretch.from, stretch.to), core.value) }
}

function readAim(
  text: string,
  stretch: Stretch,
  unit: Unit,
): Parsed<{ readonly value: Rational; readonly written: string }> {
  const read = readNumberWithUnit(text, stretch.from, stretch.to, unit.kind)
  if (!read.ok) return read
  const value = inUnit(read.value, unit)
  return {
    ok: true,
    value: { value, written: read.value.unit === null || read.value.unit === unit ? read.value.number.written : '' },
  }
}

function readCore(text: string, stretch: Stretch, asked: QuantityKind | undefined): Parsed<Core> {
  const from =
    stretch.from +
    (text.slice(stretch.from, stretch.to).length - text.slice(stretch.from, stretch.to).trimStart().length)
  const within = text.slice(0, stretch.to)
  boundPattern.lastIndex = from
  const word = boundPattern.exec(within)
  if (word) return readBound(text, { from: boundPattern.lastIndex, to: stretch.to }, word[1] as BoundWord, asked)
  const other = otherBoundWord(within, from)
  if (other) return other
  return readNumbers(text, { from, to: stretch.to }, asked)
}

function readBound(text: string, stretch: Stretch, word: BoundWord, asked: QuantityKind | undefined): Parsed<Core> {
  const parts = splitAtOperator(text, stretch)
  if (parts.operator) {
    const { from, to } = parts.operator
    return refused(
      `"${word}" is for one value, but "${text.slice(from, to).trim()}" says there are two.`,
      'Type either `max 5 mm` or `4 to 5 mm`.',
      from,
      to,
    )
  }
  const read = readNumberWithUnit(text, stretch.from, stretch.to, asked)
  if (!read.ok) return read
  const unit = unitOf([read.value.unit], asked, read.value)
  if (!unit.ok) return unit
  const bound = {
    value: read.value.number.value,
    inclusive: word === 'max' || word === 'min',
    written: read.value.number.written,
  }
  const side = boundWords[word]
  return {
    ok: true,
    value: {
      form: word,
      lower: side === 'lower' ? bound : null,
      upper: side === 'upper' ? bound : null,
      aim: null,
      aimWritten: null,
      unit: unit.value,
    },
  }
}

/** One number, two joined by `to`, or one with a tolerance. */
function readNumbers(text: string, stretch: Stretch, asked: QuantityKind | undefined): Parsed<Core> {
  const { before, operator, after } = splitAtOperator(text, stretch)
  const hyphen = operator?.sign === 'to' || operator?.sign === '±' ? null : hyphenRange(text, stretch)
  if (hyphen) return hyphen
  const first = readNumberWithUnit(text, before.from, before.to, asked)
  if (!first.ok) return first
  if (!operator || !after) {
    const unit = unitOf([first.value.unit], asked, first.value)
    if (!unit.ok) return unit
    const { value, written } = first.value.number
    return {
      ok: true,
      value: { form: 'nominal', lower: null, upper: null, aim: value, aimWritten: written, unit: unit.value },
    }
  }
  if (operator.sign === 'to') return readRange(text, first.value, after, asked)
  return readWithTolerance(text, first.value, operator, after, asked)
}

function readRange(text: string, first: NumberWithUnit, after: Stretch, asked: QuantityKind | undefined): Parsed<Core> {
  const second = readNumberWithUnit(text, after.from, after.to, first.unit?.kind ?? asked)
  if (!second.ok) return second
  const unit = unitOf([first.unit, second.value.unit], asked, { from: first.from, to: second.value.to })
  if (!unit.ok) return unit
  const end = (typed: NumberWithUnit): Bound => ({
    value: inUnit(typed, unit.value),
    inclusive: true,
    ...(typed.unit === null || typed.unit === unit.value ? { written: typed.number.written } : {}),
  })
  return {
    ok: true,
    value: {
      form: 'range',
      lower: end(first),
      upper: end(second.value),
      aim: null,
      aimWritten: null,
      unit: unit.value,
    },
  }
}

function readWithTolerance(
  text: string,
  nominal: NumberWithUnit,
  operator: Operator,
  after: Stretch,
  asked: QuantityKind | undefined,
): Parsed<Core> {
  const tolerance: Parsed<Tolerance> = readTolerance(text, { ...operator, after }, nominal)
  if (!tolerance.ok) return tolerance
  const unit = unitOf([nominal.unit, tolerance.value.sharedUnit], asked, nominal)
  if (!unit.ok) return unit
  const { form, lower, upper } = tolerance.value
  return {
    ok: true,
    value: { form, lower, upper, aim: nominal.number.value, aimWritten: nominal.number.written, unit: unit.value },
  }
}

/** The unit of the limit: the first one typed, else the plain number. */
function unitOf(typed: readonly (Unit | null)[], asked: QuantityKind | undefined, at: Stretch): Parsed<Unit> {
  const unit = typed.find((candidate) => candidate !== null) ?? plainNumber()
  if (asked === undefined || unit.kind === asked) return { ok: true, value: unit }
  // `5 ± 1 °C` where a difference is asked for: the shared spelling has a unit of that kind too.
  const read = readUnit(unit.symbol, asked)
  return read.ok
    ? { ok: true, value: read.unit }
    : { ok: false, problem: { ...read.problem, from: at.from, to: at.to } }
}

function inUnit(typed: NumberWithUnit, unit: Unit): Rational {
  return convertBetween(typed.number.value, typed.unit ?? unit, unit)
}

function asLimit(typed: string, core: Core): Limit {
  return {
    typed: tidyBlanks(typed),
    form: core.form,
    lower: core.lower,
    upper: core.upper,
    aim: core.aim,
    ...(core.aimWritten ? { aimWritten: core.aimWritten } : {}),
    unit: core.unit.symbol,
    ucum: core.unit.ucum,
    kind: core.unit.kind,
    pair: null,
  }
}
