import { type Cell, type ConditionSpace, type Dimension, sightsOf } from '../quantities/condition-cells.ts'
import { fromBase } from '../quantities/convert.ts'
import { exactNumberText } from '../quantities/number-text.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import { unitBySymbol } from '../quantities/units.ts'

/** More than this many places on the line are not listed one by one. */
const MOST_SAID = 3

/**
 * The combinations for which something is so, in words:
 *
 *     end-play is exactly 5.0 mm
 *     gap is between 0.3 and 0.5 mm and oil-look is good; or gap is above 8 mm
 */
export function combinationsInWords(space: ConditionSpace, isMeant: (combination: number) => boolean): string {
  const { dimensions, size } = space
  const left = new Set<number>()
  for (let combination = 0; combination < size; combination++) if (isMeant(combination)) left.add(combination)
  const meant = new Set(left)
  const said: string[] = []
  for (const combination of meant) {
    if (!left.has(combination)) continue
    if (said.length === MOST_SAID) return `${said.join('; or ')}; and more`
    const box = boxAround(dimensions, combination, meant)
    for (const inside of combinationsOf(dimensions, box)) left.delete(inside)
    said.push(boxInWords(dimensions, box))
  }
  return said.join('; or ')
}

/** Sights of each dimension, by index. */
type Box = readonly (readonly number[])[]

/** The largest box of combinations that are all meant, grown from one: over all sights of a dimension first, then along the line. */
function boxAround(dimensions: readonly Dimension[], combination: number, meant: ReadonlySet<number>): Box {
  let box: Box = sightsOf(dimensions, combination).map((sight) => [sight])
  const grow = (place: number, sights: readonly number[]): boolean => {
    const wider = box.map((own, index) => (index === place ? sights : own))
    if (![...combinationsOf(dimensions, wider)].every((inside) => meant.has(inside))) return false
    box = wider
    return true
  }
  dimensions.forEach((dimension, place) => {
    const all = dimension.sights.map((_, index) => index)
    if (grow(place, all)) return
    const start = box[place]?.[0] ?? 0
    // Only single cells stand in a row; mixtures of several readings are told one by one.
    const single = dimension.sights.filter((sight) => sight.length === 1).length
    if (start >= single) return
    let [from, to] = [start, start]
    while (to + 1 < single && grow(place, range(from, to + 1))) to++
    while (from > 0 && grow(place, range(from - 1, to))) from--
  })
  return box
}

const range = (from: number, to: number): readonly number[] =>
  Array.from({ length: to - from + 1 }, (_, at) => from + at)

function* combinationsOf(dimensions: readonly Dimension[], box: Box, place = 0, weight = 1): Iterable<number> {
  const dimension = dimensions[place]
  if (!dimension) {
    yield 0
    return
  }
  for (const rest of combinationsOf(dimensions, box, place + 1, weight * dimension.sights.length))
    for (const sight of box[place] ?? []) yield sight * weight + rest
}

function boxInWords(dimensions: readonly Dimension[], box: Box): string {
  const parts = dimensions.flatMap((dimension, place) => {
    const sights = box[place] ?? []
    return sights.length === dimension.sights.length ? [] : [sightsInWords(dimension, sights)]
  })
  return parts.length === 0 ? 'always' : parts.join(' and ')
}

function sightsInWords(dimension: Dimension, sights: readonly number[]): string {
  const { label, domain } = dimension.subject
  const first = dimension.sights[sights[0] ?? 0] ?? []
  if (first.length > 1) {
    const each = first.map((cell) => cellsInWords(dimension, [cell]))
    return `${label} is ${each.slice(0, -1).join(', ')} at one place and ${each.at(-1)} at another`
  }
  const cells = sights.flatMap((sight) => dimension.sights[sight] ?? [])
  return `${label} is ${domain.places > 1 ? 'everywhere ' : ''}${cellsInWords(dimension, cells)}`
}

function cellsInWords(dimension: Dimension, cells: readonly number[]): string {
  const [first, last] = [dimension.cells[cells[0] ?? 0], dimension.cells[cells.at(-1) ?? 0]]
  if (!first || !last) return ''
  if (first.is === 'choice') return cells.map((cell) => choiceAt(dimension.cells[cell])).join(' or ')
  const lower = first.is === 'point' ? first.at : first.is === 'between' ? first.from : null
  const upper = last.is === 'point' ? last.at : last.is === 'between' ? last.to : null
  const holdsLower = first.is === 'point'
  const holdsUpper = last.is === 'point'
  const say = (value: Rational) => withUnit(dimension, numberText(dimension, value))
  if (lower && upper) {
    if (first === last && first.is === 'point') return `exactly ${say(lower)}`
    const [a, b] = [numberText(dimension, lower), say(upper)]
    if (holdsLower && holdsUpper) return `from ${a} to ${b}`
    if (!holdsLower && !holdsUpper) return `between ${a} and ${b}`
    return holdsLower ? `from ${a} to just below ${b}` : `above ${a} and up to ${b}`
  }
  if (lower) return holdsLower ? `${say(lower)} or above` : `above ${say(lower)}`
  if (upper) return holdsUpper ? `${say(upper)} or below` : `below ${say(upper)}`
  return 'anything'
}

const choiceAt = (cell: Cell | undefined): string => (cell?.is === 'choice' ? cell.value : '')

/** As typed where it was typed, else the exact number in the unit of the first figure. */
function numberText({ typed, unit }: Dimension, value: Rational): string {
  const known = unitBySymbol(unit)
  return typed.get(`${value.numerator}/${value.denominator}`) ?? exactNumberText(known ? fromBase(value, known) : value)
}

const withUnit = ({ unit }: Dimension, number: string): string => (unit === '' ? number : `${number} ${unit}`)
