import type { Fault } from '../../findings/finding.ts'
import { accuracyAt } from '../../quantities/accuracy.ts'
import { exactNumberText } from '../../quantities/number-text.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import { absolute, compare, divide, larger, one, rational } from '../../quantities/rational.ts'
import { nearestText } from '../../quantities/round-sensibly.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import type { Check, CheckSubject } from '../check.ts'
import {
  bandOf,
  endsOf,
  everyInstrumentUse,
  half,
  type InstrumentData,
  type InstrumentUse,
  instrumentData,
  ratioText,
} from '../instruments.ts'

/**
 * What the instrument may be off is as much as the limit allows.
 *
 *     0.10 to 0.20 mm, ± 0.02 mm   ← reported: half the band is 0.05 mm, 2.5 to 1
 *     0.10 to 0.20 mm, ± 0.01 mm   5 to 1
 */
export const instrumentTooInaccurate: Check = {
  name: 'readings/instrument-too-inaccurate',
  severity: 'warning',
  title: 'The instrument is not accurate enough for the limit.',
  rules: ['NU-11'],

  *run({ procedure, configuration }: CheckSubject): Iterable<Fault> {
    const wanted = configuration.accuracyRatio ?? rational(4)
    for (const use of everyInstrumentUse(procedure)) {
      for (const tool of use.tools) {
        const data = instrumentData(tool)
        const found = ratioOf(use, data)
        // A wrench is not asked for four times its own accuracy, only that it can hit the band at all.
        const least = use.kind === 'torque' ? one : wanted
        if (found === null || compare(found.ratio, least) >= 0) continue
        const unit = use.limit.unit
        yield {
          at: use.at,
          message:
            `"${use.name}" leaves ${found.isTwoSided ? '± ' : ''}${amountText(found.room, unit)}, ` +
            `and ${tool.id} may be off by ${data.accuracyTyped}${isAmount(data) && data.accuracyTyped?.includes(unit) ? '' : ` (± ${amountText(found.off, unit)})`}: ` +
            `${ratioText(found.ratio)} to 1, and ${exactNumberText(least)} to 1 is wanted.`,
          advice: 'Name a more accurate instrument, widen the limit, or correct the accuracy.',
          related: [{ at: tool.at, message: `${tool.id} is listed here.` }],
        }
      }
    }
  },
}

interface AccuracyRatio {
  readonly ratio: Rational
  /** Half the band, or the whole of it from nothing up to a `max`. */
  readonly room: Rational
  readonly off: Rational
  readonly isTwoSided: boolean
}

/** How often the accuracy goes into what the limit leaves; null where either is not known. */
export function ratioOf({ limit }: Pick<InstrumentUse, 'limit'>, data: InstrumentData): AccuracyRatio | null {
  const band = bandOf(limit)
  if (band === null || data.accuracy === null) return null
  const { lower, upper } = endsOf(limit)
  const largest = larger(absolute(lower ?? rational(0)), absolute(upper ?? rational(0)))
  const off = accuracyAt(data.accuracy, largest, limit.unit, data.range)
  if (off === null || off.numerator <= 0n) return null
  const room = band.isTwoSided ? half(band.width) : band.width
  return { ratio: divide(room, off), room, off, isTwoSided: band.isTwoSided }
}

const isAmount = ({ accuracy }: InstrumentData): boolean => accuracy?.is === 'amount'

function amountText(value: Rational, symbol: string): string {
  const unit = unitBySymbol(symbol)
  const number = unit ? nearestText(value, value, undefined, unit) : exactNumberText(value)
  return `${number} ${symbol}`.trim()
}
