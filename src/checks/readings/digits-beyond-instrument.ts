import type { Fault } from '../../findings/finding.ts'
import { lastPlaceOf } from '../../quantities/accuracy.ts'
import { exactNumberText } from '../../quantities/number-text.ts'
import type { PrintedLimit, Rational } from '../../quantities/quantity-types.ts'
import { compare, divide } from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import type { Check, CheckSubject } from '../check.ts'
import { whyTooCoarse } from '../coarse-scale.ts'
import { endsOf, everyInstrumentUse, instrumentData, resolutionIn, stepsWanted } from '../instruments.ts'

/** A limit of 10.125 mm, read in steps of 0.01 mm: its last digit is never seen, and one reads 10.12, the next 10.13. */
export const digitsBeyondInstrument: Check = {
  name: 'readings/digits-beyond-instrument',
  severity: 'advice',
  title: 'A limit has more digits than the instrument shows.',
  rules: ['NU-11'],

  *run({ procedure, configuration }: CheckSubject): Iterable<Fault> {
    for (const use of everyInstrumentUse(procedure)) {
      for (const tool of use.tools) {
        const data = instrumentData(tool)
        const step = resolutionIn(data, use.limit.unit)
        if (step === null || !sameFamily(data.resolution?.unit ?? '', use.limit.unit)) continue
        // Told once: a scale that is too coarse cannot show the digits either.
        if (whyTooCoarse(use, step, stepsWanted(configuration)) !== null) continue
        const end = endsTyped(use.limit).find((value) => isBeyond(value, step))
        if (end === undefined) continue
        yield {
          at: use.at,
          message: `"${use.name}" has an end at ${exactNumberText(end)} ${use.limit.unit}, but ${tool.id} shows nothing finer than ${exactNumberText(step)} ${use.limit.unit}.`,
          advice: 'Round the limit to the safe side, or name a finer instrument.',
          related: [{ at: tool.at, message: `${tool.id} is listed here.` }],
        }
      }
    }
  },
}

/** Ends that the author typed; those of ± 5 % were worked out, and their digits are nobody's. */
function endsTyped(limit: PrintedLimit): readonly Rational[] {
  if (limit.form === 'plus-minus-percent' || limit.typed.includes('/')) return []
  const { lower, upper } = endsOf(limit)
  return [lower, upper].filter((end) => end !== null)
}

/** No step of the scale, and a digit behind the last place of its steps. */
function isBeyond(end: Rational, step: Rational): boolean {
  const place = lastPlaceOf(end)
  const finest = lastPlaceOf(step)
  if (place === null || finest === null || compare(place, finest) >= 0) return false
  return divide(end, step).denominator !== 1n
}

/** Millimetres on a scale in inches never fall on its steps, and nobody typed too many digits. */
function sameFamily(one: string, other: string): boolean {
  const [a, b] = [unitBySymbol(one), unitBySymbol(other)]
  return a !== null && b !== null && (a.system === b.system || a.system === 'both' || b.system === 'both')
}
