import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, multiply, rational } from '../../quantities/rational.ts'
import { circleOrder, rectangleOrder } from '../../trade/fasteners/tightening-order.ts'
import type { Torque } from '../readings.ts'
import type { WorkedFigure } from '../working.ts'
import { countOfBolts, endsOfTorque, percentOf, rectangleOf, type TorqueWorking } from './torque-facts.ts'
import { shown, shownNumber, wordFigure, workedFigure } from './worked-figures.ts'

const HUNDRED = rational(100)
const MOST_BOLTS = 240
const ORDER =
  'Order: common practice; for flanges ASME PCC-1, Guidelines for Pressure Boundary Bolted Flange Joint Assembly (from memory).'
const SHARES = 'The shares are the author’s.'

/** The order of a drawn pattern, bolt by number, and the torque of each round. */
export function roundsOf(torque: Torque): TorqueWorking | null {
  const order = orderOf(torque)
  const rounds = partialRounds(torque)
  if (order === null && rounds.length === 0) return null
  const ends = endsOfTorque(torque)
  const full = ends === null ? '' : shown(ends.middle, ends.unit, 4)
  const of = `${full}, ${torque.limit.aim === null ? 'the middle of the band' : 'the aim'}`
  const numbers = order?.bolts.join(', ') ?? ''
  return {
    says: [
      ...(order === null ? [] : [order.says]),
      ...(rounds.length === 0 ? [] : [`The rounds are shares of ${of}.`]),
    ].join(' '),
    figures: [
      ...(order === null ? [] : [wordFigure('order', numbers)]),
      ...rounds.map(
        ({ index, value, unit }): WorkedFigure =>
          workedFigure({ name: `round-${index + 1}`, kind: 'torque', unit, value, digits: 4 }),
      ),
    ],
    formula: [
      ...(order === null ? [] : [order.rule]),
      ...(rounds.length === 0 ? [] : ['Torque of a round = its share × the full torque']),
    ].join('; '),
    lines: [
      ...(order === null ? [] : [`${order.bolts.length} bolts, counted ${order.counted}: ${numbers}`]),
      ...rounds.map(
        ({ index, percent, value, unit }) =>
          `Round ${index + 1}: ${shownNumber(percent)} % × ${full} = ${shown(value, unit, 4)}`,
      ),
    ],
    source: order === null ? SHARES : `${ORDER} ${SHARES}`,
    caution: `${order === null ? '' : `The order holds for bolts in a ${order.shape}; the maker’s order comes first. `}At the full torque go around until nothing turns.`,
  }
}

interface Order {
  readonly bolts: readonly number[]
  readonly says: string
  readonly rule: string
  readonly shape: 'circle' | 'rectangle'
  /** How the bolts are numbered. */
  readonly counted: string
}

/** Star and cross go across a circle, `circle` goes around it; a rectangle goes from its middle outwards. */
function orderOf(torque: Torque): Order | null {
  const { pattern } = torque
  const rectangle = rectangleOf(torque)
  const count = countOfBolts(torque)
  if (rectangle !== null) return orderOfRectangle(rectangle, count, pattern)
  if (!count || count < 3 || count > MOST_BOLTS) return null
  const ofCircle = { shape: 'circle', counted: 'clockwise' } as const
  if (pattern === 'circle') {
    const bolts = Array.from({ length: count }, (_, index) => index + 1)
    return {
      bolts,
      says: `Around the circle, 1 to ${count}, clockwise.`,
      rule: 'circle: one after the other',
      ...ofCircle,
    }
  }
  if (pattern !== 'star' && pattern !== 'cross') return null
  const bolts = circleOrder(count)
  return {
    bolts,
    says: `Order of ${count} in a ${pattern}, counted clockwise: ${bolts.join(', ')}.`,
    rule: `${pattern}: ${count % 2 === 0 ? 'in opposite pairs, each pair' : 'each bolt'} as far from the tight ones as can be`,
    ...ofCircle,
  }
}

/** Null where the author gives an order, or another count. */
function orderOfRectangle(
  { rows, columns }: { readonly rows: number; readonly columns: number },
  count: number | null,
  pattern: string | null,
): Order | null {
  const total = rows * columns
  if (total < 2 || total > MOST_BOLTS || (count !== null && count !== total)) return null
  if (pattern !== null && pattern !== 'star' && pattern !== 'cross') return null
  const bolts = rectangleOrder(rows, columns)
  return {
    bolts,
    says: `Order of ${total} in ${rows} rows of ${columns}, counted row by row from the top left: ${bolts.join(', ')}.`,
    rule: 'rectangle: from the middle outwards, crosswise',
    shape: 'rectangle',
    counted: 'row by row from the top left',
  }
}

interface Round {
  readonly index: number
  readonly percent: Rational
  readonly value: Rational
  readonly unit: string
}

/** Rounds below the full torque. */
function partialRounds(torque: Torque): readonly Round[] {
  const ends = endsOfTorque(torque)
  if (ends === null) return []
  return torque.passes.flatMap(({ share }, index): readonly Round[] => {
    const percent = percentOf(share)
    if (percent === null || compare(percent, HUNDRED) === 0) return []
    const part = { numerator: percent.numerator, denominator: percent.denominator * 100n }
    return [{ index, percent, value: multiply(ends.middle, part), unit: ends.unit }]
  })
}
