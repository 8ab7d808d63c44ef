import { type Domain, holdsFor, type Leaf, type Logic, type Subject } from './condition-leaves.ts'
import { fromBase, toBase } from './convert.ts'
import { judgeValue } from './judge-reading.ts'
import type { Limit, Rational } from './quantity-types.ts'
import { add, compare, divide, isZero, one, rational, subtract, zero } from './rational.ts'
import { unitBySymbol } from './units.ts'

/** One piece of a line that no condition cuts: a point, or what lies between two points, ends left out. */
export type Cell =
  | { readonly is: 'point'; readonly at: Rational }
  | { readonly is: 'between'; readonly from: Rational | null; readonly to: Rational | null }
  | { readonly is: 'choice'; readonly value: string }

/** A subject with its cells, and what can be seen of it: one cell, or for several readings a set of cells. */
export interface Dimension {
  readonly subject: Subject
  readonly cells: readonly Cell[]
  /** Each a set of cells that readings lie in, in the order of the cells; one cell alone comes before any mixture. */
  readonly sights: readonly (readonly number[])[]
  /** Values as typed, by their exact text. */
  readonly typed: ReadonlyMap<string, string>
  /** Unit to name values in. */
  readonly unit: string
}

export interface ConditionSpace {
  readonly dimensions: readonly Dimension[]
  /** Subjects that rest on one another make combinations that cannot be seen: then only "none" can be believed. */
  readonly isExact: boolean
  /** By condition: whether it holds for each combination, `combination` being counted as in `sightsOf`. */
  readonly truths: readonly Uint8Array[]
  readonly size: number
}

const MOST_SIGHTS = 300
const MOST_COMBINATIONS = 60_000

/** Every combination of what can be seen, and which conditions hold in it; null where there are too many. */
export function spaceOf(subjects: readonly Subject[], conditions: readonly Logic[]): ConditionSpace | null {
  const leaves = conditions.flatMap(leavesIn)
  const dimensions: Dimension[] = []
  let size = 1
  for (const subject of subjects) {
    const own = leaves.filter((leaf) => leaf.subject === subject.key)
    const dimension = dimensionOf(subject, own)
    if (dimension === null) return null
    dimensions.push(dimension)
    size *= dimension.sights.length
    if (size > MOST_COMBINATIONS) return null
  }
  const places = new Map(dimensions.map(({ subject }, index) => [subject.key, index]))
  const truths = conditions.map((condition) => {
    const answer = answerOf(condition, dimensions, places)
    return Uint8Array.from({ length: size }, (_, combination) => (answer(sightsOf(dimensions, combination)) ? 1 : 0))
  })
  return { dimensions, isExact: areIndependent(subjects), truths, size }
}

/** Which sight of each dimension a combination is. */
export function sightsOf(dimensions: readonly Dimension[], combination: number): readonly number[] {
  let rest = combination
  return dimensions.map(({ sights }) => {
    const index = rest % sights.length
    rest = Math.floor(rest / sights.length)
    return index
  })
}

function areIndependent(subjects: readonly Subject[]): boolean {
  const seen = new Set<string>()
  for (const { restsOn } of subjects) {
    const own = new Set(restsOn)
    for (const name of own) if (seen.has(name)) return false
    for (const name of own) seen.add(name)
  }
  return true
}

function leavesIn(logic: Logic): readonly Leaf[] {
  switch (logic.is) {
    case 'always':
      return []
    case 'leaf':
      return [logic.leaf]
    case 'not':
      return leavesIn(logic.of)
    default:
      return logic.of.flatMap(leavesIn)
  }
}

type Answer = (sights: readonly number[]) => boolean

function answerOf(logic: Logic, dimensions: readonly Dimension[], places: ReadonlyMap<string, number>): Answer {
  switch (logic.is) {
    case 'always':
      return () => logic.holds
    case 'not': {
      const of = answerOf(logic.of, dimensions, places)
      return (sights) => !of(sights)
    }
    case 'and':
    case 'or': {
      const parts = logic.of.map((part) => answerOf(part, dimensions, places))
      return logic.is === 'and'
        ? (sights) => parts.every((part) => part(sights))
        : (sights) => parts.some((part) => part(sights))
    }
    case 'leaf': {
      const place = places.get(logic.leaf.subject) ?? -1
      const dimension = dimensions[place]
      if (!dimension) return () => false
      const fits = dimension.cells.map((cell) => fitsLeaf(logic.leaf, cell, dimension.subject.domain))
      const bySight = dimension.sights.map((sight) =>
        logic.leaf.of === 'every' ? sight.every((cell) => fits[cell]) : sight.some((cell) => fits[cell]),
      )
      return (sights) => bySight[sights[place] ?? 0] ?? false
    }
  }
}

function fitsLeaf(leaf: Leaf, cell: Cell, domain: Domain): boolean {
  if (leaf.is === 'among') return cell.is === 'choice' && leaf.values.includes(cell.value)
  const value = sampleOf(cell)
  if (value === null || domain.is !== 'line') return false
  if (leaf.is === 'compared') return holdsFor(value, leaf.operator, leaf.value)
  const unit = unitBySymbol(leaf.limit.unit)
  return unit !== null && judgeValue(leaf.limit, fromBase(value, unit)).verdict === 'in'
}

