import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, multiply, rational } from '../../quantities/rational.ts'
import { readFastener } from '../../trade/fasteners/joint.ts'
import { circleOrder } from '../../trade/fasteners/tightening-order.ts'
import type { Torque } from '../readings.ts'
import type { WorkedFigure } from '../working.ts'
import { endsOfTorque, percentOf, type TorqueWorking } from './torque-facts.ts'
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
      ...(order === null ? [] : [`${order.bolts.length} bolts, counted clockwise: ${numbers}`]),
      ...rounds.map(
        ({ index, percent, value, unit }) =>
          `Round ${index + 1}: ${shownNumber(percent)} % × ${full} = ${shown(value, unit, 4)}`,
      ),
    ],
    source: order === null ? SHARES : `${ORDER} ${SHARES}`,
    caution:
      'The order holds for bolts in a circle; the maker’s order comes first. At the full torque go around until nothing turns.',
  }
}

interface Order {
  readonly bolts: readonly number[]
  readonly says: string
  readonly rule: string
}

/** Only where the bolts of the joint stand in a circle: star and cross go across it, `circle` goes around. */
function orderOf({ fastener, pattern }: Torque): Order | null {
  const count =
    fastener === null ? null : (readFastener(fastener)?.count ?? Number(/^\d+(?=\s*[×x])/.exec(fastener)?.[0]))
  if (!count || count < 3 || count > MOST_BOLTS) return null
  if (pattern === 'circle') {
    const bolts = Array.from({ length: count }, (_, index) => index + 1)
    return { bolts, says: `Around the circle, 1 to ${count}, clockwise.`, rule: 'circle: one after the other' }
  }
  if (pattern !== 'star' && pattern !== 'cross') return null
  const bolts = circleOrder(count)
  return {
    bolts,
    says: `Order of ${count} in a ${pattern}, counted clockwise: ${bolts.join(', ')}.`,
    rule: `${pattern}: ${count % 2 === 0 ? 'in opposite pairs, each pair' : 'each bolt'} as far from the tight ones as can be`,
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
