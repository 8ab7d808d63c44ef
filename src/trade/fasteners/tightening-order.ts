import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, multiply, one, rational } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'

/**
 * Orders of tightening. Bolts are numbered from 1: around a circle clockwise; in a rectangle row by row from the top left.
 * Common practice; for flanges ASME PCC-1, Guidelines for Pressure Boundary Bolted Flange Joint Assembly (star pattern, from memory).
 */

/**
 * Star order around a circle. Even counts go in opposite pairs, each pair as far from the pairs that are tight as can be; odd counts do the
 * same with single bolts. Ties: furthest from the last one, then clockwise.
 */
export function circleOrder(count: number): readonly number[] {
  if (count % 2 === 1) return furthestFirst(count).map((place) => place + 1)
  const half = count / 2
  return furthestFirst(half).flatMap((place) => [place + 1, place + half + 1])
}

/** The places of a ring, each next one as far from all earlier ones as can be. */
function furthestFirst(ring: number): readonly number[] {
  const chosen = [0]
  const left = new Set(Array.from({ length: ring - 1 }, (_, index) => index + 1))
  while (left.size > 0) {
    const last = chosen.at(-1) ?? 0
    let best = -1
    let bestGap = 0
    let bestLeap = 0
    for (const place of left) {
      const gap = Math.min(...chosen.map((other) => ringDistance(place, other, ring)))
      const leap = ringDistance(place, last, ring)
      if (gap < bestGap || (gap === bestGap && leap <= bestLeap)) continue
      best = place
      bestGap = gap
      bestLeap = leap
    }
    chosen.push(best)
    left.delete(best)
  }
  return chosen
}

function ringDistance(a: number, b: number, ring: number): number {
  const along = Math.abs(a - b)
  return Math.min(along, ring - along)
}

/** From the middle of a rectangle outwards, crosswise: the nearest to the middle first, each followed by the one opposite through the middle. */
export function rectangleOrder(rows: number, columns: number): readonly number[] {
  const places = Array.from({ length: rows * columns }, (_, index) => {
    const row = Math.floor(index / columns)
    const column = index % columns
    const fromMiddle = (2 * row - rows + 1) ** 2 + (2 * column - columns + 1) ** 2
    return { bolt: index + 1, fromMiddle }
  })
  const order: number[] = []
  for (const { bolt } of places.toSorted((a, b) => a.fromMiddle - b.fromMiddle || a.bolt - b.bolt)) {
    const opposite = rows * columns + 1 - bolt
    if (!order.includes(bolt)) order.push(bolt)
    if (!order.includes(opposite)) order.push(opposite)
  }
  return order
}

/** Passes of a flange in percent of the target torque; then once or more around until no nut turns (ASME PCC-1, from memory). */
const passes = ['30 %', '70 %', '100 %', '100 % clockwise until no nut turns']

const passParts = [
  ['first-pass', 'first pass', 30],
  ['second-pass', 'second pass', 70],
  ['third-pass', 'third pass, and until no nut turns', 100],
] as const

function passTorques(torque: Rational): readonly Figure[] {
  return passParts.map(([name, what, part]) => ({
    name,
    what,
    kind: 'torque',
    units: ['N·m', 'lbf·ft'],
    value: multiply(torque, rational(part, 100)),
    digits: 3,
  }))
}

const MOST_BOLTS = 240

export const tighteningOrder = makeCalculator({
  name: 'tightening-order',
  what: 'Order in which bolts are tightened, and the passes.',
  formula: 'circle and flange: star, each bolt opposite the one before; rectangle: from the middle outwards, crosswise',
  validity: '2 to 240 bolts. The maker’s order holds where there is one.',
  source:
    'Common practice; flange passes ASME PCC-1, Guidelines for Pressure Boundary Bolted Flange Joint Assembly (from memory)',
  inputs: {
    pattern: { what: 'how the bolts are laid out', kind: 'word', choices: ['circle', 'flange', 'rectangle'] },
    bolts: { what: 'number of bolts, for a circle or flange', kind: 'number', optional: true },
    rows: { what: 'rows of a rectangle', kind: 'number', optional: true },
    columns: { what: 'bolts in a row of a rectangle', kind: 'number', optional: true },
    torque: { what: 'final torque, to get the torque of each pass', kind: 'torque', unit: 'N·m', optional: true },
  },
  work: ({ pattern, bolts, rows, columns, torque }) => {
    const counts = pattern === 'rectangle' ? [rows, columns] : [bolts]
    const [first, second] = counts.map((count) => (count?.denominator === 1n ? count : null))
    if (!first || second === null) {
      const wanted = pattern === 'rectangle' ? 'rows and columns' : 'bolts'
      return refuse(
        pattern === 'rectangle' ? 'rows' : 'bolts',
        `A ${pattern} needs ${wanted}.`,
        `Give ${wanted} as whole numbers.`,
      )
    }
    const total = rational(first.numerator * (second ?? one).numerator)
    if (compare(total, rational(2)) < 0 || compare(total, rational(MOST_BOLTS)) > 0)
      return refuse(
        pattern === 'rectangle' ? 'rows' : 'bolts',
        'That is no number of bolts to order.',
        `Give 2 to ${MOST_BOLTS} bolts.`,
      )
    const order = second
      ? rectangleOrder(Number(first.numerator), Number(second.numerator))
      : circleOrder(Number(first.numerator))
    return {
      ok: true,
      figures: [
        { name: 'order', what: 'order', word: order.join(', ') },
        { name: 'passes', what: 'passes', word: passes.join(', ') },
        ...(torque === null ? [] : passTorques(torque)),
      ],
      notes: [second ? 'Bolts are counted row by row from the top left.' : 'Bolts are counted clockwise from any one.'],
    }
  },
})