/** A value inside the cell: every value of it gives the same answers. */
export function sampleOf(cell: Cell): Rational | null {
  if (cell.is === 'choice') return null
  if (cell.is === 'point') return cell.at
  if (cell.from && cell.to) return divide(add(cell.from, cell.to), rational(2))
  if (cell.from) return add(cell.from, one)
  return cell.to ? subtract(cell.to, one) : rational(0)
}

function dimensionOf(subject: Subject, leaves: readonly Leaf[]): Dimension | null {
  const { domain } = subject
  const cells = domain.is === 'choices' ? domain.values.map(choice) : cellsOfLine(domain, leaves)
  const sights = sightsFrom(cells.length, domain.places)
  if (sights === null || cells.length === 0) return null
  const cuts = leaves.flatMap((leaf) => (leaf.is === 'compared' ? [leaf] : []))
  const unit =
    cuts.find(({ cut }) => cut.unit !== '')?.cut.unit ??
    leaves.flatMap((leaf) => (leaf.is === 'within' ? [leaf.limit.unit] : []))[0] ??
    ''
  const typed = new Map<string, string>()
  for (const { cut, value } of cuts)
    if (cut.typed !== '' && cut.unit === unit) typed.set(`${value.numerator}/${value.denominator}`, cut.typed)
  return { subject, cells, sights, typed, unit }
}

const choice = (value: string): Cell => ({ is: 'choice', value })

/** The line cut at every value that a question names, without what the subject cannot be. */
function cellsOfLine(domain: Domain & { is: 'line' }, leaves: readonly Leaf[]): readonly Cell[] {
  const values = leaves.flatMap((leaf) => {
    if (leaf.is === 'compared') return [leaf.value]
    return leaf.is === 'within' ? endsOf(leaf.limit) : []
  })
  // Cut at nothing, the line begins there; cut above it, its first piece does anyway.
  const isCutAtNothing = values.some(isZero) && values.every((value) => value.numerator >= 0n)
  const lowest = domain.lowest ?? (beginsAtNothing(domain) && isCutAtNothing ? zero : null)
  const only = domain.only ? endsOf(domain.only) : []
  const ends = [lowest, domain.highest, ...only].filter((end) => end !== null)
  const cuts = distinct([...values, ...ends])
  const cells: Cell[] = []
  cuts.forEach((at, index) => {
    cells.push({ is: 'between', from: cuts[index - 1] ?? null, to: at }, { is: 'point', at })
  })
  cells.push({ is: 'between', from: cuts.at(-1) ?? null, to: null })
  return cells.filter((cell) => canBe(cell, domain, lowest) && (!domain.isWhole || holdsWhole(cell)))
}

/** A figure that is compared with no negative value is taken for one that is never negative; a temperature may be anything. */
const beginsAtNothing = ({ kind, lowest }: Domain & { is: 'line' }): boolean =>
  lowest === null && kind !== '' && !kind.startsWith('temperature')

function canBe(cell: Cell, { highest, only }: Domain & { is: 'line' }, lowest: Rational | null): boolean {
  const value = sampleOf(cell)
  if (value === null) return true
  if ((lowest && compare(value, lowest) < 0) || (highest && compare(value, highest) > 0)) return false
  const unit = only && unitBySymbol(only.unit)
  return !only || !unit || judgeValue(only, fromBase(value, unit)).verdict === 'in'
}

function holdsWhole(cell: Cell): boolean {
  if (cell.is === 'point') return cell.at.denominator === 1n
  if (cell.is !== 'between' || !cell.from || !cell.to) return true
  const next = floorOf(cell.from) + 1n
  return compare(rational(next), cell.to) < 0
}

function floorOf({ numerator, denominator }: Rational): bigint {
  const quotient = numerator / denominator
  return numerator < 0n && quotient * denominator !== numerator ? quotient - 1n : quotient
}

function distinct(values: readonly Rational[]): readonly Rational[] {
  const sorted = [...values].sort(compare)
  return sorted.filter((value, index) => index === 0 || compare(value, sorted[index - 1] ?? value) !== 0)
}

function endsOf(limit: Limit): readonly Rational[] {
  const unit = unitBySymbol(limit.unit)
  return unit ? [limit.lower, limit.upper].flatMap((end) => (end ? [toBase(end.value, unit)] : [])) : []
}

/** One reading is in one cell; several may lie in as many cells as there are readings. Null where there are too many ways. */
function sightsFrom(cells: number, places: number): readonly (readonly number[])[] | null {
  let sights: number[][] = Array.from({ length: cells }, (_, cell) => [cell])
  let grown = sights
  for (let size = 2; size <= Math.min(places, cells); size++) {
    grown = grown.flatMap((sight) => {
      const last = sight.at(-1) ?? 0
      return Array.from({ length: cells - last - 1 }, (_, step) => [...sight, last + 1 + step])
    })
    sights = [...sights, ...grown]
    if (sights.length > MOST_SIGHTS) return null
  }
  return sights.length > MOST_SIGHTS ? null : sights
}
