import { convertBetween, convertToRound } from './convert.ts'
import { counterpartUnit } from './counterpart.ts'
import { type Ends, type RoundedEnds, roundInward } from './inward.ts'
import { marksIn, roundToMarks } from './inward-to-marks.ts'
import { exactNumberText, withUnit } from './number-text.ts'
import type {
  Bound,
  Limit,
  LimitInUnit,
  PrintedBound,
  PrintedLimit,
  PrintedQuantity,
  Quantity,
  QuantityKind,
  Rational,
} from './quantity-types.ts'
import { compare, toExactText } from './rational.ts'
import { nearestText } from './round-sensibly.ts'
import type { Unit } from './unit-table.ts'
import { unitBySymbol } from './units.ts'

export interface PrintOptions {
  /** Which families to print, the first one first. */
  readonly systems: readonly ('metric' | 'inch')[]
  /** The finest mark of the instrument that reads it. */
  readonly resolution?: { readonly value: Rational; readonly unit: string }
}

type Round = (ends: Ends, kind: QuantityKind, target: Unit) => RoundedEnds | null

/** The words of one limit in one unit: `max 9.5 mm`, and without the leading word for the parentheses behind another unit. */
interface Wording {
  readonly text: string
  readonly behind: string
  /** The ends that the text says; left out where it has none, or says the exact ones for want of rounded ones. */
  readonly ends?: Ends
}

/**
 * The limit in every unit asked for. The typed unit prints as typed, ± as a range; the other goes inward (`inward.ts`).
 *
 *     250 N·m ± 5 %   →   238 to 262 N·m (176 to 193 lbf·ft), the 250 N·m kept as aim
 *
 * A unit of neither family prints once. Where no inward value is left in the family asked for (equal ends), the typed unit prints.
 */
export function printLimit(limit: Limit, options: PrintOptions): PrintedLimit {
  const unit = knownUnit(limit.unit)
  const round = roundFor(options)
  const wordings = inSystems(unit, sizesOf(limit), options.systems, (target) => wordLimit(limit, unit, target, round))
  const isBare = limit.form === 'nominal'
  const aim = limit.aim && !isBare ? printAim(limit, limit.aim, unit, wordings, options) : null
  return {
    typed: limit.typed,
    text: joined(wordings),
    kind: limit.kind,
    form: limit.form,
    lower: printedBound(limit.lower),
    upper: printedBound(limit.upper),
    aim: limit.aim && toExactText(limit.aim),
    ...(aim === null ? {} : { aimText: aim }),
    unit: limit.unit,
    ucum: limit.ucum,
    inUnits: wordings.map(({ target, wording }) => ({
      system: target.system,
      unit: target.symbol,
      text: wording.text,
    })),
    pair: limit.pair?.typed ?? null,
  }
}

/** A value without tolerance, in every unit asked for: rounded to sensible digits, not inward. */
export function printQuantity(quantity: Quantity, systems: readonly ('metric' | 'inch')[]): PrintedQuantity {
  const unit = knownUnit(quantity.unit)
  const wordings = inSystems(unit, [quantity.value], systems, (target) =>
    nominalWording(quantity.value, quantity.written, unit, target),
  )
  const inUnits = wordings.map(
    ({ target, wording }): LimitInUnit => ({ system: target.system, unit: target.symbol, text: wording.text }),
  )
  return { text: joined(wordings), inUnits }
}

/** The ends of a limit in one unit of its kind, inward: `max 9.5 mm`; null where there are none, or nothing inward is left. */
export function limitTextIn(limit: Limit, target: Unit): string | null {
  return wordEnds(limit, knownUnit(limit.unit), target, roundFreely)?.text ?? null
}

/**
 * A limit, or a quantity read as one, in one unit of its kind as `printLimit` words it there, its aim behind it:
 * `176 to 193 lbf·ft, aim 184 lbf·ft`. Null where nothing inward is left between the ends.
 */
export function textInUnit(limit: Limit, target: Unit): string | null {
  const unit = knownUnit(limit.unit)
  const wording = wordLimit(limit, unit, target, roundFreely)
  if (!wording || limit.form === 'nominal' || !limit.aim) return wording?.text ?? null
  return `${wording.text}, aim ${wordAim(limit, limit.aim, unit, target, wording.ends).text}`
}

const roundFreely: Round = (ends, kind, target) => roundInward(ends, kind, target.symbol)

function roundFor({ resolution }: PrintOptions): Round {
  if (!resolution) return roundFreely
  return (ends, kind, target) => {
    const marks = marksIn(target, resolution)
    return marks ? roundToMarks(ends, kind, target.symbol, marks) : roundFreely(ends, kind, target)
  }
}

interface InUnit {
  readonly target: Unit
  readonly wording: Wording
}

