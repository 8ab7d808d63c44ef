import { toBase } from './convert.ts'
import { parseLimit } from './parse-limit.ts'
import { scanNumber } from './parse-number.ts'
import type { Limit, QuantityKind, Rational } from './quantity-types.ts'
import { absolute, add, compare, fromDecimalText, zero } from './rational.ts'
import { unitInText } from './unit-in-text.ts'
import type { Unit } from './unit-table.ts'
import { unitBySymbol } from './units.ts'

/** A quantity in a sentence: a value, a range or a value with a tolerance, each with a unit. */
export interface QuantityInText {
  /** `typed` is as it stands in the sentence. */
  readonly limit: Limit
  readonly from: number
  readonly to: number
  /** "about", "roughly": the figure is not meant exactly. */
  readonly isApproximate: boolean
}

/** A quantity with its second value, as in `35 lb-ft (47 N·m)` or `100 F / 38 C`. */
export interface PairInText {
  readonly first: QuantityInText
  readonly second: QuantityInText
  readonly from: number
  readonly to: number
}

export interface QuantitiesInText {
  /** In the order of the text; second values of pairs are not among them. */
  readonly quantities: readonly QuantityInText[]
  readonly pairs: readonly PairInText[]
}

interface NumberInText {
  /** As `parseLimit` takes it: no commas. */
  readonly written: string
  readonly value: Rational
  readonly isWhole: boolean
  readonly to: number
}

/** How far back a word that changes the meaning of a number is looked for. */
const LOOK_BACK = 24
const LONGEST_NUMBER = 40

