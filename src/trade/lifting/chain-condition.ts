import type { Rational } from '../../quantities/quantity-types.ts'
import {
  absolute,
  compare,
  divide,
  fromDecimalText,
  multiply,
  rational,
  roundDown,
  subtract,
  zero,
} from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import type { ChainGrade } from './chain-sling.ts'

/** What heat and wear leave of a chain. Where sources disagree both stand here by name; the one that lets a chain do less is the default. */

export type HeatTable = 'newer' | 'older' | 'larger-reduction'

/** Fahrenheit and percent that a working load limit is less while the chain is that hot. */
const heatTables: Readonly<Record<'newer' | 'older', Readonly<Record<ChainGrade, string>>>> = {
  // Alloy chain sling temperature table of a sling maker; the row of 700 °F is from memory.
  newer: {
    '80': '400 10, 500 15, 600 20, 700 30, 800 40, 900 50, 1000 60',
    '100': '400 15, 500 25, 600 30, 700 40, 800 50, 900 60, 1000 70',
  },
  // Table of a rope and chain supplier: 500 °F 0 %, 600 °F 10 %. The rest is from memory.
  older: {
    '80': '500 0, 600 10, 700 20, 800 30, 900 40, 1000 50',
    '100': '500 0, 600 10, 700 20, 800 30, 900 40, 1000 50',
  },
}

/** Percent lost for good after cooling, grade 80, of the newer table. */
const lostForGood = '600 5, 700 10, 800 15, 900 20, 1000 25'

export interface HeatReduction {
  /** Percent. */
  readonly reduction: Rational
  readonly table: 'newer' | 'older'
}

/**
 * By how many percent the working load limit is less at a temperature in °F; between two rows that of the hotter.
 * Above 1000 °F refused: the chain goes out of use. Below -40 °F refused.
 */
export function heatReduction(
  fahrenheit: Rational,
  grade: ChainGrade,
  table: HeatTable = 'larger-reduction',
): Answer<HeatReduction> {
  const refused = outsideHeat(fahrenheit)
  if (refused) return refused
  const of = (name: 'newer' | 'older'): HeatReduction => ({
    reduction: rowFor(heatTables[name][grade], fahrenheit),
    table: name,
  })
  if (table !== 'larger-reduction') return answer(of(table))
  const [newer, older] = [of('newer'), of('older')]
  return answer(compare(older.reduction, newer.reduction) > 0 ? older : newer)
}

/** What a limit becomes by a reduction in percent. */
export function reducedBy(limit: Rational, percent: Rational): Rational {
  return divide(multiply(limit, subtract(rational(100), percent)), rational(100))
}

/** Percent that a grade 80 chain has lost for good after it was that hot and cooled down. */
export function lossAfterHeat(fahrenheit: Rational): Answer<Rational> {
  return outsideHeat(fahrenheit) ?? answer(rowFor(lostForGood, fahrenheit))
}

export type WearRule = 'quarter-of-stock' | 'tenth-of-stock'

/** How much of the stock of a link may be worn off, as a share. */
export const wearRules: Readonly<Record<WearRule, { readonly share: Rational; readonly source: string }>> = {
  'quarter-of-stock': { share: rational(1, 4), source: 'NAVEDTRA 14251 (Steelworker), chain inspection' },
  'tenth-of-stock': { share: rational(1, 10), source: 'EN 818-6, mean diameter of a link, from memory' },
}

/** Whether a link goes out of use: worn by more than the rule's share of its stock. 29 CFR 1910.184 has a table of its own: see the maker's. */
export function chainWornOut(stock: Rational, worn: Rational, rule: WearRule = 'tenth-of-stock'): Answer<boolean> {
  if (compare(stock, zero) <= 0) return refuse('stock', 'The link has no thickness.', 'Type the size when new.')
  if (compare(worn, zero) < 0 || compare(worn, stock) > 0)
    return refuse('worn', 'The worn link is thicker than the new one, or below 0.', 'Measure again.')
  return answer(compare(subtract(stock, worn), multiply(wearRules[rule].share, stock)) > 0)
}

/** Five links of a hoist's load chain in mm: new and when it goes out of use. Source: manual of a lever hoist, load chain wear table. */
const hoistLimits = new Map([
  ['75', '77.3'],
  ['90', '92.6'],
  ['120', '123.4'],
  ['150', '154.3'],
])

export interface HoistChainLimit {
  /** mm */
  readonly limit: Rational
  /** Percent. */
  readonly elongation: Rational
  readonly isFromTable: boolean
}

/**
 * Length of five links at which a hoist chain goes out of use. A length that the table does not hold takes 2.5 % (the rule of another
 * hoist manual, stricter than all rows of this one), down to 0.1 mm. The hoist's own manual comes first.
 */
export function hoistChainLimit(nominal: Rational): Answer<HoistChainLimit> {
  if (compare(nominal, zero) <= 0)
    return refuse('nominal', 'The chain has no length.', 'Type the length of five new links.')
  const printed = fromDecimalText(
    [...hoistLimits].find(([length]) => isNearly(nominal, fromDecimalText(length) ?? zero))?.[1] ?? '',
  )
  const limit = printed ?? roundDown(multiply(nominal, rational(1025, 1000)), rational(1, 10))
  const elongation = multiply(rational(100), divide(subtract(limit, nominal), nominal))
  return answer({ limit, elongation, isFromTable: printed !== null })
}

/** To the tenth of a millimetre of the table: nobody measures five links closer. */
function isNearly(measured: Rational, printed: Rational): boolean {
  return compare(absolute(subtract(measured, printed)), rational(5, 100)) <= 0
}

function outsideHeat(fahrenheit: Rational): ReturnType<typeof refuse> | null {
  if (compare(fahrenheit, rational(1000)) > 0)
    return refuse('temperature', 'Hotter than 1000 °F (538 °C).', 'Take the chain out of use.')
  if (compare(fahrenheit, rational(-40)) < 0)
    return refuse('temperature', 'Colder than -40 °F (-40 °C).', 'Ask the maker of the chain.')
  return null
}

function rowFor(rows: string, fahrenheit: Rational): Rational {
  const read = rows.split(', ').map((row) => row.split(' ').map((text) => fromDecimalText(text) ?? zero))
  const coolest = read[0]?.[0] ?? zero
  // The first row is where the reduction begins.
  if (compare(fahrenheit, coolest) < 0) return zero
  return read.find(([at]) => compare(at ?? zero, fahrenheit) >= 0)?.[1] ?? zero
}