/** One wording a system, in order; units of neither family, and what cannot be said in any asked system, as typed. */
function inSystems(
  unit: Unit,
  sizes: readonly Rational[],
  systems: readonly ('metric' | 'inch')[],
  word: (target: Unit) => Wording | null,
): readonly InUnit[] {
  const targets =
    unit.system === 'both'
      ? [unit]
      : systems.map((system) => (system === unit.system ? unit : counterpartUnit(unit, sizes)))
  const said: InUnit[] = []
  for (const target of targets) {
    if (!target || said.some((other) => other.target === target)) continue
    const wording = word(target)
    if (wording) said.push({ target, wording })
  }
  if (said.length > 0) return said
  const wording = word(unit)
  return wording ? [{ target: unit, wording }] : []
}

function joined(wordings: readonly InUnit[]): string {
  const [first, ...others] = wordings
  if (!first) return ''
  return others.length === 0
    ? first.wording.text
    : `${first.wording.text} (${others.map(({ wording }) => wording.behind).join('; ')})`
}

function wordLimit(limit: Limit, unit: Unit, target: Unit, round: Round): Wording | null {
  if (limit.form === 'nominal') {
    if (!limit.aim) return null
    const wording = nominalWording(limit.aim, limit.aimWritten, unit, target)
    return /^aim\s/.test(limit.typed) ? { text: `aim ${wording.text}`, behind: wording.behind } : wording
  }
  return wordEnds(limit, unit, target, round)
}

function wordEnds(limit: Limit, unit: Unit, target: Unit, round: Round): Wording | null {
  const ends = endsIn(limit, unit, target)
  if (target === unit && isWritten(limit))
    return worded(limit, limit.lower?.written ?? null, limit.upper?.written ?? null, unit, ends)
  const rounded = round(ends, limit.kind, target)
  if (rounded) return worded(limit, rounded.lowerText, rounded.upperText, target, rounded)
  if (target !== unit) return null
  const exact = (bound: Bound | null) => bound && exactNumberText(bound.value)
  return worded(limit, exact(limit.lower), exact(limit.upper), unit)
}

function worded(limit: Limit, lower: string | null, upper: string | null, unit: Unit, ends?: Ends): Wording | null {
  const said = ends && { ends }
  if (lower !== null && upper !== null) {
    const text = lower === upper ? `exactly ${withUnit(lower, unit)}` : `${lower} to ${withUnit(upper, unit)}`
    return { text, behind: lower === upper ? withUnit(lower, unit) : text, ...said }
  }
  const number = lower ?? upper
  if (number === null) return null
  const word = lower === null ? (limit.upper?.inclusive ? 'max' : 'under') : limit.lower?.inclusive ? 'min' : 'over'
  return { text: `${word} ${withUnit(number, unit)}`, behind: withUnit(number, unit), ...said }
}

function nominalWording(
  value: Rational,
  written: string | undefined,
  unit: Unit,
  target: Unit,
  isAllowed?: (rounded: Rational) => boolean,
): Wording {
  const isAsTyped = target === unit && written !== undefined
  const number = isAsTyped
    ? written
    : nearestText(convertBetween(value, unit, target), value, written, target, isAllowed)
  const text = withUnit(number, target)
  return { text, behind: text }
}

function printAim(limit: Limit, aim: Rational, unit: Unit, wordings: readonly InUnit[], options: PrintOptions): string {
  const sayIn = (target: Unit) =>
    wordAim(limit, aim, unit, target, wordings.find((said) => said.target === target)?.wording.ends)
  return joined(inSystems(unit, sizesOf(limit), options.systems, sayIn))
}

/** The aim never rounds to where it would be out of the limit that is printed. */
function wordAim(limit: Limit, aim: Rational, unit: Unit, target: Unit, ends: Ends | undefined): Wording {
  const converted = convertBetween(aim, unit, target)
  const isWithin = (value: Rational) =>
    (!ends?.lower || compare(ends.lower, value) <= 0) && (!ends?.upper || compare(value, ends.upper) <= 0)
  return nominalWording(aim, limit.aimWritten, unit, target, isWithin(converted) ? isWithin : undefined)
}

/** Not in lowest terms: only to be rounded and compared. */
function endsIn(limit: Limit, unit: Unit, target: Unit): Ends {
  const convert = (bound: Bound | null) => bound && convertToRound(bound.value, unit, target)
  return { lower: convert(limit.lower), upper: convert(limit.upper) }
}

/** Whether the author's own digits can be printed; ends worked out from a percentage have none. */
function isWritten(limit: Limit): boolean {
  return (!limit.lower || limit.lower.written !== undefined) && (!limit.upper || limit.upper.written !== undefined)
}

function sizesOf(limit: Limit): readonly Rational[] {
  return [limit.lower?.value, limit.upper?.value, limit.aim].filter(
    (value): value is Rational => value !== undefined && value !== null,
  )
}

function printedBound(bound: Bound | null): PrintedBound | null {
  return bound && { exact: toExactText(bound.value), inclusive: bound.inclusive }
}

function knownUnit(symbol: string): Unit {
  const unit = unitBySymbol(symbol)
  if (!unit) throw new Error(`no unit "${symbol}": limits and quantities come from the parser`)
  return unit
}
