import { convertBetween } from '../../quantities/convert.ts'
import { parseQuantity } from '../../quantities/parse-quantity.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import { add, exactPlaces, toDecimalText } from '../../quantities/rational.ts'
import type { Unit } from '../../quantities/unit-table.ts'
import { unitBySymbol } from '../../quantities/units.ts'

interface Sum {
  readonly unit: Unit
  readonly value: Rational
}

/**
 * Quantities added up, each kind in the unit that came first: `12 L` and `500 mL` make `12.5 L`. What is no quantity stands as it
 * was typed, with how often: `1 tin (2 ×)`.
 */
export function sumOfQuantities(texts: readonly string[]): string {
  const sums: Sum[] = []
  const asTyped = new Map<string, number>()
  for (const text of texts) {
    const parsed = parseQuantity(text)
    const unit = parsed.ok ? unitBySymbol(parsed.value.unit) : null
    if (!parsed.ok || !unit) {
      asTyped.set(text, (asTyped.get(text) ?? 0) + 1)
      continue
    }
    const at = sums.findIndex((sum) => sum.unit.kind === unit.kind)
    const sum = sums[at]
    if (sum === undefined) sums.push({ unit, value: parsed.value.value })
    else sums[at] = { ...sum, value: add(sum.value, convertBetween(parsed.value.value, unit, sum.unit)) }
  }
  return [
    ...sums.map(sumText),
    ...[...asTyped].map(([text, times]) => (times === 1 ? text : `${text} (${times} ×)`)),
  ].join(' + ')
}

/** Rounded up where it does not come out: nobody fetches too little. */
function sumText({ unit, value }: Sum): string {
  return `${toDecimalText(value, exactPlaces(value) ?? 3, 'up')} ${unit.symbol}`.trim()
}
