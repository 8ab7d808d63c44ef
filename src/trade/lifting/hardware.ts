import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, fromDecimalText, multiply, rational, zero } from '../../quantities/rational.ts'
import { nearestName } from '../../text/nearest-name.ts'
import { type Answer, answer, refuse } from '../answer.ts'

/** Eyebolts and shackles pulled at an angle. Tables differ from maker to maker, so each stands here by name; the maker's own comes first. */

export interface AngleTable {
  readonly source: string
  /** Degrees from the axis, then percent of the rating. */
  readonly rows: string
}

export const angleTables = {
  'shoulder-eyebolt': {
    source: 'Shoulder eye bolt load table of a supplier, angle from the bolt axis',
    rows: '5 100, 15 80, 30 65, 45 30, 90 25',
  },
  // Plain eyebolts are for a pull along the axis only; 5 degrees count as along the axis.
  'plain-eyebolt': { source: 'The same table: plain (non-shoulder) eye bolts for vertical pull only', rows: '5 100' },
  'shackle-side-pull': {
    source: 'Side loading of screw pin and bolt type shackles, as printed in rigging tables of makers, from memory',
    rows: '5 100, 45 70, 90 50',
  },
} as const satisfies Readonly<Record<string, AngleTable>>

export type AngleTableName = keyof typeof angleTables

/**
 * Percent of the rating left at an angle from the axis, in degrees; between two rows that of the larger angle. Exact as printed.
 * Refused beyond the last row.
 */
export function percentAtAngle(degrees: Rational, name: AngleTableName): Answer<Rational> {
  if (compare(degrees, zero) < 0)
    return refuse('angle', 'The angle is negative.', 'Type the angle from the axis, 0° or more.')
  const rows = angleTables[name].rows
    .split(', ')
    .map((row) => row.split(' ').map((text) => fromDecimalText(text) ?? zero))
  const row = rows.find(([at]) => compare(at ?? zero, degrees) >= 0)
  if (row) return answer(row[1] ?? zero)
  return refuse('angle', 'It may not be pulled at this angle.', 'Pull along the axis, or use a swivel hoist ring.')
}

/** The rating left at an angle from the axis. */
export function ratingAtAngle(rating: Rational, degrees: Rational, name: AngleTableName): Answer<Rational> {
  if (compare(rating, zero) <= 0) return refuse('rating', 'The rating must be above 0.', 'Type the rating as marked.')
  const percent = percentAtAngle(degrees, name)
  return percent.ok ? answer(divide(multiply(rating, percent.value), rational(100))) : percent
}

/** Ratings by size in inches, in the unit of the table. */
export const hardwareTables = {
  shackle: {
    source: 'Forged carbon steel shackles, federal specification RR-C-271, in tonnes, from memory',
    unit: 't',
    rows: '1/4 0.5, 5/16 0.75, 3/8 1, 7/16 1.5, 1/2 2, 5/8 3.25, 3/4 4.75, 7/8 6.5, 1 8.5, 1-1/8 9.5, 1-1/4 12, 1-3/8 13.5, 1-1/2 17',
  },
  'shoulder-eyebolt': {
    source: 'Forged shoulder eyebolts after ASME B18.15, in pounds, from memory but for 3/8 in',
    unit: 'lb',
    rows: '1/4 650, 5/16 1200, 3/8 1550, 1/2 2600, 5/8 5200, 3/4 7200, 7/8 10600, 1 13300',
  },
} as const

export type HardwareName = keyof typeof hardwareTables

/** Rating along the axis, in the unit of the table. Refused for a size that the table does not hold. */
export function hardwareRatingOf(name: HardwareName, size: string): Answer<Rational> {
  const rows = new Map(hardwareTables[name].rows.split(', ').map((row) => row.split(' ') as [string, string]))
  const rating = fromDecimalText(rows.get(size) ?? '')
  if (rating) return answer(rating)
  const near = nearestName(size, [...rows.keys()])
  return refuse(
    'size',
    `There is no ${name.replaceAll('-', ' ')} of ${size} in in the table.`,
    near === null ? `Type one of: ${[...rows.keys()].join(', ')}.` : `Did you mean ${near}?`,
  )
}

/** One item of the train from hook to load: what it may take and what it has to take, in one unit. */
export interface TrainItem {
  readonly name: string
  readonly rating: Rational
  readonly pull: Rational
}

export interface TrainVerdict {
  /** The item with the least in hand. */
  readonly weakest: string
  /** Pull over rating of that item. */
  readonly used: Rational
  readonly isEnough: boolean
  /** In the order given. */
  readonly items: readonly { readonly name: string; readonly used: Rational }[]
}

/** The weakest item of the whole train, by pull over rating. Exact. Refused without items and for ratings or pulls not above 0. */
export function weakestItem(items: readonly TrainItem[]): Answer<TrainVerdict> {
  const wrong = items.find(({ rating, pull }) => compare(rating, zero) <= 0 || compare(pull, zero) <= 0)
  if (wrong) return refuse('items', `"${wrong.name}" has a rating or a pull that is not above 0.`, 'Type both.')
  const used = items.map(({ name, rating, pull }) => ({ name, used: divide(pull, rating) }))
  const [first, ...rest] = used
  if (!first) return refuse('items', 'There is no item.', 'Type every item from hook to load.')
  const weakest = rest.reduce((worst, each) => (compare(each.used, worst.used) > 0 ? each : worst), first)
  return answer({
    weakest: weakest.name,
    used: weakest.used,
    isEnough: compare(weakest.used, rational(1)) <= 0,
    items: used,
  })
}