const numberStart = /[\d½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒]|\.\d/g
const numberHead = /^[-+−–]?(?:\.?\d|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒])/
const thousands = /\d{1,3}(?:,\d{3}){1,4}(?:\.\d{1,9})?(?![\d,])/y
const toleranceJoint = /\s*(?:±|\+\s?\/\s?[-−–]|\+-)\s*/y
const rangeJoint = /\s+to\s+|\s*[-–—‐‑]\s*/y
const isAndRange = /^\S{1,20}\s+and\s/
const andJoint = /\s+and\s+/y
const pairOpens = /\.?\s*[([]\s*|\s*[/=]\s*/y
const pairCloses = /\.?\s*[)\]]/y
const secondOpens = /(?:about|approx\.|approximately|max\.?|min\.?|~|≈)\s+/iy
const boundBefore: readonly (readonly [RegExp, 'max' | 'min' | 'under' | 'over'])[] = [
  [
    /(?:\bmax(?:imum)?\.?(?: of)?|\bat most|\bno(?:t)? more than|\bnot exceed(?:ing)?|\bnot above|\bup to|≤)\s*:?\s*$/i,
    'max',
  ],
  [/(?:\bmin(?:imum)?\.?(?: of)?|\bat least|\bno(?:t)? less than|\bnot below|≥)\s*:?\s*$/i, 'min'],
  [/(?:\bless than|\bbelow|\bunder|<)\s*$/i, 'under'],
  [/(?:\bmore than|\babove|\bover|\bexceeds?|>)\s*$/i, 'over'],
]
const approximateBefore = /(?:\babout|\bapprox\.?|\bapproximately|\broughly|\baround|\bnearly|\bsome|\bca\.?|~|≈)\s*$/i
/** Numbers that name something (`step 3`, `M20`, `KB-3307`, `1:50`, `4 × 12`), those in a row (`30 60 100 %`), and the rest of `6 ft 2 in`. */
const nameBefore =
  /(?:\b(?:steps?|phases?|fig(?:ure)?s?|nos?|number|items?|pages?|p|tables?|rows?|paras?|sections?|chapters?|grade|class|type|model|size|serial|rev|revision|part|hole|place|position|station|bay|pump|unit)\.?\s*|[\p{L}\d_#×@*/\\.,]|[\p{L}\d][-–‐‑]|(?:×|(?<!\p{L})x)\s*|\d\s+|\d\s*:\s*|\d[ ]?(?:ft|feet|foot|lbs?|′|')\.?\s+)$/iu
const digitRun = /[\d.,]+/y
const secondOfTwo = /\.?[ ]?\d[\d/.-]{0,8}[ ]?(?:in|oz|"|″)/y
const timesBehind = /\s*[x×]\s*[\d½¼¾]/y

/** Systems of one kind that the trade prints beside each other though both are metric, or both inch. */
const pairedWithin: ReadonlySet<QuantityKind> = new Set('torque pressure force power energy temperature'.split(' '))
/** Kinds of which one amount is often given for another, with a slash or an equals sign between them. */
const doses: ReadonlySet<QuantityKind> = new Set('length mass volume'.split(' '))
/** Kinds that are taken for one another: `foot-pounds` beside joules, `lb` beside newton metres, `psi` beside newton metres. */
const confused: ReadonlySet<string> = new Set(
  ['torque energy', 'torque pressure', 'torque mass', 'mass pressure'].flatMap((two) => [
    two,
    two.split(' ').reverse().join(' '),
  ]),
)

/**
 * Every number with a unit in a sentence. Size designations (`M20`, `1/2-13`), part numbers, dates, step numbers, counts and
 * lists of shares are not quantities. Goes through the text once.
 */
export function quantitiesIn(text: string): QuantitiesInText {
  const quantities: QuantityInText[] = []
  const pairs: PairInText[] = []
  numberStart.lastIndex = 0
  for (let start = numberStart.exec(text); start; start = numberStart.exec(text)) {
    const at = start.index
    const found = quantityAt(text, at)
    const to = found?.to ?? matches(digitRun, text, at)?.to ?? at + 1
    numberStart.lastIndex = Math.max(to, at + 1)
    if (!found) continue
    quantities.push(found)
    const pair = pairBehind(text, found)
    if (!pair) continue
    pairs.push(pair)
    numberStart.lastIndex = pair.to
  }
  return { quantities, pairs }
}

function quantityAt(text: string, at: number): QuantityInText | null {
  const before = text.slice(Math.max(0, at - LOOK_BACK), at)
  const sign = /(?:^|[\s(])[-−–]$/.test(before) ? 1 : 0
  const lead = before.slice(0, before.length - sign)
  if (nameBefore.test(lead)) return null
  const found = readQuantity(text, at - sign, lead)
  return found && isFirstOfTwo(text, found) ? null : found
}

/** `6 ft 2 in`, `5 lb 4 oz`: two units that make one value, which is not read. */
function isFirstOfTwo(text: string, { limit, to }: QuantityInText): boolean {
  return (limit.unit === 'ft' || limit.unit === 'lb') && matches(secondOfTwo, text, to) !== null
}

/** The number at `at`, what joins a second one to it, and the unit. */
function readQuantity(text: string, at: number, lead: string, asked?: QuantityKind): QuantityInText | null {
  const number = numberAt(text, at)
  if (!number || matches(timesBehind, text, number.to)) return null
  const own = unitInText(text, number.to, number.isWhole, asked)
  const joined = withTolerance(text, number, own, asked) ?? withSecondEnd(text, number, own, lead, asked)
  if (joined) return asQuantity(text, at, joined, lead)
  if (!own) return null
  const word = boundBefore.find(([pattern]) => pattern.test(lead))?.[1]
  const typed = `${word ?? ''} ${number.written} ${own.unit.symbol}`
  return asQuantity(text, at, { typed, to: own.to, kind: own.unit.kind }, lead)
}

/** What is read so far, in the form that `parseLimit` takes. */
interface Joined {
  readonly typed: string
  readonly kind: QuantityKind
  readonly to: number
}

type Own = { readonly unit: Unit; readonly to: number } | null

function withTolerance(text: string, number: NumberInText, own: Own, asked?: QuantityKind): Joined | null {
  const joint = matches(toleranceJoint, text, own?.to ?? number.to)
  const deviation = joint && numberAt(text, joint.to)
  if (!deviation) return null
  const unit = unitInText(text, deviation.to, deviation.isWhole, asked)
  if (!unit && !own) return null
  const typed = `${number.written} ${own?.unit.symbol ?? ''} ± ${deviation.written} ${unit?.unit.symbol ?? ''}`
  return { typed, to: unit?.to ?? deviation.to, kind: (own ?? unit)?.unit.kind ?? '' }
}

function withSecondEnd(
  text: string,
  number: NumberInText,
  own: Own,
  lead: string,
  asked?: QuantityKind,
): Joined | null {
  const end = own?.to ?? number.to
  const joint = matches(/\bbetween\s*$/i.test(lead) ? andJoint : rangeJoint, text, end)
  // `10 -15 mm` can be a tolerance.
  if (!joint || /\s[-–—‐‑]$/.test(joint.text)) return null
  const second = numberAt(text, joint.to)
  const unit = second && unitInText(text, second.to, second.isWhole, asked)
  if (!second || !unit || (own && own.unit.kind !== unit.unit.kind)) return null
  const isRising = compare(number.value, second.value) < 0
  // `1/2-13` is a thread, `2026-03` a date: a hyphen joins a smaller number to a larger one, or nothing.
  if (/[-–—‐‑]/.test(joint.text) && !isRising) return null
  return {
    typed: `${number.written} ${own?.unit.symbol ?? ''} to ${second.written} ${unit.unit.symbol}`,
    to: unit.to,
    kind: unit.unit.kind,
  }
}

function asQuantity(text: string, from: number, { typed, to, kind }: Joined, lead: string): QuantityInText | null {
  const parsed = parseLimit(typed.trim(), kind)
  if (!parsed.ok) return null
  return {
    limit: { ...parsed.value, typed: text.slice(from, to).trim() },
    from,
    to,
    isApproximate: approximateBefore.test(lead),
  }
}

/** `(47 N·m)` or `/ 47 N·m` behind a quantity: nothing else may stand between the parentheses. */
function pairBehind(text: string, first: QuantityInText): PairInText | null {
  const opened = matches(pairOpens, text, first.to)
  if (!opened) return null
  const at = matches(secondOpens, text, opened.to)?.to ?? opened.to
  const second = readQuantity(
    text,
    at,
    isAndRange.test(text.slice(at, at + LONGEST_NUMBER)) ? 'between ' : '',
    first.limit.kind,
  )
  if (!second) return null
  const isInParentheses = /[([]/.test(opened.text)
  const closed = isInParentheses ? matches(pairCloses, text, second.to) : { to: second.to }
  if (!closed || !arePair(first.limit, second.limit, isInParentheses)) return null
  return { first, second, from: first.from, to: closed.to }
}

function arePair(first: Limit, second: Limit, isInParentheses: boolean): boolean {
  if (first.unit === second.unit) return false
  const isAcross = systemOf(first) !== systemOf(second)
  if (first.kind !== second.kind) return isInParentheses && confused.has(`${first.kind} ${second.kind}`)
  if (systemOf(first) === 'both' || systemOf(second) === 'both') return false
  // `30 mL / 1 US gal` is a dose, `5 mm / 1 ft` a slope, `10 mm = 1 ft` a scale.
  if (!isInParentheses && doses.has(first.kind) && !areAlike(first, second)) return false
  return isAcross || (isInParentheses && pairedWithin.has(first.kind))
}

/** Neither is twice the other. */
function areAlike(first: Limit, second: Limit): boolean {
  const [one, other] = [first, second].map((limit) => {
    const unit = unitBySymbol(limit.unit)
    const value = limit.aim ?? limit.upper?.value ?? limit.lower?.value
    return unit && value ? absolute(toBase(value, unit)) : zero
  })
  return !!one && !!other && compare(one, add(other, other)) < 0 && compare(other, add(one, one)) < 0
}

const systemOf = ({ unit }: Limit) => unitBySymbol(unit)?.system

function numberAt(text: string, at: number): NumberInText | null {
  const grouped = matches(thousands, text, at)
  const plain = grouped && fromDecimalText(grouped.text.replaceAll(',', ''))
  if (grouped && plain)
    return { written: grouped.text.replaceAll(',', ''), value: plain, isWhole: true, to: grouped.to }
  // A short piece, so that no text can make the scan slow.
  const piece = text.slice(at, at + LONGEST_NUMBER)
  const number = numberHead.test(piece) ? scanNumber(piece, 0) : null
  if (!number?.ok) return null
  const { value, places, isFraction } = number.value
  const to = at + number.value.to
  const written = text.slice(at, to)
  return /^[.,:]\d/.test(text.slice(to, to + 2)) ? null : { written, value, isWhole: places === 0 && !isFraction, to }
}

function matches(pattern: RegExp, text: string, at: number): { readonly text: string; readonly to: number } | null {
  pattern.lastIndex = at
  const found = pattern.exec(text)?.[0]
  return found === undefined ? null : { text: found, to: at + found.length }
}
