import { readNumberWithUnit } from './parse-quantity.ts'
import type { Limit, QuantityKind, Rational } from './quantity-types.ts'
import { absolute, divide, exactPlaces, larger, multiply, rational, zero } from './rational.ts'
import { unitBySymbol } from './units.ts'

/**
 * How far off an instrument may read, to either side.
 *
 *     ± 0.01 mm          an amount
 *     ± 4 %              a share of what is read
 *     ± 1 % of range     a share of the upper end of its range (`of full scale`, `of span`: the same)
 */
export type Accuracy =
  | { readonly is: 'amount'; readonly value: Rational; readonly unit: string }
  | { readonly is: 'share-of-reading'; readonly share: Rational }
  | { readonly is: 'share-of-range'; readonly share: Rational }

/** Longer texts are sentences, and nothing is worked out from them. */
const MOST_LETTERS = 80

const ofRange = /\s+of\s+(?:the\s+)?(?:range|full scale|full-scale|span)\s*$|\s+(?:fs|f\.s\.)\s*$/i
const ofReading = /\s+of\s+(?:the\s+)?(?:reading|value|indication|indicated value)\s*$/i

/** Null where the text is anything else: digits, two terms, a class, a sentence. Then nothing is claimed about the instrument. */
export function parseAccuracy(text: string): Accuracy | null {
  if (text.length > MOST_LETTERS) return null
  const bare = text.trim().replace(/^(?:±|\+\s*\/\s*[-−]|\+-)\s*/, '')
  const number = bare.replace(ofRange, '').replace(ofReading, '')
  const read = readNumberWithUnit(number, 0, number.length)
  if (!read.ok || read.value.number.value.numerator < 0n) return null
  const { value } = read.value.number
  const unit = read.value.unit
  if (unit === null) return null
  if (unit.kind !== 'ratio') return number === bare ? { is: 'amount', value, unit: unit.symbol } : null
  const share = multiply(value, unit.factor)
  return ofRange.test(bare) ? { is: 'share-of-range', share } : { is: 'share-of-reading', share }
}

/** How far off it may read at a value of `unit`, in that unit; null where the units do not go together or the range is not known. */
export function accuracyAt(accuracy: Accuracy, value: Rational, unit: string, range: Limit | null): Rational | null {
  switch (accuracy.is) {
    case 'amount':
      return differenceIn(accuracy.value, accuracy.unit, unit)
    case 'share-of-reading':
      return multiply(accuracy.share, absolute(value))
    case 'share-of-range': {
      const full = range && fullScale(range)
      const inUnit = range && full && differenceIn(full, range.unit, unit)
      return inUnit && multiply(accuracy.share, inUnit)
    }
  }
}

/** The larger end of a range by size: 0 to 25 MPa → 25, −1 to 0 bar → 1. */
function fullScale({ lower, upper }: Limit): Rational | null {
  if (!upper) return null
  return larger(absolute(upper.value), lower ? absolute(lower.value) : zero)
}

/** A difference, such as a resolution, in another unit of its kind: the offset of a temperature scale has no part in it. */
export function differenceIn(value: Rational, fromUnit: string, toUnit: string): Rational | null {
  const from = unitBySymbol(fromUnit)
  const to = unitBySymbol(toUnit)
  if (!from || !to || !isSameScale(from.kind, to.kind)) return null
  return divide(multiply(value, from.factor), to.factor)
}

/** Whether values of one kind are read on a scale of the other: a thermometer shows differences too. */
export function isSameScale(one: QuantityKind, other: QuantityKind): boolean {
  return one === other || (one.startsWith('temperature') && other.startsWith('temperature'))
}

/** The last decimal place that a value needs: 0.125 → 1/1000, 14 → 1, 250 → 10. Null where no decimal writes it (1/3). */
export function lastPlaceOf(value: Rational): Rational | null {
  const places = exactPlaces(value)
  if (places === null) return null
  if (places > 0) return rational(1n, 10n ** BigInt(places))
  let place = 1n
  while (value.numerator !== 0n && value.numerator % (place * 10n) === 0n) place *= 10n
  return rational(place)
}
