import type { Fault } from '../../findings/finding.ts'
import { convertValue } from '../../quantities/convert.ts'
import type { Bound, Limit, PrintedBound, PrintedLimit } from '../../quantities/quantity-types.ts'
import { compare, fromExactText } from '../../quantities/rational.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyInstrumentUse, instrumentData } from '../instruments.ts'

/** A wrench that ends at 100 N·m cannot tighten to 250 N·m: the fitter takes another, or a pipe over the handle. */
export const instrumentOutOfRange: Check = {
  name: 'readings/instrument-out-of-range',
  severity: 'error',
  title: 'A limit lies outside what the instrument or wrench can read or reach.',
  rules: ['NU-09', 'NU-11'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { name, limit, tools, isSetOtherwise, at } of everyInstrumentUse(procedure)) {
      // What the wrench is set to then is told by torque/setting-out-of-range.
      if (isSetOtherwise) continue
      for (const tool of tools) {
        const { range } = instrumentData(tool)
        if (range === null) continue
        const why = whyNot(limit, range)
        if (why === null) continue
        yield {
          at,
          message: `"${name}" asks for ${limit.typed}, but ${tool.id} ${why} (${range.typed}).`,
          advice: 'Take an instrument that covers the limit, or correct its range.',
          related: [{ at: tool.at, message: `${tool.id} is listed here.` }],
        }
      }
    }
  },
}

function whyNot(limit: PrintedLimit, range: Limit): string | null {
  const ends = [limit.lower, limit.upper].filter((end) => end !== null)
  if (ends.some((end) => isBeyond(end, limit.unit, range.upper, range.unit, 1))) return 'does not go so far'
  // Below its range only matters where the limit has an end there: "max 0.5 MPa" asks for no small reading.
  if (ends.some((end) => isBeyond(end, limit.unit, range.lower, range.unit, -1))) return 'does not begin so low'
  return null
}

/** Whether an end of a limit lies beyond an end of the range; false where the two measure different things. */
function isBeyond(end: PrintedBound, unit: string, reach: Bound | null, rangeUnit: string, side: 1 | -1): boolean {
  const value = fromExactText(end.exact)
  if (reach === null || value === null) return false
  const converted = convertValue(value, unit, rangeUnit)
  return converted.ok && compare(converted.value, reach.value) * side > 0
}
