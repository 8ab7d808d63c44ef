import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, fromDecimalText, multiply, zero } from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'

/** Limits of single manuals, kept by name: they hold for the machine named and serve others as an example only. */

export interface PublishedLimit {
  readonly source: string
  /** In metres; null where that side is open. Ends included. */
  readonly lower: Rational | null
  readonly upper: Rational | null
}

function limit(unit: string, lower: string | null, upper: string | null, source: string): PublishedLimit {
  const factor = unitBySymbol(unit)?.factor ?? zero
  const read = (text: string | null) => (text === null ? null : multiply(fromDecimalText(text) ?? zero, factor))
  return { source, lower: read(lower), upper: read(upper) }
}

export const publishedLimits: Readonly<Record<string, PublishedLimit>> = {
  'engine oil clearance': limit('in', '0.0016', '0.0043', 'TM 9-2815-260-24, oil clearance'),
  'crankshaft bend, new': limit('mm', null, '0.02', 'TM 10-3930-653-14&P, crankshaft bend'),
  'crankshaft bend, in service': limit('mm', null, '0.05', 'TM 10-3930-653-14&P, crankshaft bend'),
  'compressor belt deflection': limit('in', '0.375', '0.5', 'TM 5-4310-377-13, belt adjustment'),
}

export function isWithin(value: Rational, { lower, upper }: PublishedLimit): boolean {
  return (lower === null || compare(value, lower) >= 0) && (upper === null || compare(value, upper) <= 0)
}
