import type { Rational } from '../../quantities/quantity-types.ts'
import {
  compare,
  divide,
  fromDecimalText,
  multiply,
  rational,
  roundNearest,
  subtract,
  zero,
} from '../../quantities/rational.ts'
import { makeCalculator } from '../make-calculator.ts'

/** The thrust washers of one engine: TM 5-4210-233-14&P-2, page 6-152, table c and steps 16 to 19. Lengths in metres. */

const source = 'TM 5-4210-233-14&P-2, 6-29, table c (crankshaft end play) and steps 16 to 19'
const thousandth = multiply(rational(1n, 1000n), rational(254n, 10_000n))
const thousandths = (text: string): Rational => multiply(thousandth, fromDecimalText(text) ?? zero)
/** Both washers of the lower half when new. */
const newWashers = thousandths('244')

/** As printed, in thousandths of an inch. Less than 16 takes the standard washer, more than 36 a new crankshaft. */
const rows: readonly { readonly from: string; readonly to: string; readonly washer: string }[] = [
  { from: '17', to: '26', washer: '+.005' },
  { from: '27', to: '36', washer: '+.010' },
]

/** The row that an end play falls in as it stands; null where the printed ranges leave it out. */
function washerRow(endPlay: Rational): string | null {
  if (compare(endPlay, thousandths('16')) < 0) return 'standard'
  if (compare(endPlay, thousandths('36')) > 0) return 'replace'
  const row = rows.find(
    ({ from, to }) => compare(endPlay, thousandths(from)) >= 0 && compare(endPlay, thousandths(to)) <= 0,
  )
  return row?.washer ?? null
}

/** Readings come in thousandths: rounded to them first; .016 itself, which no row names, goes to the standard washer. */
function washerFor(endPlay: Rational): string {
  const rounded = multiply(roundNearest(divide(endPlay, thousandth), rational(1)), thousandth)
  return washerRow(rounded) ?? 'standard'
}

const lengthUnits = ['mm', 'in'] as const

export const thrustWasher = makeCalculator({
  name: 'thrust-washer',
  what: 'End play corrected for a worn washer, and the oversize washer for it.',
  formula: 'corrected = e − (0.244 in − t)',
  validity:
    'The machine of the manual, read to .001 in: up to .016 standard, .017 to .026 +.005, .027 to .036 +.010, above .036 replace.',
  source,
  inputs: {
    'end-play': { what: 'measured end play', kind: 'length', unit: 'in', symbol: 'e' },
    washer: { what: 'thickness of the washer in place', kind: 'length', unit: 'in', symbol: 't' },
  },
  work: ({ 'end-play': endPlay, washer }) => {
    const corrected = subtract(endPlay, subtract(newWashers, washer))
    return {
      ok: true,
      figures: [
        { name: 'corrected', what: 'corrected end play', kind: 'length', units: lengthUnits, value: corrected },
        { name: 'choice', what: 'washer', word: washerFor(corrected) },
      ],
    }
  },
})

export const thrustWasherRow = makeCalculator({
  name: 'thrust-washer-row',
  what: 'The printed row of washers for a corrected end play, and whether the ranges leave a gap there.',
  formula: 'below .016 in standard; .017 to .026 +.005; .027 to .036 +.010; above .036 replace',
  validity: 'The ranges as printed, nothing rounded: from .016 to .017 and from .026 to .027 no row is printed.',
  source,
  inputs: { corrected: { what: 'corrected end play', kind: 'length', unit: 'in' } },
  work: ({ corrected }) => {
    const row = washerRow(corrected)
    return {
      ok: true,
      figures: [
        { name: 'row', what: 'washer', word: row ?? 'none' },
        { name: 'between-rows', what: 'falls between the printed ranges', word: row === null ? 'yes' : 'no' },
      ],
      notes: row === null ? ['Measure again to .001 in; where it stays between two rows, ask the maker.'] : [],
    }
  },
})
